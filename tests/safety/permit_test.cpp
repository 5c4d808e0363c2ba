#include "safety/permit.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "safety/cautions.h"
#include "safety/methods.h"
#include "scene.h"
#include "words/words.h"

namespace mitefall::safety {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;
using records::RoomId;

// Nobody but the safety check makes one.
static_assert(!std::is_default_constructible_v<PermittedTreatment>);
static_assert(!std::is_aggregate_v<PermittedTreatment>);
static_assert(!std::is_constructible_v<PermittedTreatment, Request>);
static_assert(!std::is_convertible_v<Request, PermittedTreatment>);
static_assert(!std::is_constructible_v<PermittedTreatment, Verdict>);
static_assert(!std::is_constructible_v<PermittedTreatment, EnclosureId, std::vector<AnimalId>, Method,
                                       units::Strength, units::Day, std::vector<Caution>>);
static_assert(!std::is_constructible_v<PermittedTreatment, RoomId, EnclosureId, std::vector<AnimalId>,
                                       Request, std::vector<Caution>>);
static_assert(std::is_copy_constructible_v<PermittedTreatment>);

Permit permit_in_tub(const Scene& scene, Method method, double strength = 10) {
    return permit_enclosure(scene.collection, EnclosureId("tub"), method, mg_per_l(strength), today(),
                            tables(), taxa(), {});
}

TEST(Permit, carries_what_was_judged) {
    Scene scene;
    const auto permitted = permit(scene.collection, scene.anna(), Method::spray_animal, mg_per_l(10), today(),
                                  tables(), taxa(), {});
    ASSERT_TRUE(permitted) << permitted.error().reason.what.id;
    EXPECT_EQ(permitted->enclosure(), EnclosureId("tub"));
    EXPECT_EQ(permitted->room(), RoomId("room"));
    EXPECT_EQ(permitted->animals(), std::vector{AnimalId("anna")});
    EXPECT_EQ(permitted->method(), Method::spray_animal);
    EXPECT_EQ(permitted->strength(), mg_per_l(10));
    EXPECT_EQ(permitted->day(), today());
    EXPECT_FALSE(permitted->cautions().empty());
}

// One by one, against what the verdict on the animal tells: its own first, then those of the method.
TEST(Permit, tells_each_caution_of_the_verdict_once) {
    Scene scene;
    scene.add_animal("bert", "corn snake", "tub");
    for (const char* const name : {"anna", "bert"})
        scene.collection.animals.at(AnimalId(name)).weight = {today(), 1, units::grams(600)};
    const auto permitted = permit_enclosure(scene.collection, EnclosureId("tub"), Method::spray_bedding,
                                            mg_per_l(10), today(), tables(), taxa(), {});
    ASSERT_TRUE(permitted) << permitted.error().reason.what.id;
    std::vector<statement::Statement> told;
    for (const Caution& caution : permitted->cautions()) {
        EXPECT_EQ(std::count(told.begin(), told.end(), caution.what), 0) << caution.what.id;
        told.push_back(caution.what);
    }
    for (const char* const name : {"anna", "bert"}) {
        const auto verdict = judge(scene.collection, scene.collection.animals.at(AnimalId(name)),
                                   Method::spray_bedding, mg_per_l(10), today(), tables(), taxa(), {});
        EXPECT_FALSE(verdict.cautions.empty());
        for (const Caution& caution : verdict.cautions)
            EXPECT_EQ(std::count(told.begin(), told.end(), caution.what), 1) << caution.what.id;
    }
    const auto general = cautions_for(Method::spray_bedding, tables());
    ASSERT_GT(told.size(), general.size()) << "of each animal how much of the spray meets it";
    for (std::size_t i = 0; i < general.size(); ++i)
        EXPECT_EQ(told[told.size() - general.size() + i], general[i].what);
}

TEST(Permit, refusal_says_why_by_whom_and_what_to_do) {
    Scene scene;
    scene.anna().taxon = "indigo snake";
    const auto refused = permit(scene.collection, scene.anna(), Method::spray_animal, mg_per_l(10), today(),
                                tables(), taxa(), {});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().kind, base::ErrorKind::refused);
    EXPECT_EQ(refused.error().reason.ruling, Ruling::never);
    EXPECT_FALSE(refused.error().reason.source.empty());
    EXPECT_FALSE(refused.error().reason.remedy.empty());
    EXPECT_EQ(refused.error().animal, AnimalId("anna"));
}

TEST(Permit, a_light_animal_gets_its_bedding_sprayed_only) {
    Scene scene;
    scene.weigh(170);  // safety.md: 160-199 g bedding only
    EXPECT_FALSE(permit_in_tub(scene, Method::spray_animal));
    EXPECT_TRUE(permit_in_tub(scene, Method::spray_bedding));
}

