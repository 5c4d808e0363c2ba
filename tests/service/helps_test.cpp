#include "service/helps.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "service/few.h"
#include "shared/knowledge.h"
#include "store/scratch.h"

// What would help is asked of records that would be so; here the same is really recorded, and must answer the
// same.
namespace mitefall::service {
namespace {

using records::AnimalId;
using records::EnclosureId;
using units::Day;

const Day today = units::parse_day("2026-11-25").value();
const Now now{today, "2026-11-25T20:00:00Z"};

records::EnclosureAdded enclosure(const std::string& id, records::Material material) {
    const records::Climate climate{units::celsius(28), units::celsius(26),
                                   units::relative_humidity_percent(60)};
    return {EnclosureId(id),           id,      records::RoomId("den"),         material,
            records::Substrate::paper, climate, units::square_centimetres(2500)};
}

class WhatHelps : public store::Scratch {
  protected:
    /// Wood with mites, a tub beside it with an animal nobody weighed, a tortoise in the same air.
    Keeper den(const std::string& name) {
        auto keeper = Keeper::create(at(name).string(), knowledge()).value();
        const Day begin = units::parse_day("2026-01-01").value();
        const records::Climate climate{units::celsius(26), units::celsius(24),
                                       units::relative_humidity_percent(60)};
        std::vector<DatedFact> facts{
            {begin,
             records::RoomAdded{
                 records::RoomId("den"), "den", climate, {}, units::square_centimetres(90000)}},
            {begin, enclosure("wood", records::Material::porous)},
            {begin, enclosure("tub", records::Material::sealed)},
            {begin, records::AnimalArrived{AnimalId("ivy"), "ivy", "corn snake", "", EnclosureId("wood")}},
            {begin, records::AnimalArrived{AnimalId("moss"), "moss", "corn snake", "", EnclosureId("tub")}},
            {today, records::Weighed{AnimalId("ivy"), units::grams(900)}},
            {today, records::BystanderNoted{"Tully", "Hermann's tortoise", records::RoomId("den")}},
            {today,
             records::Sighted{EnclosureId("wood"), records::SeenCount::few, records::SeenWhere::on_animal}}};
        const auto ids = keeper.record_all(facts, now);
        if (!ids) throw std::runtime_error(ids.error().message());
        return keeper;
    }

    static const Helped* of(const Helps& helps, std::string_view id) {
        const auto found = std::find_if(helps.changes.begin(), helps.changes.end(),
                                        [&](const Helped& one) { return one.change.what.id == id; });
        return found == helps.changes.end() ? nullptr : &*found;
    }

    static base::Band chance_of(const Keeper& keeper) {
        return keeper.ask(now, choose_plan, few_draws()).value().choice.recommended.clear;
    }
};

TEST_F(WhatHelps, is_told_for_everything_that_stands_in_the_way_best_first) {
    const Keeper keeper = den("a");
    const auto before = keeper.last_entry().value();
    const Helps helps = keeper.ask(now, what_helps, few_draws()).value();
    for (const auto* const id : {"weigh_them", "move_out_of_the_air", "empty_the_wood_into_tubs",
                                 "have_spare_tubs", "drug_by_mouth"})
        EXPECT_NE(of(helps, id), nullptr) << id;
    EXPECT_EQ(of(helps, "house_them_apart"), nullptr);
    EXPECT_EQ(of(helps, "direction_to_spray"), nullptr);
    EXPECT_TRUE(std::is_sorted(helps.changes.begin(), helps.changes.end(),
                               [](const Helped& a, const Helped& b) { return a.gain > b.gain; }));
    EXPECT_EQ(helps.clear.mean, chance_of(keeper).mean);
    EXPECT_EQ(keeper.last_entry().value(), before) << "asking records nothing";
}

TEST_F(WhatHelps, a_weight_helps_as_much_as_it_does_once_it_is_on_record) {
    const Helps helps = den("a").ask(now, what_helps, few_draws()).value();
    Keeper weighed = den("b");
    ASSERT_TRUE(weighed.record({records::Weighed{AnimalId("moss"), units::grams(200)}}, today, now));
    EXPECT_EQ(of(helps, "weigh_them")->clear.mean, chance_of(weighed).mean);
}

TEST_F(WhatHelps, an_emptied_wood_helps_as_much_as_it_does_once_it_is_on_record) {
    const Helps helps = den("a").ask(now, what_helps, few_draws()).value();
    Keeper emptied = den("b");
    ASSERT_TRUE(emptied.record({enclosure("tub-for-wood", records::Material::sealed),
                                records::AnimalMoved{AnimalId("ivy"), EnclosureId("tub-for-wood")}},
                               today, now));
    EXPECT_EQ(of(helps, "empty_the_wood_into_tubs")->clear.mean, chance_of(emptied).mean);
}

TEST_F(WhatHelps, spare_tubs_help_as_much_as_in_a_plan_with_them) {
    const Keeper keeper = den("a");
    const Helps helps = keeper.ask(now, what_helps, few_draws()).value();
    const Helped& tubs = *of(helps, "have_spare_tubs");
    PlanOptions options = few_draws();
    options.limits.spare_tubs = tubs.change.spare_tubs;
    const auto planned = keeper.ask(now, choose_plan, options).value();
    EXPECT_EQ(tubs.clear.mean, planned.choice.recommended.clear.mean);
}

TEST_F(WhatHelps, a_drug_by_mouth_is_the_veterinarians_and_names_its_trial) {
    const Helps helps = den("a").ask(now, what_helps, few_draws()).value();
    const formats::HelpsView view = view_of(helps, knowledge());
    for (const formats::HelpView& one : view.changes) {
        const bool is_drug = one.what.id == changes::drug_by_mouth.id;
        EXPECT_EQ(one.whose, is_drug ? "veterinarian" : "keeper");
        EXPECT_EQ(one.sources.size(), is_drug ? 1U : 0U);
    }
    ASSERT_TRUE(view.all_own);
    EXPECT_EQ(view.all_own->whose, "keeper");
}

TEST_F(WhatHelps, can_be_cancelled) {
    PlanOptions options = few_draws();
    options.progress = [](double share) { return share < 0.4; };
    const auto answer = den("a").ask(now, what_helps, options);
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.error().kind, base::ErrorKind::conflict);
}

}  // namespace
}  // namespace mitefall::service
