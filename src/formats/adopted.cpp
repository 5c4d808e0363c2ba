#include "formats/adopted.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "formats/json/parts.h"
#include "formats/text/layout.h"
#include "safety/cautions.h"
#include "safety/methods.h"
#include "units/text.h"
#include "worklist/overview.h"

namespace mitefall::formats {
namespace {

using records::CourseRefusal;
using records::CourseTreatment;
using records::Method;
using records::PlanAdopted;

constexpr const char* said =
    "Decided when the course was adopted. The worklist asks the safety check anew on each day, and a later "
    "\"never\" or \"ask a veterinarian\" wins.";

bool is_with(const CourseTreatment& treatment, const CourseException& exception) {
    const auto& animals = treatment.animals;
    return std::find(animals.begin(), animals.end(), exception.animal) != animals.end();
}

void add_treatments(const PlanAdopted& course, CourseException& exception) {
    for (const CourseTreatment& treatment : course.terms.treatments) {
        if (treatment.method == Method::spray_bedding) {
            exception.bedding |= treatment.enclosure == exception.enclosure;
        } else if (treatment.method != Method::change_substrate && is_with(treatment, exception) &&
                   std::find(exception.given.begin(), exception.given.end(), treatment.method) ==
                       exception.given.end()) {
            exception.given.push_back(treatment.method);
        }
    }
}

std::string_view past(Method method) {
    return method == Method::spray_animal ? "sprayed"
           : method == Method::soak       ? "soaked"
           : method == Method::wipe       ? "wiped"
                                          : records::describe(method);
}

template <class Collection, class Id>
std::string name_in(const Collection& all, const Id& id) {
    const auto found = all.find(id);
    return found == all.end() ? id.text() : found->second.name;
}

/// "12 Mar: Ivy spray"
std::string treatment_text(const CourseTreatment& treatment, const records::Collection& collection) {
    std::string who;
    const bool on_animals = treatment.method != Method::spray_bedding &&
                            treatment.method != Method::change_substrate && !treatment.animals.empty();
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

std::string terms_text(const PlanAdopted& course, const records::Collection& collection) {
    std::string text = fmt::format("Scope: {}.\n", course.terms.scope);
    std::string day;
    for (const CourseTreatment& treatment : course.terms.treatments) {
        if (const std::string at = units::show_day(treatment.day); at != day)
            text += fmt::format("\n{}{}\n", day = at,
                                treatment.day == treatment.planned ? "" : " (a day of its own)");
        text += wrap(treatment_text(treatment, collection), "  ", "    ");
    }
    const auto exceptions = exceptions_of(course);
    text += exceptions.empty() ? "\nNo animal is an exception.\n" : "\nExceptions, as decided then:\n";
    for (const CourseException& one : exceptions) {
        text += wrap(
            fmt::format("{}: {}. {}.", name_in(collection.animals, one.animal), describe(one), one.reason),
            "  ", "    ");
    }
    return text + places_left_out(course, collection);
}

Json exception_json(const CourseException& one) {
    return {{"animal", name(one.animal)},
            {"enclosure", name(one.enclosure)},
            {"text", describe(one)},
            {"methods", list(one.given, [](Method method) { return records::to_text(method); })},
            {"bedding", one.bedding},
            {"reason", one.reason}};
}

/// The treatments by day as a plan lists them; `cautions` are filled by method.
Json rounds_json(const PlanAdopted& course, const evidence::Tables& tables, Json& cautions) {
    std::map<Method, Json> positions;
    Json rounds = Json::array();
    for (const CourseTreatment& treatment : course.terms.treatments) {
        const auto [known, is_new] = positions.try_emplace(treatment.method, Json::array());
        if (is_new) {
            for (const auto& caution : safety::cautions_for(treatment.method, tables)) {
                known->second.push_back(cautions.size());
                cautions.push_back(caution_json(caution));
            }
        }
        const Json day = date(treatment.day);
        if (rounds.empty() || rounds.back()["day"] != day ||
            rounds.back()["planned"] != date(treatment.planned)) {
            rounds.push_back({{"planned", date(treatment.planned)},
                              {"day", day},
                              {"own_date", treatment.day != treatment.planned},
                              {"treatments", Json::array()}});
        }
        Json row = course_treatment_json(treatment);
        row.erase("planned");
        row.erase("day");
        const bool sprayed = safety::is_ivermectin_spray(treatment.method);
        row["strength_mg_per_l"] = sprayed ? strength_or_null(course.strength) : Json();
        row["cautions"] = known->second;
        rounds.back()["treatments"].push_back(std::move(row));
    }
    return rounds;
}

}  // namespace

std::vector<CourseException> exceptions_of(const PlanAdopted& course) {
    const Method meant = course.choices.soak_animals ? Method::soak : Method::spray_animal;
    std::vector<CourseException> exceptions;
    for (const CourseRefusal& row : course.terms.left_out) {
        if (row.animal.empty() || row.method != meant) continue;
        if (std::any_of(exceptions.begin(), exceptions.end(),
                        [&](const CourseException& known) { return known.animal == row.animal; }))
            continue;
        CourseException& one = exceptions.emplace_back();
        one.animal = row.animal;
        one.enclosure = row.enclosure;
        one.reason = row.reason;
        add_treatments(course, one);
    }
    return exceptions;
}

std::string describe(const CourseException& exception) {
    if (exception.given.empty()) return exception.bedding ? "left to bedding only" : "left out";
    std::string text;
    for (const Method method : exception.given)
        text += (text.empty() ? "" : " or ") + std::string(past(method));
    return text;
}

std::string adopted_text(const records::DatedValue<PlanAdopted>& plan,
                         const records::Collection& collection) {
    const PlanAdopted& course = plan.value;
    std::string text = heading("The adopted course");
    text +=
        wrap(fmt::format("Adopted {}: {}.", units::show_day(plan.day), worklist::describe(course)), "", "");
    text += course.strength == units::Strength{}
                ? "Strength: not on record.\n"
                : fmt::format("Strength of the spray: {}.\n", units::show(course.strength));
    text += course.terms.are_known()
                ? terms_text(course, collection)
                : wrap("Its scope and what was decided for each animal are not on record: unknown, not none.",
                       "", "");
    return text + "\n" + wrap(said, "", "");
}

Json adopted_json(const records::DatedValue<PlanAdopted>& plan, const evidence::Tables& tables) {
    const PlanAdopted& course = plan.value;
    const bool known = course.terms.are_known();
    Json cautions = Json::array();
    Json json{{"adopted", date(plan.day)}};
    json["text"] = worklist::describe(course);
    json["said"] = said;
    json["days"] = dates(course.rounds);
    json["strength_mg_per_l"] = strength_or_null(course.strength);
    json["scope"] = text_or_null(course.terms.scope);
    json["change_substrate"] = course.choices.change_substrate;
    json["keep_damp"] = course.choices.keep_damp;
    json["soak_animals"] = course.choices.soak_animals;
    json["enclosures"] = names(course.enclosures);
    json["rooms"] = names(course.rooms);
    json["rounds"] = known ? rounds_json(course, tables, cautions) : Json();
    json["exceptions"] = known ? list(exceptions_of(course), exception_json) : Json();
    json["left_out"] = known ? list(course.terms.left_out, course_refusal_json) : Json();
    json["cautions"] = std::move(cautions);
    return json;
}

}  // namespace mitefall::formats
