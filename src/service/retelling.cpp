#include "service/retelling.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <type_traits>
#include <variant>

#include "base/id.h"
#include "plan/course.h"
#include "records/limits.h"
#include "records/task_key.h"
#include "safety/agent_words.h"
#include "service/result.h"
#include "store/fact_json.h"

namespace mitefall::service {
namespace {

using records::Entry;
using records::list_fields;
using records::TaskPart;
using units::Day;
using units::Days;

enum class Holds { short_names, names };

/// Names of one kind of thing and what stands in their place: a word and a number, in the old order.
class Dictionary {
  public:
    Dictionary(Holds holds, std::string word) : holds_(holds), word_(std::move(word)) {}

    void add(const std::string& name) {
        if (!name.empty()) words_.emplace(name, "");
    }
    void number() {
        std::size_t count = 0;
        for (auto& [was, is] : words_) is = fmt::format("{}{}", is_usable(was) ? word_ : no_name, ++count);
    }
    [[nodiscard]] bool has(const std::string& name) const { return words_.contains(name); }
    /// Empty for an empty name.
    [[nodiscard]] std::string of(const std::string& name) const {
        const auto found = words_.find(name);
        return found == words_.end() ? std::string() : found->second;
    }
    void list(std::vector<Renamed>& into) const {
        for (const auto& [was, is] : words_) into.push_back({was, is});
    }

  private:
    struct AsPeopleCount {
        bool operator()(const std::string& a, const std::string& b) const {
            return base::count_order(a, b) < 0;
        }
    };
    /// What is no short name, in a damaged file, must not become one: its entry would count.
    [[nodiscard]] bool is_usable(const std::string& name) const {
        return holds_ == Holds::names || records::check_new_name("", name).has_value();
    }

