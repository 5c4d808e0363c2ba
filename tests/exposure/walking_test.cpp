#include "exposure/walking.h"

#include <gtest/gtest.h>

#include <cmath>

#include "exposure/contacts.h"
#include "exposure/tracing.h"
#include "records/journal.h"
#include "shared/tables.h"
#include "words/words.h"

namespace mitefall::exposure {
namespace {

using fixtures::tables;
using records::day;
using records::EnclosureId;
using records::Journal;
using records::RoomId;
using records::tub;

// data/evidence/population.toml and contacts.toml, most likely values.
constexpr double wandering = 20, leaving = 0.002, entering = 0.3, crossing = 0.005, dying = 1.0 / 20;

struct World {
    records::Collection collection;
    Places places;
    Walking walking;

    explicit World(const Journal& journal)
        : collection(records::collection_on(journal.entries, journal.today)),
          places(collection, journal.entries, day(1, 1)),
          walking(places, tables()) {}
};

Journal rooms(std::initializer_list<std::pair<const char*, int>> enclosures_in) {
    Journal journal;
    std::vector<RoomId> before;
    for (const auto& [name, count] : enclosures_in) {
        journal.add(day(1, 1), records::room(name, before));
        for (int i = 0; i < count; ++i) journal.add(day(1, 1), tub((name + std::to_string(i)).c_str(), name));
        before = {RoomId(name)};
    }
    return journal;
}

TEST(Walking, within_one_room) {
    const World world(rooms({{"r", 2}}));
    const double expected = wandering * leaving * 1 * entering / (entering + dying) / 2;
    EXPECT_NEAR(world.walking.mites_per_day(0, 0), expected, 1e-12);
}

TEST(Walking, ways_out_grow_with_the_neighbours_up_to_four) {
    const double share = entering / (entering + dying);
    for (const auto& [count, ways] : {std::pair(1, 1), std::pair(3, 2), std::pair(5, 4), std::pair(50, 4)}) {
        const World world(rooms({{"r", count}}));
        EXPECT_NEAR(world.walking.mites_per_day(0, 0), wandering * leaving * ways * share / count, 1e-12)
            << count;
    }
}

// Two rooms with a door: q = P(end in the other room) = c/T (e/T + c/T q'), and q' = P(end in the own room) =
// e/T + c/T q.
TEST(Walking, through_a_door_as_the_linear_equations_say) {
    const World world(rooms({{"p", 1}, {"q", 1}}));
    const double total = entering + crossing + dying;
    const double e = entering / total;
    const double c = crossing / total;
    EXPECT_NEAR(world.walking.mites_per_day(0, 1), wandering * leaving * c * e / (1 - c * c), 1e-9);
    EXPECT_NEAR(world.walking.mites_per_day(0, 0), wandering * leaving * e / (1 - c * c), 1e-9);
}

TEST(Walking, an_empty_corridor_is_crossed_but_holds_nobody) {
    const World world(rooms({{"a", 1}, {"b-corridor", 0}, {"c", 1}}));
    const double side = crossing / (entering + crossing + dying);
    const double corridor = crossing / (2 * crossing + dying);
    EXPECT_EQ(world.walking.mites_per_day(0, 1), 0);
    const double first_try = side * corridor * entering / (entering + crossing + dying);
    EXPECT_NEAR(world.walking.mites_per_day(0, 2), wandering * leaving * first_try,
                wandering * leaving * first_try * 0.01)
        << "later tries add less than 1 %";
    EXPECT_EQ(world.walking.rooms_reached(0), (std::vector<std::size_t>{0, 2}));
}

TEST(Walking, rooms_without_a_door_are_out_of_reach) {
    Journal journal = rooms({{"p", 1}});
    journal.add(day(1, 1), records::room("far"));
    journal.add(day(1, 1), tub("far0", "far"));
    const World world(journal);
    EXPECT_EQ(world.walking.mites_per_day(0, 1), 0);
    EXPECT_EQ(world.walking.rooms_reached(1), (std::vector<std::size_t>{1}));
}

TEST(WalkingPaths, the_whole_time_looked_at_counts) {
    const Journal journal = rooms({{"r", 3}});
    const std::vector<EnclosureId> sighted{EnclosureId("r0")};
    const Tracing tracing = trace(journal.entries, tables(), sighted, day(11, 2)).value();
    const double rate = wandering * leaving * 2 * entering / (entering + dying) / 3;
    ASSERT_EQ(tracing.exposed.size(), 3U);
    EXPECT_NEAR(tracing.exposed[1].chance, 1 - std::exp(-rate * 60), 1e-12);
    EXPECT_EQ(tracing.exposed[1].path.at(1).kind, StepKind::same_room);
    EXPECT_EQ(
        words::say(tracing.exposed[1].what),
        "Mites were seen in r0 by 2 Nov 2026; mites may have walked from r0 to r1, in the same room, between "
        "3 Sep 2026 and 2 Nov 2026");
    EXPECT_EQ(tracing.sources.size(), 2U) << "what can walk out can have walked in";
}

TEST(WalkingPaths, only_the_days_an_enclosure_was_there_count) {
    Journal journal = rooms({{"r", 1}});
    journal.add(day(10, 23), tub("new", "r"));
    const std::vector<EnclosureId> sighted{EnclosureId("r0")};
    const Tracing tracing = trace(journal.entries, tables(), sighted, day(11, 2)).value();
    const double rate = wandering * leaving * 1 * entering / (entering + dying) / 2;
    EXPECT_NEAR(tracing.exposed[1].chance, 1 - std::exp(-rate * 10), 1e-12);
}

TEST(WalkingPaths, walking_and_contacts_make_one_chain) {
    Journal journal = rooms({{"r", 2}});
    journal.add(day(1, 1), records::room("far"));
    journal.add(day(1, 1), tub("away", "far"));
    journal.add(day(10, 3), records::ItemShared{"hook", EnclosureId("r1"), EnclosureId("away")});
    const std::vector<EnclosureId> sighted{EnclosureId("r0")};
    const Tracing tracing = trace(journal.entries, tables(), sighted, day(11, 2)).value();
    const double rate = wandering * leaving * 1 * entering / (entering + dying) / 2;
    // r1 also walked from r0 back in time and may itself be the origin: the longer walk back counts.
    const double walked_in = 1 - std::exp(-rate * 60);
    EXPECT_NEAR(tracing.exposed[2].chance, walked_in * (1 - std::exp(-wandering * 0.02)), 1e-12);
    EXPECT_EQ(tracing.exposed[2].enclosure, EnclosureId("away"));
}

TEST(WalkingPaths, a_door_is_told_apart_from_the_same_room) {
    const Journal journal = rooms({{"p", 1}, {"q", 1}});
    const std::vector<EnclosureId> sighted{EnclosureId("p0")};
    const Exposed other = trace(journal.entries, tables(), sighted, day(11, 2)).value().exposed.at(1);
    EXPECT_EQ(other.path.at(1).kind, StepKind::adjoining_room);
    EXPECT_EQ(other.path.at(1).to_room, RoomId("q"));
    EXPECT_NE(words::say(other.what).find("in another room"), std::string::npos);
}

}  // namespace
}  // namespace mitefall::exposure
