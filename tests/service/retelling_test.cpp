#include "service/retelling.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <set>
#include <variant>

#include "records/journal.h"
#include "records/set_aside.h"
#include "records/task_key.h"
#include "safety/check.h"
#include "service/keeper.h"
#include "store/fact_json.h"

namespace mitefall::service {
namespace {

using records::AnimalId;
using records::day;
using records::EnclosureId;
using records::Entry;
using records::Fact;
using records::RoomId;
using units::Day;
using units::Days;

const Knowledge& retelling_knowledge() {
    static const Knowledge loaded = Knowledge::load().value();
    return loaded;
}

Retelling told_of(const std::vector<Entry>& journal, Day today, std::optional<Day> first_day = {}) {
    return retell(journal, today, retelling_knowledge().taxa, first_day);
}

std::string text_of(const Retelling& told) { return plain_case(told).value(); }

constexpr const char* mark = "\u0416";  // stands in nothing the program writes

/// Puts the mark into every text and name of a fact, and one row into every list: an archive of
/// records/facts/fact.h, so that a field that is added later is marked as well.
class Marker {
  public:
    explicit Marker(std::string text) : text_(std::move(text)) {}
    void field(std::string_view, std::string& text) { text = text_; }
    template <class Kind>
    void field(std::string_view, base::Id<Kind>& id) {
        id = base::Id<Kind>(text_);
    }
    template <class T>
    void field(std::string_view key, std::vector<T>& rows) {
        using records::list_fields;
        rows.emplace_back();
        if constexpr (requires { list_fields(*this, rows.back()); })
            list_fields(*this, rows.back());
        else
            field(key, rows.back());
    }
    void field(std::string_view, Day& when) { when = day(3, 1); }
    template <class T>
    void field(std::string_view, T&) {}
    template <class T>
    void later_field(std::string_view key, T& value) {
        field(key, value);
    }

