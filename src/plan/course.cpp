#include "plan/course.h"

#include <fmt/format.h>

#include <algorithm>

namespace mitefall::plan {

using records::Method;

std::string_view to_text(Scope scope) {
    switch (scope) {
        case Scope::chosen: return "chosen";
        case Scope::sighted: return "sighted";
        case Scope::sighted_rooms: return "sighted-rooms";
        case Scope::exposed: return "exposed";
        case Scope::everything: return "everything";
    }
    return {};
}

std::string_view describe(Scope scope) {
    switch (scope) {
        case Scope::chosen: return "only the chosen enclosures";
        case Scope::sighted: return "only where mites were seen";
        case Scope::sighted_rooms: return "the whole room";
        case Scope::exposed: return "the whole room and every other exposed enclosure";
        case Scope::everything: return "every enclosure";
    }
    return {};
}

namespace {

std::string describe_animals(const Doings& does) {
    if (!does.sprays && !does.soaks && !does.wipes) return "no animal treated";
    std::string text;
    const auto add = [&](bool done, std::string_view what) {
        if (done) text += (text.empty() ? "animals " : " or ") + std::string(what);
    };
    add(does.sprays, "sprayed");
    add(does.soaks, "soaked in plain water");
    add(does.wipes, "wiped");
    return text;
}

std::string_view describe_bedding(const Doings& does) {
    if (!does.bedding) return "no bedding sprayed";
    return does.damp ? "bedding sprayed, paper kept damp with the spray"
                     : "bedding sprayed, paper left to dry";
}

}  // namespace

void note(Method method, Doings& does) {
    does.sprays |= method == Method::spray_animal;
    does.soaks |= method == Method::soak;
    does.wipes |= method == Method::wipe;
    does.bedding |= method == Method::spray_bedding;
    does.substrate |= method == Method::change_substrate;
    does.rooms |= method == Method::treat_room;
}

Doings doings_of(const records::PlanAdopted& course) {
    Doings does;
    for (const records::CourseTreatment& treatment : course.terms.treatments) note(treatment.method, does);
    does.damp = course.choices.keep_damp && does.bedding;
    return does;
}

std::string describe(const Doings& does) {
    return fmt::format("{}, {}, {}, {}", does.rooms ? ", with floor and racks of emptied rooms" : "",
                       does.substrate ? "substrate changed each round" : "substrate left in",
                       describe_animals(does), describe_bedding(does));
}

std::string describe(const std::vector<units::Day>& rounds) {
    if (rounds.size() == 1) return "1 round";
    auto shortest = units::Days::max();
    auto longest = units::Days::min();
    for (std::size_t i = 1; i < rounds.size(); ++i) {
        shortest = std::min(shortest, rounds[i] - rounds[i - 1]);
        longest = std::max(longest, rounds[i] - rounds[i - 1]);
    }
    if (shortest == longest) return fmt::format("{} rounds {} days apart", rounds.size(), longest.count());
    return fmt::format("{} rounds, {} to {} days apart", rounds.size(), shortest.count(), longest.count());
}

std::string describe(const Course& course, const std::vector<units::Day>& rounds, const Doings& does) {
    return fmt::format("{}, {}{}", describe(rounds), describe(course.scope), describe(does));
}

}  // namespace mitefall::plan
