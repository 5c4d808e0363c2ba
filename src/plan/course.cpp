#include "plan/course.h"

#include <algorithm>

#include "plan/emptied.h"
#include "plan/told.h"

namespace mitefall::plan {

using records::Method;

namespace {

using statement::Statement;

Statement tell_animals(const Doings& does) {
    std::vector<Statement> how;
    if (does.sprays) how.push_back(told::sprayed());
    if (does.soaks) how.push_back(told::soaked());
    if (does.wipes) how.push_back(told::wiped());
    return how.empty() ? told::no_animal_treated() : told::animals_treated(std::move(how));
}

Statement tell_bedding(const Doings& does) {
    if (!does.bedding) return told::no_bedding_sprayed();
    return does.damp ? told::bedding_kept_damp() : told::bedding_left_to_dry();
}

}  // namespace

void note(Method method, const records::EnclosureId& enclosure, const records::CourseChoices& choices,
          Doings& does) {
    const bool is_emptied = method == Method::fresh_tub && is_tub_for_wood(choices.emptied_wood, enclosure);
    does.sprays |= method == Method::spray_animal;
    does.soaks |= method == Method::soak;
    does.wipes |= method == Method::wipe;
    does.bedding |= method == Method::spray_bedding;
    does.heads |= method == Method::clear_head;
    does.substrate |= method == Method::change_substrate;
    does.tubs |= method == Method::fresh_tub && !is_emptied;
    does.wood |= is_emptied;
    does.rooms |= method == Method::treat_room;
}

Doings doings_of(const records::PlanAdopted& course) {
    Doings does;
    for (const records::CourseTreatment& treatment : course.terms.treatments)
        note(treatment.method, treatment.enclosure, course.choices, does);
    does.damp = course.choices.keep_damp && does.bedding;
    return does;
}

std::vector<Statement> tell(const Doings& does) {
    std::vector<Statement> parts;
    if (does.rooms) parts.push_back(told::emptied_rooms());
    parts.push_back(does.substrate ? told::substrate_changed() : told::substrate_left());
    if (does.tubs) parts.push_back(told::clean_tubs());
    if (does.wood) parts.push_back(told::wood_emptied());
    parts.push_back(tell_animals(does));
    if (does.heads) parts.push_back(told::heads_cleared());
    parts.push_back(tell_bedding(does));
    return parts;
}

Statement tell(const std::vector<units::Day>& rounds) {
    if (rounds.size() == 1) return told::one_round();
    const auto number = static_cast<double>(rounds.size());
    auto shortest = units::Days::max();
    auto longest = units::Days::min();
    for (std::size_t i = 1; i < rounds.size(); ++i) {
        shortest = std::min(shortest, rounds[i] - rounds[i - 1]);
        longest = std::max(longest, rounds[i] - rounds[i - 1]);
    }
    const auto least = static_cast<double>(shortest.count());
    const auto most = static_cast<double>(longest.count());
    return shortest == longest ? told::rounds_apart(number, most) : told::rounds_between(number, least, most);
}

Statement tell(const Course& course, const std::vector<units::Day>& rounds, const Doings& does) {
    std::vector<Statement> parts{tell(rounds), told::reach({"scope", to_text(course.scope)})};
    for (Statement& part : tell(does)) parts.push_back(std::move(part));
    return told::course(std::move(parts));
}

}  // namespace mitefall::plan
