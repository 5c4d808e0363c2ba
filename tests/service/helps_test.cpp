#include "service/helps.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "service/changes.h"
#include "service/den.h"
#include "service/few.h"

// What would help is asked of records that would be so; here the same is really recorded, and must answer the
// same.
namespace mitefall::service {
namespace {

using formats::HelpsView;
using formats::HelpView;
using records::AnimalId;
using records::EnclosureId;

class WhatHelps : public WithADen {
  protected:
    /// Wood with mites, a tub beside it with an animal nobody weighed, a tortoise in the same air.
    Keeper den(const std::string& name) {
        return WithADen::den(
            name, climate_of(28, 26),
            {{the_beginning,
              records::AnimalArrived{AnimalId("moss"), "moss", "corn snake", "", EnclosureId("tub")}},
             {today, records::Weighed{AnimalId("ivy"), units::grams(900)}},
             {today, records::BystanderNoted{"Tully", "Hermann's tortoise", records::RoomId("den")}}});
    }

    static const HelpView* of(const HelpsView& helps, std::string_view id) {
        const auto found = std::find_if(helps.changes.begin(), helps.changes.end(),
                                        [&](const HelpView& one) { return one.what.id == id; });
        return found == helps.changes.end() ? nullptr : &*found;
    }

    static base::Band chance_of(const Keeper& keeper) {
        return keeper.ask(now, choose_plan, few_draws()).value().choice.recommended.clear;
    }
};

TEST_F(WhatHelps, is_told_for_everything_that_stands_in_the_way_best_first) {
    const Keeper keeper = den("a");
    const auto before = keeper.last_entry().value();
    const HelpsView helps = keeper.ask(now, what_helps, few_draws()).value();
    for (const auto* const id : {"weigh_them", "move_out_of_the_air", "empty_the_wood_into_tubs",
                                 "have_spare_tubs", "drug_by_mouth"})
        EXPECT_NE(of(helps, id), nullptr) << id;
    EXPECT_EQ(of(helps, "house_them_apart"), nullptr);
    EXPECT_EQ(of(helps, "direction_to_spray"), nullptr);
    EXPECT_TRUE(std::is_sorted(helps.changes.begin(), helps.changes.end(),
                               [](const HelpView& a, const HelpView& b) { return a.gain > b.gain; }));
    EXPECT_EQ(helps.clear.mean, chance_of(keeper).mean);
    EXPECT_EQ(keeper.last_entry().value(), before) << "asking records nothing";
}

TEST_F(WhatHelps, a_weight_helps_as_much_as_it_does_once_it_is_on_record) {
    const HelpsView helps = den("a").ask(now, what_helps, few_draws()).value();
    Keeper weighed = den("b");
    ASSERT_TRUE(weighed.record({records::Weighed{AnimalId("moss"), units::grams(200)}}, today, now));
    EXPECT_EQ(of(helps, "weigh_them")->clear.mean, chance_of(weighed).mean);
}

TEST_F(WhatHelps, an_emptied_wood_helps_as_much_as_it_does_once_it_is_on_record) {
    const HelpsView helps = den("a").ask(now, what_helps, few_draws()).value();
    Keeper emptied = den("b");
    ASSERT_TRUE(emptied.record({enclosure("tub-for-wood", records::Material::sealed),
                                records::AnimalMoved{AnimalId("ivy"), EnclosureId("tub-for-wood")}},
                               today, now));
    EXPECT_EQ(of(helps, "empty_the_wood_into_tubs")->clear.mean, chance_of(emptied).mean);
}

TEST_F(WhatHelps, other_life_that_moves_out_helps_as_much_as_it_does_once_that_is_on_record) {
    const HelpsView helps = den("a").ask(now, what_helps, few_draws()).value();
    Keeper alone = den("b");
    ASSERT_TRUE(alone.record({records::BystanderMoved{{"Tully", {}, {}}}}, today, now));
    EXPECT_EQ(of(helps, "move_out_of_the_air")->clear.mean, chance_of(alone).mean);
}

TEST_F(WhatHelps, spare_tubs_help_as_much_as_in_a_plan_with_them) {
    const Keeper keeper = den("a");
    const HelpsView helps = keeper.ask(now, what_helps, few_draws()).value();
    const HelpView& tubs = *of(helps, "have_spare_tubs");
    PlanOptions options = few_draws();
    options.limits.spare_tubs = static_cast<int>(std::get<double>(tubs.what.arguments.at(0).value));
    const auto planned = keeper.ask(now, choose_plan, options).value();
    EXPECT_EQ(tubs.clear.mean, planned.choice.recommended.clear.mean);
}

TEST_F(WhatHelps, a_drug_by_mouth_is_the_veterinarians_and_names_its_trial) {
    const HelpsView helps = den("a").ask(now, what_helps, few_draws()).value();
    for (const HelpView& one : helps.changes) {
        const bool is_drug = one.what.id == changes::drug_by_mouth.id;
        EXPECT_EQ(one.whose, is_drug ? "veterinarian" : "keeper");
        EXPECT_EQ(one.sources.size(), is_drug ? 1U : 0U);
    }
    ASSERT_TRUE(helps.all_own);
    EXPECT_EQ(helps.all_own->whose, "keeper");
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
