#include "exposure/tracing.h"

#include <gtest/gtest.h>

#include <cmath>

#include "records/journal.h"
#include "shared/tables.h"
#include "words/words.h"

namespace mitefall::exposure {
namespace {

using fixtures::tables;
using records::AnimalId;
using records::AnimalMoved;
using records::day;
using records::EnclosureId;
using records::Handled;
using records::ItemShared;
using records::Journal;
using records::RoomId;
using records::snake;
using records::tub;

/// Each enclosure in a room of its own that adjoins no other, so that nothing walks; one snake "in-x" in each
/// "x".
Journal apart(std::initializer_list<const char*> enclosures) {
    Journal journal;
    for (const std::string name : enclosures) {
        journal.add(day(1, 1), records::room(("room-" + name).c_str()));
        journal.add(day(1, 1), tub(name.c_str(), ("room-" + name).c_str()));
        journal.add(day(1, 1), snake(("in-" + name).c_str(), name.c_str()));
    }
    return journal;
}

Tracing traced(const Journal& journal, const char* sighted, units::Day when) {
    const std::vector<EnclosureId> enclosures{EnclosureId(sighted)};
    return trace(journal.entries, tables(), enclosures, when).value();
}

Exposed find(const Tracing& tracing, const char* enclosure) {
    for (const Exposed& exposed : tracing.exposed) {
        if (exposed.enclosure == EnclosureId(enclosure)) return exposed;
    }
    throw std::runtime_error(std::string("not listed: ") + enclosure);
}

// Values of data/evidence/contacts.toml: 10 feeding mites, 20 wandering, 0.01 by hand, 0.1 by bag, 0.02 by
// item.
const double by_move = 1 - std::exp(-10.0);
const double by_hand = 1 - std::exp(-10 * 0.01);
const double by_bag = 1 - std::exp(-10 * 0.1);
const double by_item = 1 - std::exp(-20 * 0.02);

TEST(Tracing, lists_every_enclosure_and_says_where_nothing_is_known) {
    const Tracing tracing = traced(apart({"a", "b", "c"}), "b", day(11, 2));
    EXPECT_EQ(tracing.to, day(11, 2));
    EXPECT_EQ(tracing.from, day(11, 2) - units::Days(60));  // look_back
    ASSERT_EQ(tracing.exposed.size(), 3U);
    EXPECT_EQ(tracing.exposed[0].enclosure, EnclosureId("b"));
    EXPECT_TRUE(tracing.exposed[0].sighted);
    EXPECT_EQ(tracing.exposed[0].chance, 1);
    EXPECT_EQ(tracing.exposed[0].path.at(0).kind, StepKind::sighted);
    EXPECT_EQ(tracing.exposed[1].enclosure, EnclosureId("a"));
    EXPECT_EQ(tracing.exposed[2].enclosure, EnclosureId("c"));
    EXPECT_EQ(tracing.exposed[2].chance, 0);
    EXPECT_TRUE(tracing.exposed[2].path.empty());
    EXPECT_EQ(words::say(tracing.exposed[2].what),
              "no contact on record from 3 Sep 2026 to 2 Nov 2026; what was not written down is not known");
    EXPECT_TRUE(tracing.sources.empty());
}

TEST(Tracing, an_animal_moved_out_almost_surely_takes_mites_along) {
    Journal journal = apart({"a", "b"});
    journal.add(day(10, 20), AnimalMoved{AnimalId("in-a"), EnclosureId("b")});
    const Exposed exposed = find(traced(journal, "a", day(11, 2)), "b");
    EXPECT_DOUBLE_EQ(exposed.chance, by_move);
    ASSERT_EQ(exposed.path.size(), 2U);
    EXPECT_EQ(exposed.path[1].kind, StepKind::moved_to);
    EXPECT_EQ(exposed.path[1].animal, AnimalId("in-a"));
    EXPECT_EQ(exposed.path[1].from, EnclosureId("a"));
    EXPECT_EQ(exposed.path[1].to_room, RoomId("room-b"));
    EXPECT_EQ(exposed.path[1].day, day(10, 20));
    EXPECT_EQ(words::say(exposed.path[1].what), "in-a was moved from a to b on 20 Oct 2026");
    EXPECT_TRUE(traced(journal, "a", day(11, 2)).sources.empty());
}

TEST(Tracing, where_an_animal_came_from_is_a_source) {
    Journal journal = apart({"a", "b"});
    journal.add(day(10, 20), AnimalMoved{AnimalId("in-a"), EnclosureId("b")});
    const Tracing tracing = traced(journal, "b", day(11, 2));
    ASSERT_EQ(tracing.sources.size(), 1U);
    EXPECT_EQ(tracing.sources[0].enclosure, EnclosureId("a"));
    EXPECT_EQ(tracing.sources[0].path.at(1).kind, StepKind::moved_from);
    EXPECT_DOUBLE_EQ(find(tracing, "a").chance, by_move);
}

TEST(Tracing, handling_has_an_order) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(11, 2), Handled{{AnimalId("in-a"), AnimalId("in-b"), AnimalId("in-c")}, false});
    const Tracing tracing = traced(journal, "b", day(11, 2));
    const Exposed after = find(tracing, "c");
    EXPECT_DOUBLE_EQ(after.chance, by_hand);
    EXPECT_EQ(after.path.at(1).kind, StepKind::handled_after);
    EXPECT_EQ(after.path.at(1).animal, AnimalId("in-c"));
    EXPECT_EQ(words::say(after.what),
              "Mites were seen in b by 2 Nov 2026; in-c was handled after in-b on 2 Nov 2026");
    ASSERT_EQ(tracing.sources.size(), 1U) << "only what was handled before";
    EXPECT_EQ(tracing.sources[0].enclosure, EnclosureId("a"));
    EXPECT_EQ(tracing.sources[0].path.at(1).animal, AnimalId("in-a"));
    EXPECT_EQ(words::say(tracing.sources[0].path.at(1).what), "in-b was handled after in-a on 2 Nov 2026");
}