    static constexpr std::string_view no_name = "No name ";
    Holds holds_;
    std::string word_;
    std::map<std::string, std::string, AsPeopleCount> words_;
};

/// Two names that differ in capitals only are one name (asked_first).
std::string folded(std::string text) {
    for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

struct Dictionaries {
    Dictionary rooms{Holds::short_names, "room-"};
    Dictionary enclosures{Holds::short_names, "enclosure-"};
    Dictionary animals{Holds::short_names, "animal-"};
    Dictionary stocks{Holds::short_names, "stock-"};
    Dictionary batches{Holds::short_names, "batch-"};
    Dictionary things{Holds::short_names, "thing-"};
    Dictionary room_names{Holds::names, "Room "};
    Dictionary enclosure_names{Holds::names, "Enclosure "};
    Dictionary animal_names{Holds::names, "Animal "};
    Dictionary guest_names{Holds::names, "Guest "};

    Dictionary& ids(const records::RoomId&) { return rooms; }
    Dictionary& ids(const records::EnclosureId&) { return enclosures; }
    Dictionary& ids(const records::AnimalId&) { return animals; }
    Dictionary& ids(const records::StockId&) { return stocks; }
    Dictionary& ids(const records::BatchId&) { return batches; }
    Dictionary& ids(const records::ThingId&) { return things; }

    template <class Kind>
    Dictionary& names() {
        if constexpr (std::is_same_v<Kind, records::RoomAdded>)
            return room_names;
        else if constexpr (std::is_same_v<Kind, records::EnclosureAdded>)
            return enclosure_names;
        else if constexpr (std::is_same_v<Kind, records::AnimalArrived>)
            return animal_names;
        else
            return guest_names;
    }

    void number() {
        for (Dictionary* const one : {&rooms, &enclosures, &animals, &stocks, &batches, &things, &room_names,
                                      &enclosure_names, &animal_names, &guest_names})
            one->number();
    }
};

constexpr std::string_view name_key = "name";

/// Shows the archive every field of every row.
template <class Archive, class T>
void each_row(Archive& archive, std::string_view key, std::vector<T>& rows) {
    for (T& row : rows) {
        if constexpr (requires { list_fields(archive, row); })
            list_fields(archive, row);
        else
            archive.field(key, row);
    }
}

/// The archive (records/facts/fact.h) that finds every name.
class NameFinder {
  public:
    NameFinder(Dictionaries& all, Dictionary& names) : all_(all), names_(names) {}

    void field(std::string_view key, const std::string& text) {
        if (key == name_key) names_.add(folded(text));
    }
    template <class Kind>
    void field(std::string_view, const base::Id<Kind>& id) {
        all_.ids(id).add(id.text());
    }
    template <class T>
    void field(std::string_view key, std::vector<T>& rows) {
        each_row(*this, key, rows);
    }
    template <class T>
    void field(std::string_view, const T&) {}  // holds no name
    template <class T>
    void later_field(std::string_view key, T& value) {
        field(key, value);
    }

  private:
    Dictionaries& all_;
    Dictionary& names_;
};

/// What the text says of drugs, in words of ours.
std::string agents_in(const std::string& text) {
    std::string agents;
    for (const safety::AgentWord& known : safety::agent_words_in(text))
        agents += (agents.empty() ? "" : " and ") + std::string(known.word);
    return agents.empty() ? "something" : agents;
}

/// By the name of the table; one of several kinds as it was written.
std::string kind_in(const std::string& text, const evidence::Taxa& taxa) {
    const auto meaning = taxa.meaning(text);
    switch (meaning.how) {
        case evidence::Understood::unknown: return "a kind that is not known";
        case evidence::Understood::several: return text;
        case evidence::Understood::name:
        case evidence::Understood::genus:
        case evidence::Understood::trade_name: return taxa.plain_name(*meaning.kinds.front());
    }
    return {};
}

std::string scope_in(const std::string& text) {
    for (const plan::Scope scope : {plan::Scope::chosen, plan::Scope::sighted, plan::Scope::sighted_rooms,
                                    plan::Scope::exposed, plan::Scope::everything}) {
        if (plan::to_text(scope) == text) return text;
    }
    return "a scope that is not known";
}

/// The archive that puts other words in place of everything a keeper wrote. A field of a type it does not
/// know does not compile; a text with a key it does not know becomes a set phrase.
class Renamer {
  public:
    Renamer(Dictionaries& all, Dictionary& names, const evidence::Taxa& taxa, Days shift)
        : all_(all), names_(names), taxa_(taxa), shift_(shift) {}

    void field(std::string_view key, std::string& text) {
        if (!text.empty()) text = in_place_of(key, text);
    }
    template <class Kind>
    void field(std::string_view, base::Id<Kind>& id) {
        id = base::Id<Kind>(all_.ids(id).of(id.text()));
    }
    void field(std::string_view, Day& day) { day += shift_; }
    void field(std::string_view, std::optional<Day>& day) {
        if (day) *day += shift_;
    }

    template <class T>
    void field(std::string_view key, std::vector<T>& rows) {
        each_row(*this, key, rows);
    }

    template <class T>
    requires std::is_arithmetic_v<T> || std::is_enum_v<T>
    void field(std::string_view, T&) {}
    template <class E>
    requires std::is_enum_v<E>
    void field(std::string_view, std::optional<E>&) {}
    void field(std::string_view, units::Mass&) {}
    void field(std::string_view, units::Strength&) {}
    void field(std::string_view, units::Volume&) {}
    void field(std::string_view, units::Area&) {}
    void field(std::string_view, units::Temperature&) {}
    void field(std::string_view, units::Humidity&) {}

    template <class T>
    void later_field(std::string_view key, T& value) {
        field(key, value);
    }

  private:
    [[nodiscard]] std::string in_place_of(std::string_view key, const std::string& text) const {
        if (key == name_key) return names_.of(folded(text));
        if (key == "taxon") return kind_in(text, taxa_);
        if (key == "agent") return agents_in(text);
        if (key == "scope") return scope_in(text);
        if (key == "task") return task_in(text);
        if (key == "telephone") return "000 000";
        return key == "who" ? "a veterinarian" : "a note";
    }

    [[nodiscard]] std::string task_in(const std::string& text) const {
        const auto key = records::read_task_key(text);
        if (!key) return "a task that is not known";
        return records::to_text(key->day + shift_, key->part, place_in(*key));
    }

    [[nodiscard]] std::string place_in(const records::TaskKey& key) const {
        const auto digits = [](char c) { return c >= '0' && c <= '9'; };
        if (key.part == TaskPart::mix && key.name == "spray") return key.name;
        if (key.part == TaskPart::hygiene && std::all_of(key.name.begin(), key.name.end(), digits))
            return key.name;
        const Dictionary& things = things_of(records::row_of(key.part).name_of);
        return things.has(key.name) ? things.of(key.name) : "something";
    }

    [[nodiscard]] const Dictionary& things_of(records::NameOf name_of) const {
        switch (name_of) {
            case records::NameOf::animal: return all_.animals;
            case records::NameOf::room: return all_.rooms;
            case records::NameOf::thing: return all_.things;
            case records::NameOf::enclosure:
            case records::NameOf::bench: break;
        }
        return all_.enclosures;
    }

    Dictionaries& all_;
    Dictionary& names_;
    const evidence::Taxa& taxa_;
    Days shift_;
};

Dictionaries dictionaries_of(std::span<const Entry> journal) {
    Dictionaries all;
    for (const Entry& entry : journal) {
        std::visit(
            [&]<class T>(T fact) {
                NameFinder finder(all, all.names<T>());
                list_fields(finder, fact);
            },
            entry.fact);
    }
    all.number();
    return all;
}

Days shift_to(std::optional<Day> first_day, std::span<const Entry> journal) {
    if (!first_day || journal.empty()) return Days{};
    const auto earlier = [](const Entry& a, const Entry& b) { return a.day < b.day; };
    return *first_day - std::min_element(journal.begin(), journal.end(), earlier)->day;
}

/// A fact that could not be read stands as a withdrawal with nothing in it (store/collection_file.h).
bool is_unreadable(const Entry& entry) {
    return entry.set_aside && std::holds_alternative<records::Withdrawn>(entry.fact);
}

constexpr std::string_view no_kind = "unreadable";

/// One word where it is one, else JSON.
std::string value_text(const nlohmann::json& value) {
    if (!value.is_string()) return value.dump();
    const auto& text = value.get_ref<const std::string&>();
    const auto is_plain = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
    const bool is_word = !text.empty() && text.front() >= 'a' && text.front() <= 'z' && text != "true" &&
                         text != "false" && text != "null" && std::all_of(text.begin(), text.end(), is_plain);
    return is_word ? text : value.dump();
}

Result<std::string> line_of(const Entry& entry) {
    const std::string day = units::format_day(entry.day);
    if (!units::parse_day(day))
        return fail(
            base::invalid("not a day of the journal", day, "years 1900 to 2199", "choose another first day"));
    std::string line = day + " ";
    if (is_unreadable(entry)) {
        line += no_kind;
    } else {
        const auto text = store::encode(entry.fact);
        if (!text) return fail(text.error());
        line += text->kind;
        const auto body = nlohmann::json::parse(text->body);
        for (const auto& [key, value] : body.items()) line += fmt::format(" {}={}", key, value_text(value));
    }
    if (entry.corrects) line += fmt::format(" corrects={}", *entry.corrects);
    return line + "\n";
}

}  // namespace

Retelling retell(std::span<const Entry> journal, Day today, const evidence::Taxa& taxa,
                 std::optional<Day> first_day) {
    Dictionaries all = dictionaries_of(journal);
    const Days shift = shift_to(first_day, journal);
    std::map<records::FactId, records::FactId> numbers;
    for (const Entry& entry : journal)
        numbers.emplace(entry.id, static_cast<records::FactId>(numbers.size()) + 1);
    const auto number_of = [&](records::FactId id) -> std::optional<records::FactId> {
        const auto found = numbers.find(id);
        return found == numbers.end() ? std::nullopt : std::optional(found->second);
    };
    Retelling told;
    told.today = today + shift;
    for (Entry entry : journal) {
        entry.id = numbers.at(entry.id);
        entry.day += shift;
        entry.recorded_at = units::format_day(entry.day) + "T12:00:00.000000Z";
        if (entry.corrects) entry.corrects = number_of(*entry.corrects);
        std::visit(
            [&]<class T>(T& fact) {
                Renamer renamer(all, all.names<T>(), taxa, shift);
                list_fields(renamer, fact);
            },
            entry.fact);
        told.journal.push_back(std::move(entry));
    }
    for (const Dictionary* const one : {&all.animals, &all.enclosures, &all.rooms, &all.batches, &all.things})
        one->list(told.who);
    return told;
}

Result<std::string> plain_case(const Retelling& retelling) {
    std::string text = "Say here in one sentence what this case proves.\n\n";
    for (const Entry& entry : retelling.journal) {
        const auto line = line_of(entry);
        if (!line) return fail(line.error());
        text += *line;
    }
    return text + fmt::format("\ntoday {}\n", units::format_day(retelling.today));
}

}  // namespace mitefall::service
