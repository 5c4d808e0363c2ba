#include "formats/text/adopted.h"

#include <fmt/format.h>

#include <map>
#include <set>

#include "formats/adopted.h"
#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "units/text.h"
#include "words/words.h"
#include "worklist/overview.h"

namespace mitefall::formats {
namespace {

using records::CourseRefusal;
using records::CourseTreatment;
using records::Method;
using records::PlanAdopted;

template <class Collection, class Id>
std::string name_in(const Collection& all, const Id& id) {
    const auto found = all.find(id);
    return found == all.end() ? id.text() : found->second.name;
}

/// "12 Mar: Ivy spray"
std::string treatment_text(const CourseTreatment& treatment, const records::Collection& collection) {
    std::string who;
    const bool on_animals = records::row_of(treatment.method).target == records::Target::animal;
    if (on_animals) {
        for (const auto& id : treatment.animals)
            who += (who.empty() ? "" : ", ") + name_in(collection.animals, id);
    } else {
        who = treatment.enclosure.empty() ? name_in(collection.rooms, treatment.room)
                                          : name_in(collection.enclosures, treatment.enclosure);
    }
    return fmt::format("{}: {}", who, records::describe(treatment.method));
}

/// Treatments of places refused in at least one round, each once with its reason.
std::string places_left_out(const PlanAdopted& course, const records::Collection& collection) {
    std::string text;
    std::set<std::string> told;
    for (const CourseRefusal& row : course.terms.left_out) {
        if (!row.animal.empty() || row.enclosure.empty()) continue;
        const std::string line = fmt::format("{}: no {}: {}.", name_in(collection.enclosures, row.enclosure),
                                             records::describe(row.method), row.reason);
        if (told.insert(line).second) text += wrap(line, "  ", "    ");
    }
    return text.empty() ? text : "\nEnclosures left out, as decided then:\n" + text;
}

/// Each exception and its reason once, with all the animals it is of.
std::string exceptions_text(const PlanAdopted& course, const records::Collection& collection) {
    std::vector<std::string> said;
    std::map<std::string, std::vector<std::string>> of;
    for (const CourseException& one : exceptions_of(course)) {
        const std::string what = fmt::format("{}, since {}.", describe(one), one.reason);
        std::vector<std::string>& animals = of[what];
        if (animals.empty()) said.push_back(what);
        animals.push_back(name_in(collection.animals, one.animal));
    }
    std::string text = said.empty() ? "\nNo animal is an exception.\n" : "\nExceptions, as decided then:\n";
    for (const std::string& what : said)
        text += wrap(fmt::format("{}: {}", join(of[what]), what), "  ", "    ");
    return text;
}

std::string terms_text(const PlanAdopted& course, const records::Collection& collection) {
    std::string text = fmt::format("Scope: {}.\n", course.terms.scope);
    std::vector<std::string> tubs;
    for (const auto& id : course.choices.fresh_tubs) tubs.push_back(name_in(collection.enclosures, id));
    if (!tubs.empty()) text += wrap(fmt::format("A clean tub in each round: {}.", join(tubs)), "", "  ");
    std::vector<std::string> wood;
    for (const auto& emptied : course.choices.emptied_wood)
        wood.push_back(name_in(collection.enclosures, emptied.enclosure));
    if (!wood.empty()) text += wrap(fmt::format("Emptied for the course: {}.", join(wood)), "", "  ");
    std::string day;
    for (const CourseTreatment& treatment : course.terms.treatments) {
        if (const std::string at = units::show_day(treatment.day); at != day)
            text += fmt::format("\n{}{}\n", day = at,
                                treatment.day == treatment.planned ? "" : " (a day of its own)");
        text += wrap(treatment_text(treatment, collection), "  ", "    ");
    }
    return text + exceptions_text(course, collection) + places_left_out(course, collection);
}

}  // namespace

std::string adopted_text(const records::DatedValue<PlanAdopted>& plan,
                         const records::Collection& collection) {
    const PlanAdopted& course = plan.value;
    std::string text = heading("The adopted course");
    text +=
        wrap(fmt::format("Adopted {}: {}.", units::show_day(plan.day), words::say(worklist::tell(course))),
             "", "");
    text += course.strength == units::Strength{}
                ? "Strength: not on record.\n"
                : fmt::format("Strength of the spray: {}.\n", units::show(course.strength));
    text += course.terms.are_known()
                ? terms_text(course, collection)
                : wrap("Its scope and what was decided for each animal are not on record: unknown, not none.",
                       "", "");
    return text + "\n" + wrap(said_of_adopted, "", "");
}

}  // namespace mitefall::formats