TEST(Tracing, everyone_handled_later_in_the_session_is_exposed) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(11, 2), Handled{{AnimalId("in-a"), AnimalId("in-b"), AnimalId("in-c")}, false});
    const Tracing tracing = traced(journal, "a", day(11, 2));
    EXPECT_DOUBLE_EQ(find(tracing, "b").chance, by_hand);
    EXPECT_DOUBLE_EQ(find(tracing, "c").chance, by_hand);
}

TEST(Tracing, a_shared_bag_works_both_ways) {
    Journal journal = apart({"a", "b"});
    journal.add(day(11, 1), Handled{{AnimalId("in-a"), AnimalId("in-b")}, true});
    EXPECT_DOUBLE_EQ(find(traced(journal, "a", day(11, 2)), "b").chance, by_bag);
    const Exposed first = find(traced(journal, "b", day(11, 2)), "a");
    EXPECT_DOUBLE_EQ(first.chance, by_bag);
    EXPECT_EQ(first.path.at(1).kind, StepKind::shared_bag);
}

TEST(Tracing, a_shared_item_works_one_way) {
    Journal journal = apart({"a", "b"});
    journal.add(day(11, 1), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    const Exposed exposed = find(traced(journal, "a", day(11, 2)), "b");
    EXPECT_DOUBLE_EQ(exposed.chance, by_item);
    EXPECT_EQ(words::say(exposed.path.at(1).what), "hook used in a and then in b on 1 Nov 2026");
    EXPECT_TRUE(exposed.path.at(1).animal.empty());
    EXPECT_TRUE(traced(journal, "a", day(11, 2)).sources.empty());
    EXPECT_EQ(traced(journal, "b", day(11, 2)).sources.size(), 1U);
}

TEST(Tracing, mites_must_arrive_before_they_are_passed_on) {
    Journal early = apart({"a", "b", "c"});
    early.add(day(10, 3), ItemShared{"hook", EnclosureId("b"), EnclosureId("c")});
    early.add(day(10, 5), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    EXPECT_EQ(find(traced(early, "a", day(11, 2)), "c").chance, 0);
    Journal late = apart({"a", "b", "c"});
    late.add(day(10, 5), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    late.add(day(10, 5), ItemShared{"hook", EnclosureId("b"), EnclosureId("c")});
    EXPECT_DOUBLE_EQ(find(traced(late, "a", day(11, 2)), "c").chance, by_item * by_item);
}

TEST(Tracing, sources_are_followed_backward_in_time) {
    Journal journal = apart({"a", "b", "c", "d"});
    journal.add(day(10, 3), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    journal.add(day(10, 5), ItemShared{"hook", EnclosureId("b"), EnclosureId("c")});
    journal.add(day(10, 7), ItemShared{"hook", EnclosureId("d"), EnclosureId("b")});
    const Tracing tracing = traced(journal, "c", day(11, 2));
    ASSERT_EQ(tracing.sources.size(), 2U);
    EXPECT_EQ(tracing.sources[0].enclosure, EnclosureId("b"));
    EXPECT_EQ(tracing.sources[1].enclosure, EnclosureId("a"));
    EXPECT_DOUBLE_EQ(tracing.sources[1].chance, by_item * by_item);
    EXPECT_EQ(find(tracing, "d").chance, 0) << "d gave to b only after b gave to c";
}

TEST(Tracing, a_common_source_exposes_its_other_contacts) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(10, 3), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    journal.add(day(10, 9), ItemShared{"bowl", EnclosureId("a"), EnclosureId("c")});
    const Exposed exposed = find(traced(journal, "b", day(11, 2)), "c");
    EXPECT_DOUBLE_EQ(exposed.chance, by_item * by_item);
    ASSERT_EQ(exposed.path.size(), 3U);
    EXPECT_EQ(exposed.path[1].from, EnclosureId("a"));
    EXPECT_EQ(exposed.path[1].to, EnclosureId("b"));
    EXPECT_EQ(exposed.path[2].from, EnclosureId("a"));
    EXPECT_EQ(exposed.path[2].to, EnclosureId("c"));
}

TEST(Tracing, animals_carry_from_where_they_lived_that_day) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(10, 10), Handled{{AnimalId("in-a"), AnimalId("in-c")}, false});
    journal.add(day(10, 20), AnimalMoved{AnimalId("in-c"), EnclosureId("b")});
    const Tracing tracing = traced(journal, "a", day(11, 2));
    EXPECT_DOUBLE_EQ(find(tracing, "c").chance, by_hand) << "it lived in c when it was handled";
    EXPECT_DOUBLE_EQ(find(tracing, "b").chance, by_hand * by_move);
}

TEST(Tracing, looks_back_no_further_than_the_window) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(9, 2), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    journal.add(day(9, 3), ItemShared{"hook", EnclosureId("a"), EnclosureId("c")});
    journal.add(day(11, 3), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    const Tracing tracing = traced(journal, "a", day(11, 2));
    EXPECT_EQ(find(tracing, "b").chance, 0) << "61 days before, and the day after";
    EXPECT_GT(find(tracing, "c").chance, 0) << "60 days before";
    EXPECT_GT(find(traced(journal, "a", day(11, 3)), "b").chance, 0);
}

TEST(Tracing, withdrawn_contacts_do_not_count) {
    Journal journal = apart({"a", "b"});
    const auto wrong = journal.add(day(11, 1), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    journal.add(day(11, 2), records::Withdrawn{"another hook"}, wrong);
    EXPECT_EQ(find(traced(journal, "a", day(11, 2)), "b").chance, 0);
}

TEST(Tracing, arrivals_from_outside_are_named) {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(10, 1), snake("newcomer", "a"));
    journal.add(day(10, 1), snake("other", "c"));
    journal.add(day(10, 9), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    journal.add(day(10, 10), snake("too-late", "a"));
    journal.add(day(10, 11), snake("into-b", "b"));
    const Tracing tracing = traced(journal, "b", day(11, 2));
    ASSERT_EQ(tracing.arrivals.size(), 2U);
    EXPECT_EQ(tracing.arrivals[0].animal, AnimalId("into-b"));
    EXPECT_EQ(tracing.arrivals[0].chance, 1);
    EXPECT_EQ(tracing.arrivals[1].animal, AnimalId("newcomer"));
    EXPECT_DOUBLE_EQ(tracing.arrivals[1].chance, by_item);
    EXPECT_EQ(words::say(tracing.arrivals[1].what), "newcomer came from outside into a on 1 Oct 2026");
}

TEST(Tracing, several_sightings_are_traced_together) {
    Journal journal = apart({"a", "b", "c", "d"});
    journal.add(day(10, 9), ItemShared{"hook", EnclosureId("b"), EnclosureId("d")});
    journal.add(day(10, 9), AnimalMoved{AnimalId("in-a"), EnclosureId("c")});
    const std::vector<EnclosureId> seen{EnclosureId("b"), EnclosureId("a")};
    const Tracing tracing = trace(journal.entries, tables(), seen, day(11, 2)).value();
    std::string order;
    for (const Exposed& exposed : tracing.exposed) order += exposed.enclosure.text();
    EXPECT_EQ(order, "abcd");
    EXPECT_TRUE(tracing.sources.empty());
}

TEST(Tracing, the_best_of_several_paths_is_shown) {
    Journal journal = apart({"a", "b"});
    journal.add(day(10, 1), Handled{{AnimalId("in-a"), AnimalId("in-b")}, false});
    journal.add(day(10, 2), ItemShared{"hook", EnclosureId("a"), EnclosureId("b")});
    const Exposed exposed = find(traced(journal, "a", day(11, 2)), "b");
    EXPECT_DOUBLE_EQ(exposed.chance, by_item);
    EXPECT_EQ(exposed.path.at(1).kind, StepKind::shared_item);
}

/// What contact with the outside may have brought, with nothing seen.
base::Result<Tracing> brought(const Journal& journal, units::Day when) {
    return trace_outside(journal.entries, records::collection_on(journal.entries, when), tables());
}

/// Wood for "a" on 10 March, the snakes of "a" and "b" handled after each other on the 11th.
Journal outside_and_handled() {
    Journal journal = apart({"a", "b", "c"});
    journal.add(day(3, 10),
                records::OutsideContact{records::OutsideKind::second_hand_wood, {}, {EnclosureId("a")}, ""});
    journal.add(day(3, 11), Handled{{AnimalId("in-a"), AnimalId("in-b")}, false});
    return journal;
}

TEST(Tracing, contact_with_the_outside_is_a_way_in_without_a_sighting) {
    Journal journal = outside_and_handled();
    const Tracing found = brought(journal, day(3, 12)).value();
    // Row outside_second_hand_wood is 0.05; then handled in one session.
    EXPECT_EQ(found.exposed[0].enclosure, EnclosureId("a"));
    EXPECT_NEAR(found.exposed[0].chance, 0.05, 1e-12);
    EXPECT_FALSE(found.exposed[0].sighted);
    EXPECT_EQ(found.exposed[0].path.front().kind, StepKind::outside);
    const Exposed& next = found.exposed[1];
    EXPECT_EQ(next.enclosure, EnclosureId("b"));
    EXPECT_NEAR(next.chance, 0.05 * by_hand, 1e-12);
    EXPECT_EQ(next.path.back().kind, StepKind::handled_after);
    EXPECT_TRUE(found.sources.empty());
}

TEST(Tracing, what_was_handled_before_the_contact_got_nothing_from_it) {
    Journal journal = outside_and_handled();
    journal.add(day(3, 9), Handled{{AnimalId("in-a"), AnimalId("in-c")}, false});
    EXPECT_EQ(find(brought(journal, day(3, 12)).value(), "c").chance, 0);
}

// Any of three rooms, each alike: together as likely as the row. What is loose in a room dies or walks in.
TEST(Tracing, contact_that_may_have_reached_any_room_is_shared_among_them) {
    Journal journal = outside_and_handled();
    journal.add(day(3, 11), records::OutsideContact{records::OutsideKind::show, {}, {}, ""});
    const Tracing found = brought(journal, day(3, 12)).value();
    const double whole = units::as_fraction(tables().part("outside_show").value);
    EXPECT_GT(find(found, "c").chance, 0);
    EXPECT_LT(find(found, "c").chance, 1 - std::cbrt(1 - whole));
}

TEST(Tracing, without_contact_with_the_outside_there_is_nothing_to_trace) {
    const auto none = brought(Journal(), day(3, 12));
    ASSERT_FALSE(none);
    EXPECT_EQ(none.error().kind, base::ErrorKind::not_found);
}

TEST(Tracing, unknown_or_no_enclosures_are_errors) {
    const Journal journal = apart({"a"});
    const std::vector<EnclosureId> lost{EnclosureId("lost")};
    const auto unknown = trace(journal.entries, tables(), lost, day(11, 2));
    ASSERT_FALSE(unknown);
    EXPECT_EQ(unknown.error().kind, base::ErrorKind::not_found);
    EXPECT_EQ(unknown.error().value, "lost");
    EXPECT_FALSE(trace(journal.entries, tables(), {}, day(11, 2)));
    const std::vector<EnclosureId> early{EnclosureId("a")};
    EXPECT_FALSE(trace(journal.entries, tables(), early, day(1, 1) - units::Days(1)))
        << "before it was there";
}

TEST(StepKinds, each_has_its_own_text) {
    EXPECT_EQ(to_text(StepKind::handled_after), "handled-after");
    EXPECT_NE(to_text(StepKind::moved_from), to_text(StepKind::moved_to));
}

}  // namespace
}  // namespace mitefall::exposure
