#include "tables/columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <set>

#include "tables/cells.h"

namespace mitefall::tables {
namespace {

using base::fail;

/// Words of a heading that name a field. A word ends with "*" where more letters may follow; two words with a
/// space between them must both be there, the first earlier.
struct Hint {
    Field field;
    bool must_begin;
    std::vector<std::string_view> words;
};

const std::vector<Hint>& hints() {
    static const std::vector<Hint> all{
        {Field::animal, true, {"animal", "name", "snake", "id"}},
        {Field::kind, false, {"species", "kind*", "tax*", "type*", "morph*"}},
        {Field::enclosure, false, {"enclosure*", "tub*", "cage*", "vivari*", "tank*", "box*", "slot*"}},
        {Field::room, false, {"room*", "location*", "rack*"}},
        {Field::weight, false, {"weight*", "mass*", "gram", "grams", "kg", "lb", "lbs", "oz"}},
        {Field::arrived, false, {"arriv*", "acquired", "since", "bought", "date*"}},
        {Field::origin, false, {"origin*", "from", "breeder*", "source*"}},
        {Field::quarantine, false, {"quarantine*"}},
        {Field::material, false, {"material*"}},
        {Field::substrate, false, {"substrate*", "bedding*"}},
        {Field::day_c, false, {"day temp*", "day c", "temp* day", "temp*"}},
        {Field::night_c, false, {"night*"}},
        {Field::humidity, false, {"humid*"}},
        {Field::floor, false, {"floor*", "area*"}},
    };
    return all;
}

std::vector<std::string> words_of(std::string_view heading) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : folded(heading) + " ") {
        const bool is_letter =
            (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
        if (is_letter) {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::exchange(word, {}));
        }
    }
    return words;
}

bool is_word(std::string_view word, std::string_view hint) {
    return hint.ends_with('*') ? word.starts_with(hint.substr(0, hint.size() - 1)) : word == hint;
}

/// Whether the hint's words stand in the heading in that order; the first at its beginning, where it must.
bool fits(const std::vector<std::string>& words, std::string_view hint, bool must_begin) {
    std::size_t from = 0;
    while (!hint.empty()) {
        const std::string_view one = hint.substr(0, hint.find(' '));
        hint.remove_prefix(std::min(hint.size(), one.size() + 1));
        while (from < words.size() && !is_word(words[from], one)) ++from;
        if (from == words.size()) return false;
        if (must_begin && from > 0) return false;
        ++from;
    }
    return true;
}

std::optional<std::size_t> column_of(const std::vector<std::string>& headings, std::string_view said) {
    for (std::size_t i = 0; i < headings.size(); ++i) {
        if (folded(headings[i]) == folded(said)) return i;
    }
    std::size_t number = 0;
    const auto read = std::from_chars(said.data(), said.data() + said.size(), number);
    const bool is_number = read.ec == std::errc{} && read.ptr == said.data() + said.size();
    return is_number && number >= 1 && number <= headings.size() ? std::optional(number - 1) : std::nullopt;
}

}  // namespace

Matching guess_columns(const std::vector<std::string>& headings) {
    Matching matching;
    std::set<std::size_t> taken;
    for (const Hint& hint : hints()) {
        for (std::size_t i = 0; i < headings.size() && !matching.contains(hint.field); ++i) {
            const auto words = words_of(headings[i]);
            const bool is_it = !taken.contains(i) &&
                               std::any_of(hint.words.begin(), hint.words.end(), [&](std::string_view one) {
                                   return fits(words, one, hint.must_begin);
                               });
            if (is_it) matching[hint.field] = i;
        }
        if (const auto found = matching.find(hint.field); found != matching.end())
            taken.insert(found->second);
    }
    return matching;
}

base::Result<Matching> match_columns(const std::vector<std::string>& headings,
                                     const std::vector<std::string>& said) {
    Matching matching = guess_columns(headings);
    std::map<Field, std::size_t> told;
    for (const std::string& one : said) {
        const std::size_t sign = one.find('=');
        const auto field = base::from_text<Field>(trimmed(std::string_view(one).substr(0, sign)));
        if (!field || sign == std::string::npos)
            return fail(base::invalid("no column is matched like that", one,
                                      "FIELD=HEADING, with one of " + base::list_texts<Field>()));
        matching.erase(*field);
        const std::string_view named = trimmed(std::string_view(one).substr(sign + 1));
        if (named.empty()) continue;
        const auto column = column_of(headings, named);
        if (!column)
            return fail(base::invalid("the table has no such column", std::string(named),
                                      fmt::format("{}", fmt::join(headings, ", "))));
        told[*field] = *column;
    }
    // A column that is told to mean something is no longer guessed to mean something else.
    for (const auto& [field, column] : told) {
        std::erase_if(matching, [&, c = column](const auto& one) { return one.second == c; });
    }
    matching.insert(told.begin(), told.end());
    return matching;
}

}  // namespace mitefall::tables
