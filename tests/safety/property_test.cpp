#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "plain_rules.h"
#include "safety/methods.h"
#include "safety/permit.h"
#include "shared/random_collections.h"
#include "words/words.h"

// Random collections against the rules told a second time (plain_rules.h).
namespace mitefall::safety {
namespace {

using records::AnimalId;
using records::EnclosureId;
using records::Method;

Request any_request() {
    const Method method = any_method();
    const double strength = agent_of(method) == Agent::pyrethroid
                                ? *rc::gen::element(5000.0, 4000.0, 5100.0, 0.0)
                                : *rc::gen::element(10.0, 10.6, 5.0, 10.7, 200.0, 250.0, 251.0, 0.0, -1.0);
    return {method, mg_per_l(strength), today() + days(*rc::gen::element(0, 0, 0, 0, 1, 2, 7, 30))};
}

CourseSoFar any_course(const Scene& scene) {
    CourseSoFar course;
    for (const auto& [id, animal] : scene.collection.animals) {
        const int number = one_in(3) ? *rc::gen::inRange(1, 4) : 0;
        for (int i = 0; i < number; ++i) {
            course[id].push_back({any_method(), today() + days(any_distance())});
        }
    }
    return course;
}

/// A question about a random collection with a course already chosen.
struct Asked {
    Scene scene = any_scene();
    Case with = prepare(scene.collection, tables(), taxa());
    CourseSoFar course = any_course(scene);
    Request request = any_request();
};

/// Whether `look` finds nothing amiss at any animal of any such question.
template <class Look>
bool holds_for_any_animal(Look look) {
    return rc::check([look] {
        const Asked asked;
        for (const auto& [id, animal] : asked.scene.collection.animals) look(asked, animal);
    });
}

bool plainly_permitted(const Scene& scene, const records::Animal& animal, const Request& request,
                       const CourseSoFar& course) {
    const auto proposed = course.find(animal.id);
    return plain::may_be_done(scene.collection, animal, request.method,
                              units::in_milligrams_per_litre(request.strength), request.day,
                              proposed == course.end() ? std::vector<Application>{} : proposed->second);
}

TEST(Properties, verdicts_agree_with_the_rules_told_a_second_time) {
    EXPECT_TRUE(rc::check("permitted by the program exactly when the plain rules permit it", [] {
        const Scene scene = any_scene();
        const Case with = prepare(scene.collection, tables(), taxa());
        const CourseSoFar course = any_course(scene);
        for (int i = 0; i < 300; ++i) {
            const Request request = any_request();
            for (const auto& [id, animal] : scene.collection.animals) {
                const Verdict verdict = judge(with, animal, request, course);
                const bool expected = plainly_permitted(scene, animal, request, course);
                RC_LOG() << animal.taxon << " " << records::to_text(request.method) << " "
                         << (verdict.reasons.empty() ? "" : std::string(verdict.reasons.front().what.id));
                RC_ASSERT(permits(verdict) == expected);
            }
        }
    }));
}

bool is_inside(const Scene& scene, const records::Animal& animal, const PermittedTreatment& permitted) {
    return target_of(permitted.method()) == Target::room
               ? scene.collection.enclosures.at(animal.enclosure).room == permitted.room()
               : animal.enclosure == permitted.enclosure();
}

TEST(Properties, a_permit_exists_only_if_everybody_it_reaches_may_have_it) {
    EXPECT_TRUE(holds_for_any_animal([](const Asked& asked, const records::Animal& animal) {
        const auto permitted = permit(asked.with, animal.id, asked.request, asked.course);
        if (!permitted) return;
        const bool reaches_all = target_of(asked.request.method) != Target::animal;
        for (const auto& [other_id, other] : asked.scene.collection.animals) {
            const bool is_reached =
                other_id == animal.id || (reaches_all && is_inside(asked.scene, other, *permitted));
            const bool is_named =
                std::count(permitted->animals().begin(), permitted->animals().end(), other_id) == 1;
            RC_ASSERT(is_named == is_reached);
            RC_ASSERT(!is_reached || plainly_permitted(asked.scene, other, asked.request, asked.course));
        }
    }));
}

TEST(Properties, enclosure_permits_need_every_animal_inside) {
    EXPECT_TRUE(rc::check([] {
        const Scene scene = any_scene();
        const Case with = prepare(scene.collection, tables(), taxa());
        const CourseSoFar course = any_course(scene);
        Request request = any_request();
        RC_PRE(request.method != Method::treat_room);
        for (const auto& [id, enclosure] : scene.collection.enclosures) {
            std::vector<const records::Animal*> inside;
            for (const auto& [animal_id, animal] : scene.collection.animals) {
                if (animal.enclosure == id) inside.push_back(&animal);
            }
            if (inside.empty()) continue;
            const bool expected =
                std::all_of(inside.begin(), inside.end(), [&](const records::Animal* animal) {
                    return plainly_permitted(scene, *animal, request, course);
                });
            RC_ASSERT(permit_enclosure(with, id, request, course).has_value() == expected);
        }
    }));
}

TEST(Properties, never_is_lifted_by_no_direction_and_no_acknowledgement) {
    EXPECT_TRUE(rc::check([] {
        Scene scene = any_scene();
        const Request request = any_request();
        scene.collection.acknowledged = units::percent_mass_in_volume(100);
        for (auto& [id, animal] : scene.collection.animals) {
            animal.acknowledged = {{request.day, 1, units::percent_mass_in_volume(100)}};
        }
        std::vector<AnimalId> forbidden;
        for (const auto& [id, animal] : scene.collection.animals) {
            const Verdict verdict = judge(prepare(scene.collection, tables(), taxa()), animal, request, {});
            if (verdict.ruling == Ruling::never) forbidden.push_back(id);
            RC_ASSERT((verdict.ruling == Ruling::never) ==
                      plain::is_never(scene.collection, animal, request.method,
                                      units::in_milligrams_per_litre(request.strength), request.day));
        }
        for (auto& [id, animal] : scene.collection.animals) {
            records::VetDirection direction{id, request.method, "Dr. B", "do it"};
            direction.strength = units::percent_mass_in_volume(100);
            direction.treatments = 100;
            animal.directions.push_back({request.day, 1000000, std::move(direction)});
        }
        for (const AnimalId& id : forbidden) {
            const Case with = prepare(scene.collection, tables(), taxa());
            RC_ASSERT(judge(with, scene.collection.animals.at(id), request, {}).ruling == Ruling::never);
            RC_ASSERT(!permit(with, id, request, {}).has_value());
        }
    }));
}

// Of 100,000 collections in the nightly checks: for each animal every method once, on a day and at a
// strength.
TEST(Properties, no_ruling_is_violated_by_what_is_permitted) {
    EXPECT_TRUE(rc::check([] {
        const Scene scene = any_scene();
        const Case with = prepare(scene.collection, tables(), taxa());
        const CourseSoFar course = any_course(scene);
        for (const Method method : records::all_of<Method>()) {
            Request request = any_request();
            request.method = method;
            for (const auto& [id, animal] : scene.collection.animals) {
                const auto permitted = permit(with, id, request, course);
                if (!permitted) continue;
                for (const AnimalId& reached : permitted->animals()) {
                    RC_ASSERT(
                        plainly_permitted(scene, scene.collection.animals.at(reached), request, course));
                }
            }
        }
    }));
}

// A later sign asks anew: whatever was directed, one noted after the direction stands against the method as
// it would without it.
TEST(Properties, what_comes_after_a_direction_is_not_lifted_by_it) {
    EXPECT_TRUE(rc::check([] {
        Scene scene = any_scene();
        const Request request = any_request();
        for (auto& [id, animal] : scene.collection.animals) {
            for (auto& direction : animal.directions) direction.day = std::min(direction.day, today());
            const auto condition = *rc::gen::element(
                records::Condition::sick, records::Condition::neurological, records::Condition::reacted);
            animal.conditions = {{today() + days(1), 2000000, {id, condition, true, {}, {}}}};
        }
        Scene without = scene;
        for (auto& [id, animal] : without.collection.animals) animal.directions.clear();
        for (const auto& [id, animal] : scene.collection.animals) {
            const Verdict plain = judge(prepare(without.collection, tables(), taxa()),
                                        without.collection.animals.at(id), request, {});
            const auto rests_on_sign = [](const Reason& r) { return r.since && r.since->entry == 2000000; };
            const Verdict verdict = judge(prepare(scene.collection, tables(), taxa()), animal, request, {});
            RC_ASSERT(std::count_if(verdict.reasons.begin(), verdict.reasons.end(), rests_on_sign) ==
                      std::count_if(plain.reasons.begin(), plain.reasons.end(), rests_on_sign));
        }
    }));
}

TEST(Properties, without_weight_or_species_no_spray_is_ever_allowed) {
    EXPECT_TRUE(rc::check([] {
        Scene scene = any_scene();
        const bool drop_weight = *rc::gen::arbitrary<bool>();
        for (auto& [id, animal] : scene.collection.animals) {
            if (drop_weight) {
                animal.weight.reset();
            } else {
                animal.taxon = *rc::gen::element<std::string>("", "corn snak");
            }
            for (const Method method : {Method::spray_animal, Method::spray_bedding}) {
                animal.directions.push_back({today() - days(1), 1, {id, method, "Dr. B", "do it"}});
            }
        }
        const Case with = prepare(scene.collection, tables(), taxa());
        for (const auto& [id, animal] : scene.collection.animals) {
            for (const Method method : {Method::spray_animal, Method::spray_bedding}) {
                RC_ASSERT(!permits(judge(with, animal, {method, mg_per_l(10), today()}, {})));
                RC_ASSERT(!permit(with, id, {method, mg_per_l(10), today()}, {}).has_value());
            }
        }
    }));
}

TEST(Properties, every_refusal_says_why_and_on_what_ground) {
    EXPECT_TRUE(holds_for_any_animal([](const Asked& asked, const records::Animal& animal) {
        const Verdict verdict = judge(asked.with, animal, asked.request, asked.course);
        RC_ASSERT(verdict.reasons.empty() == (verdict.ruling == Ruling::allowed));
        RC_ASSERT(std::is_sorted(verdict.reasons.begin(), verdict.reasons.end(),
                                 [](const Reason& a, const Reason& b) { return a.ruling > b.ruling; }));
        for (const Reason& reason : verdict.reasons) {
            const bool is_ours =
                reason.tag == evidence::Tag::common_practice || reason.tag == evidence::Tag::assumption;
            RC_ASSERT(!words::say(reason.what).empty() && !words::say(reason.remedy).empty());
            RC_ASSERT(reason.source.empty() == is_ours);
        }
    }));
}

TEST(Properties, a_day_to_wait_for_is_later_and_ends_the_waiting) {
    EXPECT_TRUE(rc::check([] {
        const Scene scene = any_scene();
        const Case with = prepare(scene.collection, tables(), taxa());
        const CourseSoFar course = any_course(scene);
        Request request = any_request();
        for (const auto& [id, animal] : scene.collection.animals) {
            const Verdict verdict = judge(with, animal, request, course);
            if (!verdict.until) continue;
            RC_ASSERT(verdict.ruling == Ruling::wait_until);
            RC_ASSERT(*verdict.until > request.day);
            Request later = request;
            later.day = *verdict.until;
            const Verdict then = judge(with, animal, later, course);
            RC_ASSERT(std::none_of(then.reasons.begin(), then.reasons.end(),
                                   [](const Reason& r) { return r.ruling == Ruling::wait_until; }));
        }
    }));
}

}  // namespace
}  // namespace mitefall::safety
