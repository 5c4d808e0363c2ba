#pragma once

#include <map>
#include <memory>
#include <vector>

#include "evidence/tables.h"
#include "evidence/taxa.h"
#include "records/collection.h"
#include "safety/cautions.h"
#include "safety/survey.h"
#include "safety/verdict.h"
#include "safety/water.h"
#include "units/amounts.h"

namespace mitefall::safety {

/// A dated application that is proposed and not yet on record.
struct Application {
    records::Method method = records::Method::spray_animal;
    units::Day day;
};

/// Everything a plan proposes so far, by animal. What is already recorded does not belong here.
using CourseSoFar = std::map<records::AnimalId, std::vector<Application>>;

/// What is asked: may this be done on this day? The strength is that of the mix; zero where the method has
/// none.
struct Request {
    records::Method method = records::Method::spray_animal;
    units::Strength strength;
    units::Day day;
};

/// A collection made ready to be judged many times. Keeps references to the collection and the tables.
struct Case {
    Case(const records::Collection& of, const evidence::Tables& figures, Survey who);

    const records::Collection& collection;
    const evidence::Tables& tables;
    Survey survey;
    WetLimits wet;
    std::shared_ptr<const GeneralCautions> cautions;  ///< shared by all that is permitted
};
[[nodiscard]] Case prepare(const records::Collection& collection, const evidence::Tables& tables,
                           const evidence::Taxa& taxa);

/// The verdict for one animal. `animal` must be one of the collection.
[[nodiscard]] Verdict judge(const Case& with, const records::Animal& animal, const Request& request,
                            const CourseSoFar& course);

/// The same for a single question.
[[nodiscard]] Verdict judge(const records::Collection& collection, const records::Animal& animal,
                            records::Method method, units::Strength strength, units::Day day,
                            const evidence::Tables& tables, const evidence::Taxa& taxa,
                            const CourseSoFar& course);

/// Every animal x method, by animal, then in the order of the methods. `spray` is the strength of the
/// ivermectin spray; permethrin is judged at the strength of the evidence tables.
[[nodiscard]] std::vector<Verdict> judge_all(const records::Collection& collection, units::Strength spray,
                                             units::Day day, const evidence::Tables& tables,
                                             const evidence::Taxa& taxa, const CourseSoFar& course);

/// What speaks against a method in an enclosure that holds no animal: the air of its room and the strength.
[[nodiscard]] std::vector<Reason> judge_empty(const Case& with, const records::Enclosure& enclosure,
                                              const Request& request);

}  // namespace mitefall::safety
