#include "safety/permit.h"

#include <fmt/format.h>

#include <algorithm>

#include "records/method.h"
#include "safety/cautions.h"
#include "safety/gates.h"
#include "safety/methods.h"
#include "safety/water.h"

namespace mitefall::safety {

using base::Error;
using base::ErrorKind;
using base::fail;
using base::Result;
using records::Animal;
using records::Method;

namespace {

Error not_found(std::string_view kind, const std::string& name) {
    return {ErrorKind::not_found,
            fmt::format("there is no {} of that name", kind),
            name,
            {},
            "check the name",
            {}};
}

std::string basis_text(const Reason& reason) {
    return reason.source.empty() ? explain(reason.tag) : reason.source;
}

Error refused(Method method, const Reason& reason, const std::string& where) {
    return {ErrorKind::refused,
            fmt::format("{}: {} - {}", records::describe(method), describe(reason.ruling), reason.text),
            {},
            basis_text(reason),
            reason.remedy,
            where};
}

Error wrong_place(Method method, std::string_view place) {
    return base::invalid(fmt::format("{} is not something done to {}", records::describe(method), place),
                         std::string(to_text(method)), {},
                         "ask for it by room, enclosure or animal as it is done");
}

std::vector<const Animal*> animals_in_room(const records::Collection& collection,
                                           const records::RoomId& room) {
    std::vector<const Animal*> found;
    for (const auto& [id, animal] : collection.animals) {
        const auto enclosure = collection.enclosures.find(animal.enclosure);
        if (enclosure != collection.enclosures.end() && enclosure->second.room == room)
            found.push_back(&animal);
    }
    return found;
}

void add_new_cautions(std::vector<Caution>& all, const std::vector<Caution>& more) {
    for (const Caution& caution : more) {
        const auto is_same = [&](const Caution& known) { return known.text == caution.text; };
        if (std::none_of(all.begin(), all.end(), is_same)) all.push_back(caution);
    }
}

}  // namespace

/// The one place that makes a PermittedTreatment.
class PermitOffice {
  public:
    PermitOffice(const Case& with, const Request& request, const CourseSoFar& course)
        : with_(with), request_(request), course_(course) {}

    void locate(const records::RoomId& room, const records::EnclosureId& enclosure) {
        grounds_.room = room;
        grounds_.enclosure = enclosure;
    }

    [[nodiscard]] std::optional<Error> admit(const Animal& animal) {
        const Verdict verdict = judge(with_, animal, request_, course_);
        if (!permits(verdict)) return refused(request_.method, verdict.reasons.front(), animal.id.text());
        grounds_.animals.push_back(animal.id);
        add_new_cautions(grounds_.cautions, verdict.cautions);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<Error> admit_empty(const records::Enclosure& enclosure) {
        const std::vector<Reason> reasons = judge_empty(with_, enclosure, request_);
        if (!reasons.empty()) return refused(request_.method, reasons.front(), enclosure.id.text());
        Findings air;
        check_air(with_, enclosure.room, request_.method, {}, air);
        check_strength(with_, request_, nullptr, air);
        check_predators_in(with_, enclosure, request_, {}, air);
        add_new_cautions(grounds_.cautions, air.cautions);
        return std::nullopt;
    }

    /// Once everybody concerned has been admitted.
    [[nodiscard]] PermittedTreatment issue() {
        add_new_cautions(grounds_.cautions, cautions_for(request_.method, with_.tables));
        return {request_, std::move(grounds_)};
    }

  private:
    const Case& with_;
    const Request& request_;
    const CourseSoFar& course_;
    PermittedTreatment::Grounds grounds_;
};

Result<PermittedTreatment> permit(const Case& with, const records::AnimalId& id, const Request& request,
                                  const CourseSoFar& course) {
    const auto animal = with.collection.animals.find(id);
    if (animal == with.collection.animals.end()) return fail(not_found("animal", id.text()));
    const auto enclosure = with.collection.enclosures.find(animal->second.enclosure);
    if (enclosure == with.collection.enclosures.end()) {
        return fail(not_found("enclosure", animal->second.enclosure.text()));
    }
    switch (target_of(request.method)) {
        case Target::enclosure: return permit_enclosure(with, animal->second.enclosure, request, course);
        case Target::room: return permit_room(with, enclosure->second.room, request, course);
        case Target::animal: break;
    }
    PermitOffice office(with, request, course);
    office.locate(enclosure->second.room, enclosure->first);
    if (auto fault = office.admit(animal->second)) return fail(*fault);
    return office.issue();
}

Result<PermittedTreatment> permit_enclosure(const Case& with, const records::EnclosureId& id,
                                            const Request& request, const CourseSoFar& course) {
    const auto enclosure = with.collection.enclosures.find(id);
    if (enclosure == with.collection.enclosures.end()) return fail(not_found("enclosure", id.text()));
    const Target target = target_of(request.method);
    if (target == Target::room) return fail(wrong_place(request.method, "an enclosure"));
    const std::vector<const Animal*> inside = inside_of(with.collection, with.survey, id);
    if (target == Target::animal && inside.empty()) {
        return fail(base::invalid("there is no animal in the enclosure", id.text(), "at least one",
                                  "treat the enclosure instead"));
    }
    PermitOffice office(with, request, course);
    office.locate(enclosure->second.room, id);
    for (const Animal* const animal : inside) {
        if (auto fault = office.admit(*animal)) return fail(*fault);
    }
    if (inside.empty()) {
        if (auto fault = office.admit_empty(enclosure->second)) return fail(*fault);
    }
    return office.issue();
}

Result<PermittedTreatment> permit_room(const Case& with, const records::RoomId& id, const Request& request,
                                       const CourseSoFar& course) {
    if (!with.collection.rooms.contains(id)) return fail(not_found("room", id.text()));
    if (target_of(request.method) != Target::room) return fail(wrong_place(request.method, "a room"));
    PermitOffice office(with, request, course);
    office.locate(id, {});
    const std::vector<const Animal*> present = animals_in_room(with.collection, id);
    for (const Animal* const animal : present) {
        if (auto fault = office.admit(*animal)) return fail(*fault);
    }
    if (present.empty()) {
        records::Enclosure nothing;
        nothing.room = id;
        if (auto fault = office.admit_empty(nothing)) return fail(*fault);
    }
    return office.issue();
}

Result<PermittedTreatment> permit(const records::Collection& collection, const Animal& animal, Method method,
                                  units::Strength strength, units::Day day, const evidence::Tables& tables,
                                  const evidence::Taxa& taxa, const CourseSoFar& course) {
    return permit(prepare(collection, tables, taxa), animal.id, {method, strength, day}, course);
}

Result<PermittedTreatment> permit_enclosure(const records::Collection& collection,
                                            const records::EnclosureId& enclosure, Method method,
                                            units::Strength strength, units::Day day,
                                            const evidence::Tables& tables, const evidence::Taxa& taxa,
                                            const CourseSoFar& course) {
    return permit_enclosure(prepare(collection, tables, taxa), enclosure, {method, strength, day}, course);
}

Result<PermittedTreatment> permit_room(const records::Collection& collection, const records::RoomId& room,
                                       units::Strength strength, units::Day day,
                                       const evidence::Tables& tables, const evidence::Taxa& taxa,
                                       const CourseSoFar& course) {
    return permit_room(prepare(collection, tables, taxa), room, {Method::treat_room, strength, day}, course);
}

}  // namespace mitefall::safety