  private:
    std::string text_;
};

template <std::size_t... Index>
std::vector<Fact> marked_facts(const std::string& text, std::index_sequence<Index...>) {
    std::vector<Fact> facts;
    const auto add = [&]<class T>(T fact) {
        Marker marker(text);
        using records::list_fields;
        list_fields(marker, fact);
        facts.emplace_back(std::move(fact));
    };
    (add(std::variant_alternative_t<Index, Fact>{}), ...);
    return facts;
}

TEST(Retelling, no_field_of_any_kind_of_fact_keeps_what_was_written) {
    const std::string m = mark;
    for (const std::string& text : {m, "Rex " + m, "2026-03-01/animal/" + m, "2026-03-01/" + m + "/spray",
                                    "2026-03-01/mix/" + m, "Crotalus " + m, "ivermectin of Dr. " + m}) {
        std::vector<Entry> journal;
        for (const Fact& fact : marked_facts(text, std::make_index_sequence<std::variant_size_v<Fact>>{}))
            journal.push_back({static_cast<records::FactId>(journal.size()) + 1, day(3, 1), {}, fact, {}});
        ASSERT_NE(store::encode(journal.front().fact)->body.find(mark), std::string::npos) << "it is marked";
        EXPECT_EQ(text_of(told_of(journal, day(3, 2))).find(mark), std::string::npos) << text;
    }
}

/// Letters of all lengths, quotes, and short names; none stands in anything the program writes, and many are
/// the beginning or the end of another.
std::string any_of_pieces(const std::vector<std::string>& pieces) {
    std::string name;
    for (int i = *rc::gen::inRange(1, 5); i > 0; --i) name += *rc::gen::elementOf(pieces);
    return name;
}

std::string any_label() {
    return any_of_pieces({"Q", "\u00DF", "\u0416", "\u86C7", "Q 1", "\"Q", "=Q", "\U0001F40D"});
}

std::vector<std::string> any_short_names(std::size_t count) {
    std::set<std::string> names;
    while (names.size() < count) {
        const std::string more = names.size() > 2 ? *names.begin() : std::string();
        names.insert(any_of_pieces({"zq", "zqz", "q2z", "q10z"}) + more.substr(0, 15));
    }
    return {names.begin(), names.end()};
}

/// Three animals in two tubs of a room, with all that may speak for or against treating them; every name and
/// every text is one of `names`.
std::vector<Entry> any_journal(const std::vector<std::string>& names) {
    const auto name = [&](std::size_t i) { return names.at(i); };
    const auto text = [&] { return any_label() + " " + *rc::gen::elementOf(names); };
    std::vector<Entry> journal;
    const auto add = [&](Day when, Fact fact) {
        journal.push_back({static_cast<records::FactId>(journal.size()) + 1,
                           when,
                           units::format_day(when),
                           std::move(fact),
                           {}});
    };
    add(day(1, 1), records::RoomAdded{RoomId(name(0)), text(), records::warm, {}, units::square_metres(9)});
    for (const std::size_t i : {1U, 2U}) {
        add(day(1, 1), records::EnclosureAdded{EnclosureId(name(i)),
                                               text(),
                                               RoomId(name(0)),
                                               {},
                                               {},
                                               records::warm,
                                               units::square_centimetres(4000)});
    }
    for (const std::size_t i : {3U, 4U, 5U}) {
        const AnimalId animal(name(i));
        const EnclosureId place(name(i == 3 ? 1 : 2));
        const auto kind =
            *rc::gen::element<std::string>("corn snake", "BP", "king", "Crotalus atrox", text(), "");
        add(day(1, 2), records::AnimalArrived{animal, text(), kind, text(), place, false});
        add(day(2, 1), records::Weighed{animal, units::grams(*rc::gen::element(150.0, 180.0, 900.0))});
        if (*rc::gen::inRange(0, 2) == 0) {
            const auto agent =
                *rc::gen::element<std::string>("", text(), "Ivermectin by " + text(), "permethrin");
            const auto condition = *rc::gen::element(records::Condition::reacted, records::Condition::gravid,
                                                     records::Condition::thin);
            add(day(2, *rc::gen::inRange(2, 20)),
                records::ConditionNoted{animal, condition, true, agent, text()});
        }
        if (*rc::gen::inRange(0, 2) == 0) {
            add(day(2, *rc::gen::inRange(2, 20)),
                records::Treated{
                    place, {animal}, records::Method::spray_animal, units::milligrams_per_litre(10)});
        }
        if (*rc::gen::inRange(0, 2) == 0)
            add(day(2, 20), records::VetDirection{animal, records::Method::spray_animal, text(), text()});
    }
    add(day(2, 20),
        records::BystanderNoted{text(), *rc::gen::element<std::string>("cat", "tortoise", text()), {}});
    add(day(2, 21), records::Sighted{EnclosureId(name(1))});
    add(day(2, 22), records::TaskDone{"2026-02-22/redampen/" + name(1)});
    return journal;
}

std::vector<safety::Verdict> verdicts_of(const std::vector<Entry>& journal, Day today) {
    return safety::judge_all(records::collection_on(journal, today), units::milligrams_per_litre(10), today,
                             retelling_knowledge().tables, retelling_knowledge().taxa, {});
}

bool is_same(const safety::Verdict& a, const safety::Verdict& b, Days shift) {
    if (a.method != b.method || a.ruling != b.ruling || a.reasons.size() != b.reasons.size() ||
        a.cautions.size() != b.cautions.size() || a.until.has_value() != b.until.has_value())
        return false;
    if (a.until && *a.until + shift != *b.until) return false;
    return std::equal(a.reasons.begin(), a.reasons.end(), b.reasons.begin(),
                      [](const auto& one, const auto& other) {
                          return one.ruling == other.ruling && one.source == other.source &&
                                 one.needs_fact == other.needs_fact;
                      });
}

RC_GTEST_PROP(Retelling, has_no_name_and_is_judged_alike_in_the_same_order, ()) {
    const std::vector<std::string> names = any_short_names(6);
    const std::vector<Entry> journal = any_journal(names);
    const Day today = day(2, 23);
    const Days shift(*rc::gen::element(0, -400, 1000));
    const Retelling told = told_of(journal, today, day(1, 1) + shift);
    const std::string text = text_of(told);
    for (const char* const piece : {"zq", "q2z", "q10z", "Q", "\u00DF", "\u0416", "\u86C7", "\U0001F40D"})
        RC_ASSERT(text.find(piece) == std::string::npos);
    RC_ASSERT(text.find("No name") == std::string::npos);
    RC_ASSERT(told.today == today + shift);
    const auto before = verdicts_of(journal, today);
    const auto after = verdicts_of(told.journal, told.today);
    RC_ASSERT(before.size() == after.size());
    std::map<std::string, std::string> who;
    for (const Renamed& one : told.who) who.emplace(one.is, one.was);
    for (std::size_t i = 0; i < before.size(); ++i) {
        RC_ASSERT(who.at(after[i].animal.text()) == before[i].animal.text());
        RC_ASSERT(is_same(before[i], after[i], shift));
    }
}

TEST(Retelling, days_stay_or_are_shifted_with_all_that_names_one) {
    records::Journal journal = records::small_collection();
    journal.add(day(3, 1), records::TaskDone{"2026-02-28/animal/pim"});
    records::PlanAdopted plan;
    plan.rounds = {day(3, 1), day(3, 8)};
    plan.enclosures = {EnclosureId("a")};
    journal.add(day(3, 1), plan);
    const Retelling as_it_was = told_of(journal.entries, day(3, 2));
    EXPECT_EQ(std::get<records::TaskDone>(as_it_was.journal[5].fact).task, "2026-02-28/animal/animal-2");
    EXPECT_EQ(as_it_was.today, day(3, 2));
    const Retelling shifted = told_of(journal.entries, day(3, 2), day(1, 11));
    EXPECT_EQ(shifted.journal[0].day, day(1, 11));
    EXPECT_EQ(shifted.today, day(3, 12));
    EXPECT_EQ(std::get<records::TaskDone>(shifted.journal[5].fact).task, "2026-03-10/animal/animal-2");
    EXPECT_EQ(std::get<records::PlanAdopted>(shifted.journal[6].fact).rounds,
              (std::vector<Day>{day(3, 11), day(3, 18)}));
    const auto too_early =
        plain_case(told_of(journal.entries, day(3, 2), Day(std::chrono::year(1850) / 1 / 1)));
    ASSERT_FALSE(too_early);
    EXPECT_EQ(too_early.error().kind, base::ErrorKind::invalid_input);
}

TEST(Retelling, what_a_rule_hangs_on_stays) {
    records::Journal journal = records::small_collection();
    const AnimalId pim("pim");
    for (const char* const agent : {"", "the blue bottle", "Ivermectin, by Ann", "permethrin and fipronil"})
        journal.add(day(2, 1), records::ConditionNoted{pim, records::Condition::reacted, true, agent, "Ann"});
    const Retelling told = told_of(journal.entries, day(3, 1));
    const auto agent = [&](std::size_t entry) {
        return std::get<records::ConditionNoted>(told.journal.at(entry).fact).agent;
    };
    EXPECT_EQ(agent(5), "");
    EXPECT_EQ(agent(6), "something");
    EXPECT_EQ(agent(7), "ivermectin");
    EXPECT_EQ(agent(8), "permethrin and fipronil");
    EXPECT_EQ(std::get<records::AnimalArrived>(told.journal[3].fact).taxon, "ball python");
}

TEST(Retelling, names_that_are_one_name_stay_one) {
    records::Journal journal = records::small_collection();
    records::AnimalArrived again = records::snake("pim-2", "a");
    again.name = "PIM";
    journal.add(day(2, 1), again);
    const Retelling told = told_of(journal.entries, day(3, 1));
    const auto name = [&](std::size_t entry) {
        return std::get<records::AnimalArrived>(told.journal.at(entry).fact).name;
    };
    EXPECT_EQ(name(3), name(5));
    EXPECT_NE(name(3), name(4));
}

TEST(Retelling, an_entry_that_cannot_be_read_and_one_that_corrects_stay_so) {
    records::Journal journal = records::small_collection();
    journal.add(day(2, 1), records::Weighed{AnimalId("pim"), units::grams(900)});
    journal.entries.push_back({9, day(2, 2), {}, records::Withdrawn{}, {}, true});
    journal.entries.push_back({12, day(2, 3), {}, records::Weighed{AnimalId("pim"), units::grams(800)}, 6});
    const std::string text = text_of(told_of(journal.entries, day(3, 1)));
    EXPECT_NE(text.find("2026-02-01 weighed animal=animal-2 mass_g=900.0\n"
                        "2026-02-02 unreadable\n"
                        "2026-02-03 weighed animal=animal-2 mass_g=800.0 corrects=6\n"
                        "\ntoday 2026-03-01\n"),
              std::string::npos)
        << text;
}

TEST(Retelling, what_does_not_count_does_not_count_afterwards) {
    records::Journal journal = records::small_collection();
    journal.entries.push_back({6, day(2, 1), {}, records::room("The Den"), {}});
    journal.entries.push_back({7, day(2, 1), {}, records::Weighed{AnimalId("nobody"), units::grams(9)}, {}});
    journal.entries.push_back({8, day(2, 1), {}, records::Weighed{AnimalId("pim"), units::grams(-9)}, {}});
    Retelling told = told_of(journal.entries, day(3, 1));
    const auto aside = records::set_aside(told.journal, {});
    ASSERT_TRUE(aside);
    std::vector<records::FactId> entries;
    for (const records::SetAside& one : *aside) entries.push_back(one.entry);
    EXPECT_EQ(entries, (std::vector<records::FactId>{6, 7, 8}));
}

}  // namespace
}  // namespace mitefall::service
