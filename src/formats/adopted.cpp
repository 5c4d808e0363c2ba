#include "formats/adopted.h"

#include <algorithm>

namespace mitefall::formats {
namespace {

using records::CourseRefusal;
using records::CourseTreatment;
using records::Method;
using records::PlanAdopted;

bool is_on_animals(const CourseTreatment& treatment) {
    return records::row_of(treatment.method).target == records::Target::animal;
}

bool is_with(const CourseTreatment& treatment, const CourseException& exception) {
    const auto& animals = treatment.animals;
    return std::find(animals.begin(), animals.end(), exception.animal) != animals.end();
}

void add_treatments(const PlanAdopted& course, CourseException& exception) {
    for (const CourseTreatment& treatment : course.terms.treatments) {
        if (treatment.method == Method::spray_bedding) {
            exception.bedding |= treatment.enclosure == exception.enclosure;
        } else if (is_on_animals(treatment) && is_with(treatment, exception) &&
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
           : method == Method::clear_head ? "its head gone over"
                                          : records::describe(method);
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

}  // namespace mitefall::formats
