#include "formats/text/plan_rounds.h"

#include <fmt/format.h>

#include <set>
#include <vector>

#include "formats/text/layout.h"
#include "formats/text/names.h"

namespace mitefall::formats {
namespace {

using records::Method;

Method meant_for_animals(const plan::ScoredPlan& plan) {
    return plan.course.choices.soak_animals ? Method::soak : Method::spray_animal;
}

}  // namespace

std::string rounds_text(const plan::ScoredPlan& plan, const plan::Setting& setting) {
    std::string text = "\nRounds of the recommended plan:";
    std::vector<std::string> own_dates;
    for (const plan::Round& round : plan.schedule.rounds) {
        if (!round.own_date) text += fmt::format("  {}", units::format_day_short(round.day));
        for (const plan::ScheduledTreatment& waiting : round.treatments) {
            if (!round.own_date || waiting.treatment.method() != meant_for_animals(plan)) continue;
            own_dates.push_back(fmt::format(
                "{} on {}", animal_name(setting.with.collection, waiting.treatment.animals().front()),
                units::format_day_short(round.day)));
        }
    }
    if (!own_dates.empty())
        text += fmt::format("\nOn days of their own, because they must wait: {}.", join(own_dates));
    return text;
}

std::string tubs_text(const plan::ScoredPlan& plan, const plan::Setting& setting) {
    std::vector<std::string> places;
    for (const records::EnclosureId& id : plan.schedule.assignment.choices.fresh_tubs)
        places.push_back(enclosure_name(setting.with.collection, id));
    std::string text;
    if (!places.empty())
        text =
            "\n" + wrap(fmt::format("In each round into a clean tub, the old one washed: the animals of {}.",
                                    join(places)),
                        "", "");
    std::vector<std::string> wood;
    for (const records::EmptiedWood& emptied : plan.schedule.assignment.choices.emptied_wood)
        wood.push_back(enclosure_name(setting.with.collection, emptied.enclosure));
    if (wood.empty()) return text;
    return text + "\n" +
           wrap(fmt::format("In the first round into a treatment tub for good, the wood left empty until "
                            "\"emptied\" tells that it is clear: the animals of {}.",
                            join(wood)),
                "", "");
}

std::string gentler_text(const plan::ScoredPlan& plan, const plan::Setting& setting) {
    std::set<std::string> passed;
    for (const plan::LeftOut& left_out : plan.schedule.left_out) {
        if (left_out.method == meant_for_animals(plan))
            passed.insert(animal_name(setting.with.collection, left_out.animal));
    }
    if (passed.empty()) return {};
    return wrap(fmt::format("Not {} in at least one round, with a gentler method instead where one "
                            "is permitted: {}.",
                            plan.course.choices.soak_animals ? "soaked" : "sprayed",
                            join({passed.begin(), passed.end()})),
                "", "");
}

}  // namespace mitefall::formats
