#include "words/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/contract.h"
#include "units/text.h"
#include "words/en/sentences.h"
#include "words/en/terms.h"

namespace mitefall::words {
namespace {

using statement::Names;
using statement::Statement;
using statement::Term;
using statement::Value;

/// The sentence of the id; where there is one for each word of a list, that of the word.
const Sentence& sentence_of(const Statement& statement, Language language) {
    static const std::map<std::string_view, Sentence> english = [] {
        std::map<std::string_view, Sentence> all;
        for (const Sentence& one : all_sentences(Language::english)) all.emplace(one.id, one);
        return all;
    }();
    static_cast<void>(language);  // one today
    auto found = english.find(statement.id);
    if (found == english.end()) {
        const auto& arguments = statement.arguments;
        const auto* const term = arguments.empty() ? nullptr : std::get_if<Term>(&arguments.front().value);
        if (term != nullptr) found = english.find(fmt::format("{}/{}", statement.id, term->key));
    }
    if (found == english.end())
        base::expects(false, fmt::format("there is a sentence for \"{}\"", statement.id));
    return found->second;
}

/// What stands between braces: "name:how|otherwise".
struct Slot {
    std::string_view name;
    std::string_view how;
    std::string_view otherwise;

    explicit Slot(std::string_view inside) {
        const auto cut = [&inside](char mark) -> std::string_view {
            const std::size_t at = inside.find(mark);
            if (at == std::string_view::npos) return {};
            const std::string_view rest = inside.substr(at + 1);
            inside = inside.substr(0, at);
            return rest;
        };
        otherwise = cut('|');
        how = cut(':');
        name = inside;
    }
};

std::string whole_or_short(double number) {
    return std::round(number) == number ? fmt::format("{:.0f}", number) : units::show_number(number, 3);
}

std::string quoted(const Names& names) {
    std::string all;
    for (const statement::Who& who : names) all += (all.empty() ? "\"" : ", \"") + who.name + "\"";
    return all;
}

std::string all_of(const Names& names) {
    std::string all;
    for (const statement::Who& who : names) all += (all.empty() ? "" : ", ") + who.name;
    return all;
}

/// "Anna, Berta, Carla and 4 more".
std::string the_first_of(const Names& names) {
    constexpr std::size_t shown = 3;
    std::string all;
    for (std::size_t i = 0; i < std::min(shown, names.size()); ++i)
        all.append(i == 0 ? "" : ", ").append(names[i].name.empty() ? en::nameless : names[i].name);
    return names.size() > shown ? en::and_more(all, names.size() - shown) : all;
}

/// A value in words. The units are those in which rules are written: they are compared with figures that
/// stand beside them.
class Shown {
  public:
    Shown(std::string_view how, Language language) : how_(how), language_(language) {}

    std::string operator()(units::Day day) const { return units::show_day(day); }
    std::string operator()(units::TimeSpan time) const {
        if (how_ == "hours") return units::show_number(units::in_hours(time), 3);
        if (how_ == "minutes") return units::show_number(units::in_hours(time) * 60, 3);
        return en::days(units::show_number(units::in_days(time), 3));
    }
    std::string operator()(units::Mass mass) const {
        return units::show_number(units::in_grams(mass), 4) + " g";
    }
    std::string operator()(units::Strength strength) const { return units::show(strength); }
    std::string operator()(units::Dose dose) const { return units::show(dose); }
    std::string operator()(units::Temperature temperature) const {
        return how_ == "number" ? units::show_number(units::in_celsius(temperature), 3)
                                : units::show(temperature, {});
    }
    std::string operator()(units::Area area) const {
        return units::show_number(units::in_square_centimetres(area), 2) + " cm2";
    }
    std::string operator()(double number) const {
        constexpr std::string_view counted = "counted ";
        if (how_.starts_with(counted)) return en::counted(number, how_.substr(counted.size()));
        return whole_or_short(number);
    }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(const Term& term) const { return say(term, language_); }
    std::string operator()(const Names& names) const {
        return how_ == "quoted" ? quoted(names) : how_ == "all" ? all_of(names) : the_first_of(names);
    }
    std::string operator()(const std::vector<Statement>& inside) const {
        const std::string_view between = how_ == "listed" ? ", " : how_ == "either" ? en::either : "; ";
        std::string all;
        for (const Statement& one : inside)
            all.append(all.empty() ? std::string_view() : between).append(say(one, language_));
        return all;
    }

  private:
    std::string_view how_;
    Language language_;
};

std::string fill(std::string_view text, const Statement& statement, Language language) {
    std::string said;
    while (!text.empty()) {
        const std::size_t open = std::min(text.find('{'), text.size());
        said += text.substr(0, open);
        text.remove_prefix(open);
        if (text.empty()) break;
        const std::size_t close = text.find('}');
        base::expects(close != std::string_view::npos, "a brace that is opened is closed");
        const Slot slot(text.substr(1, close - 1));
        text.remove_prefix(close + 1);
        const auto& arguments = statement.arguments;
        const auto found = std::find_if(arguments.begin(), arguments.end(),
                                        [&](const auto& one) { return one.name == slot.name; });
        if (found == arguments.end())
            base::expects(false, fmt::format("\"{}\" has an argument \"{}\"", statement.id, slot.name));
        const std::string value = std::visit(Shown(slot.how, language), found->value);
        said += value.empty() ? slot.otherwise : value;
    }
    return said;
}

}  // namespace

const std::vector<Sentence>& all_sentences(Language) {
    static const std::vector<Sentence> english = [] {
        std::vector<Sentence> all;
        for (const auto part : {en::safety(), en::work(), en::exposure(), en::course(), en::asked(),
                                en::changes(), en::emptied(), en::after()}) {
            for (const Sentence& one : part) all.push_back(one);
        }
        return all;
    }();
    return english;
}

std::string say(const Statement& statement, Language language) {
    if (statement.empty()) return {};
    return fill(sentence_of(statement, language).text, statement, language);
}

std::string say_all(const std::vector<Statement>& statements, Language language) {
    std::string all;
    for (const Statement& one : statements) all += (all.empty() ? "" : " ") + say(one, language) + ".";
    return all;
}

Shared say_shared(const Statement& statement, Language language) {
    if (statement.empty()) return {};
    const Sentence& sentence = sentence_of(statement, language);
    if (sentence.common.empty()) return {fill(sentence.text, statement, language), {}};
    return {fill(sentence.common, statement, language), fill(sentence.own, statement, language)};
}

std::string say_with_remedy(const safety::Reason& reason, Language language) {
    const std::string what = say(reason.what, language);
    return reason.remedy.empty() ? what : en::with_remedy(what, say(reason.remedy, language));
}

std::string say(const Term& term, Language) { return en::term(term); }

}  // namespace mitefall::words
