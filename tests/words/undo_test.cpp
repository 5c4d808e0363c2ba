#include "words/undo.h"

#include <gtest/gtest.h>

#include "../store/any_fact.h"
#include "records/limits.h"

namespace mitefall::words {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Entry;
using records::RoomId;

records::Collection named() {
    records::Collection names;
    names.rooms[RoomId("den")].name = "The den";
    names.enclosures[EnclosureId("t-4")].name = "Tub 4";
    names.animals[AnimalId("ada")].name = "Ada";
    return names;
}

std::string undone(const std::vector<records::Fact>& facts) {
    std::vector<Entry> entries(facts.size());
    for (std::size_t i = 0; i < facts.size(); ++i) {
        Entry& entry = entries[facts.size() - 1 - i];  // newest first, as an undo takes them
        entry.id = static_cast<records::FactId>(i) + 1;
        entry.fact = facts[i];
    }
    return undo_of(entries, named());
}

records::AnimalArrived arrival(int number) {
    return {AnimalId("a-" + std::to_string(number)), "Name", "", "", EnclosureId("t-4"), false};
}

TEST(UndoText, names_what_was_done_by_its_name) {
    const std::string sprayed =
        undone({records::Treated{EnclosureId("t-4"), {}, records::Method::spray_bedding, {}}});
    EXPECT_NE(sprayed.find("Tub 4"), std::string::npos) << sprayed;
    EXPECT_NE(sprayed.find(records::describe(records::Method::spray_bedding)), std::string::npos) << sprayed;
    const std::string moved = undone({records::AnimalMoved{AnimalId("ada"), EnclosureId("t-4")}});
    EXPECT_NE(moved.find("Ada"), std::string::npos) << moved;
    EXPECT_NE(moved.find("Tub 4"), std::string::npos) << moved;
    EXPECT_EQ(undone({}), "");
}

TEST(UndoText, of_an_import_tells_how_many) {
    std::vector<records::Fact> facts{records::RoomAdded{RoomId("den"), "The den", {}, {}, {}}};
    for (int number = 0; number < 999; ++number) facts.emplace_back(arrival(number));
    EXPECT_EQ(undone(facts), "undo of adding 999 animals and 1 room");
    EXPECT_NE(undone({arrival(1)}).find("Name arrived"), std::string::npos) << "one alone by its name";
}

TEST(UndoText, of_a_tick_tells_what_was_done_and_not_that_it_was_ticked) {
    const records::Treated sprayed{EnclosureId("t-4"), {}, records::Method::spray_bedding, {}};
    const records::TaskDone mark{"2026-11-25/bedding/t-4"};
    EXPECT_EQ(undone({mark, sprayed}), undone({sprayed}));
    EXPECT_NE(undone({sprayed, sprayed, mark}).find("1 more entry"), std::string::npos);
    const std::string alone = undone({mark});
    EXPECT_NE(alone.find("Tub 4"), std::string::npos) << alone;
}

TEST(UndoText, fits_the_journal_whatever_was_undone) {
    for (std::size_t kind = 0; kind < store::kinds_of_fact; ++kind) {
        EXPECT_TRUE(rc::check("a reason the journal takes", [&] {
            const std::string text = undone({store::any_fact(kind)});
            RC_ASSERT(text.starts_with("undo of "));
            RC_ASSERT(text.size() <= 2000U);
        }));
    }
    records::AnimalArrived long_name = arrival(1);
    long_name.name = std::string(2000, 'x');
    EXPECT_TRUE(records::check_text("reason", undone({long_name})));
}

}  // namespace
}  // namespace mitefall::words