TEST(Permit, every_animal_of_the_enclosure_must_permit_it) {
    Scene scene;
    scene.add_animal("berta", "corn snake", "tub");
    EXPECT_EQ(permit_in_tub(scene, Method::spray_bedding)->animals().size(), 2U);
    scene.add_animal("berta", "corn snake", "tub").weight.reset();
    EXPECT_FALSE(permit_in_tub(scene, Method::spray_bedding));
    EXPECT_FALSE(permit_in_tub(scene, Method::spray_animal));
    const auto for_anna = permit(scene.collection, scene.anna(), Method::spray_bedding, mg_per_l(10), today(),
                                 tables(), taxa(), {});
    EXPECT_FALSE(for_anna) << "the other one lies on the same paper";
    const auto on_anna = permit(scene.collection, scene.anna(), Method::spray_animal, mg_per_l(10), today(),
                                tables(), taxa(), {});
    EXPECT_FALSE(on_anna) << "she comes back wet to one that may not be";
    scene.add_enclosure("spare", "room");
    scene.collection.animals.at(AnimalId("berta")).enclosure = EnclosureId("spare");
    EXPECT_TRUE(permit(scene.collection, scene.anna(), Method::spray_animal, mg_per_l(10), today(), tables(),
                       taxa(), {}));
}

TEST(Permit, an_empty_enclosure_still_breathes_the_air_of_its_room) {
    Scene scene;
    scene.add_enclosure("spare", "room");
    const auto ask = [&](Method method, double strength) {
        return permit_enclosure(scene.collection, EnclosureId("spare"), method, mg_per_l(strength), today(),
                                tables(), taxa(), {});
    };
    EXPECT_TRUE(ask(Method::spray_bedding, 10));
    EXPECT_TRUE(ask(Method::permethrin_empty, 5000));
    EXPECT_FALSE(ask(Method::spray_bedding, 200)) << "not acknowledged";
    EXPECT_FALSE(ask(Method::spray_animal, 10)) << "nobody in it";
    scene.collection.acknowledged = mg_per_l(200);
    EXPECT_TRUE(ask(Method::spray_bedding, 200)) << "acknowledged with no animal named";
    EXPECT_FALSE(ask(Method::spray_bedding, 250.1));
    scene.add_bystander("turtle", "room");
    EXPECT_EQ(ask(Method::spray_bedding, 10).error().kind, base::ErrorKind::refused);
}

TEST(Permit, a_room_is_treated_once_nobody_lives_in_it) {
    Scene scene;
    scene.add_enclosure("vivarium", "other room");
    const auto ask = [&](const char* room) {
        return permit_room(scene.collection, RoomId(room), mg_per_l(5000), today(), tables(), taxa(), {});
    };
    EXPECT_EQ(ask("room").error().kind, base::ErrorKind::refused);
    EXPECT_EQ(ask("room").error().animal, AnimalId("anna"));
    ASSERT_TRUE(ask("other room"));
    EXPECT_TRUE(ask("other room")->animals().empty());
    scene.anna().enclosure = EnclosureId("vivarium");
    EXPECT_TRUE(ask("room"));
    EXPECT_FALSE(ask("other room"));
    EXPECT_EQ(ask("cellar").error().kind, base::ErrorKind::not_found);
}

TEST(Permit, names_and_places_must_fit_the_method) {
    Scene scene;
    const Case with = prepare(scene.collection, tables(), taxa());
    const Request spray{Method::spray_animal, mg_per_l(10), today()};
    const Request room{Method::treat_room, mg_per_l(5000), today()};
    EXPECT_EQ(permit(with, AnimalId("nobody"), spray, {}).error().kind, base::ErrorKind::not_found);
    EXPECT_EQ(permit_enclosure(with, EnclosureId("nowhere"), spray, {}).error().kind,
              base::ErrorKind::not_found);
    EXPECT_EQ(permit_enclosure(with, EnclosureId("tub"), room, {}).error().kind,
              base::ErrorKind::invalid_input);
    EXPECT_EQ(permit_room(with, RoomId("room"), spray, {}).error().kind, base::ErrorKind::invalid_input);
    EXPECT_EQ(permit(with, AnimalId("anna"), room, {}).error().kind, base::ErrorKind::refused);
    EXPECT_EQ(permit_room(with, RoomId("other room"), room, {})->room(), RoomId("other room"));
}

TEST(Cautions, every_method_has_some_and_each_says_where_it_comes_from) {
    for (const Method method : records::all_of<Method>()) {
        const auto cautions = cautions_for(method, tables());
        EXPECT_FALSE(cautions.empty());
        for (const Caution& caution : cautions) {
            EXPECT_FALSE(words::say(caution.what).empty());
            const bool is_ours =
                caution.tag == evidence::Tag::common_practice || caution.tag == evidence::Tag::assumption;
            EXPECT_EQ(caution.source.empty(), is_ours) << caution.what.id;
        }
    }
}

}  // namespace
}  // namespace mitefall::safety
