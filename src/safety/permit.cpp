#include "safety/permit.h"

#include <algorithm>

#include "safety/gates.h"
#include "safety/methods.h"
#include "safety/water.h"

namespace mitefall::safety {

using base::ErrorKind;
using records::Animal;
using records::Method;

namespace {

tl::unexpected<Refusal> refused(Refusal refusal) { return tl::unexpected<Refusal>(std::move(refusal)); }

tl::unexpected<Refusal> not_found(const Case& with, Against against) {
    return refused(
        {ErrorKind::not_found, reason_of(std::move(against), with.tables, says::check_the_name())});
}

tl::unexpected<Refusal> wrong_place(const Case& with, Against against) {
    return refused(
        {ErrorKind::invalid_input, reason_of(std::move(against), with.tables, says::ask_as_it_is_done())});
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
        const auto is_same = [&](const Caution& known) { return known.what == caution.what; };
        if (std::none_of(all.begin(), all.end(), is_same)) all.push_back(caution);
    }
}

}  // namespace

std::vector<Caution> PermittedTreatment::cautions() const {
    std::vector<Caution> all = grounds_->cautions;
    add_new_cautions(all, *grounds_->of_method);
    return all;
}

/// The one place that makes a PermittedTreatment.
class PermitOffice {
  public:
    PermitOffice(const Case& with, const Request& request, const CourseSoFar& course)
        : with_(with), request_(request), course_(course) {}

    void locate(const records::RoomId& room, const records::EnclosureId& enclosure) {
        grounds_.room = room;
        grounds_.enclosure = enclosure;
    }

    [[nodiscard]] std::optional<Refusal> admit(const Animal& animal) {
        Verdict verdict = judge_apart(with_, animal, request_, course_);
        if (!permits(verdict))
            return Refusal{ErrorKind::refused, std::move(verdict.reasons.front()), animal.id};
        grounds_.animals.push_back(animal.id);
        add_new_cautions(grounds_.cautions, verdict.cautions);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<Refusal> admit_empty(const records::Enclosure& enclosure) {
        std::vector<Reason> reasons = judge_empty(with_, enclosure, request_);
        if (!reasons.empty()) return Refusal{ErrorKind::refused, std::move(reasons.front())};
        Findings air;
        check_air(with_, enclosure.room, request_.method, {}, air);
        check_strength(with_, request_, nullptr, air);
        check_predators_in(with_, enclosure, request_, {}, air);
        add_new_cautions(grounds_.cautions, air.cautions);
        return std::nullopt;
    }

    /// Once everybody concerned has been admitted.
    [[nodiscard]] PermittedTreatment issue() {
        grounds_.of_method = {with_.cautions, &with_.cautions->at(request_.method)};
        return {request_, std::move(grounds_)};
    }

  private:
    const Case& with_;
    const Request& request_;
    const CourseSoFar& course_;
    PermittedTreatment::Grounds grounds_;
};

Permit permit(const Case& with, const records::AnimalId& id, const Request& request,
              const CourseSoFar& course) {
    const auto animal = with.collection.animals.find(id);
    if (animal == with.collection.animals.end()) return not_found(with, says::no_such_animal(id.text()));
    const auto enclosure = with.collection.enclosures.find(animal->second.enclosure);
    if (enclosure == with.collection.enclosures.end()) {
        return not_found(with, says::no_such_enclosure(animal->second.enclosure.text()));
    }
    switch (target_of(request.method)) {
        case Target::enclosure: return permit_enclosure(with, animal->second.enclosure, request, course);
        case Target::room: return permit_room(with, enclosure->second.room, request, course);
        case Target::animal: break;
    }
    PermitOffice office(with, request, course);
    office.locate(enclosure->second.room, enclosure->first);
    if (auto fault = office.admit(animal->second)) return refused(std::move(*fault));
    return office.issue();
}

Permit permit_enclosure(const Case& with, const records::EnclosureId& id, const Request& request,
                        const CourseSoFar& course) {
    const auto enclosure = with.collection.enclosures.find(id);
    if (enclosure == with.collection.enclosures.end())
        return not_found(with, says::no_such_enclosure(id.text()));
    const Target target = target_of(request.method);
    if (target == Target::room)
        return wrong_place(with, says::not_done_to_an_enclosure(term(request.method)));
    const std::vector<const Animal*> inside = inside_of(with.collection, with.survey, id);
    if (target == Target::animal && inside.empty()) {
        return refused({ErrorKind::invalid_input,
                        reason_of(says::nobody_there(id.text()), with.tables, says::treat_the_enclosure())});
    }
    PermitOffice office(with, request, course);
    office.locate(enclosure->second.room, id);
    for (const Animal* const animal : inside) {
        if (auto fault = office.admit(*animal)) return refused(std::move(*fault));
    }
    if (inside.empty()) {
        if (auto fault = office.admit_empty(enclosure->second)) return refused(std::move(*fault));
    }
    return office.issue();
}

Permit permit_room(const Case& with, const records::RoomId& id, const Request& request,
                   const CourseSoFar& course) {
    if (!with.collection.rooms.contains(id)) return not_found(with, says::no_such_room(id.text()));
    if (target_of(request.method) != Target::room)
        return wrong_place(with, says::not_done_to_a_room(term(request.method)));
    PermitOffice office(with, request, course);
    office.locate(id, {});
    const std::vector<const Animal*> present = animals_in_room(with.collection, id);
    for (const Animal* const animal : present) {
        if (auto fault = office.admit(*animal)) return refused(std::move(*fault));
    }
    if (present.empty()) {
        records::Enclosure nothing;
        nothing.room = id;
        if (auto fault = office.admit_empty(nothing)) return refused(std::move(*fault));
    }
    return office.issue();
}

Permit permit(const records::Collection& collection, const Animal& animal, Method method,
              units::Strength strength, units::Day day, const evidence::Tables& tables,
              const evidence::Taxa& taxa, const CourseSoFar& course) {
    return permit(prepare(collection, tables, taxa), animal.id, {method, strength, day}, course);
}

Permit permit_enclosure(const records::Collection& collection, const records::EnclosureId& enclosure,
                        Method method, units::Strength strength, units::Day day,
                        const evidence::Tables& tables, const evidence::Taxa& taxa,
                        const CourseSoFar& course) {
    return permit_enclosure(prepare(collection, tables, taxa), enclosure, {method, strength, day}, course);
}

Permit permit_room(const records::Collection& collection, const records::RoomId& room,
                   units::Strength strength, units::Day day, const evidence::Tables& tables,
                   const evidence::Taxa& taxa, const CourseSoFar& course) {
    return permit_room(prepare(collection, tables, taxa), room, {Method::treat_room, strength, day}, course);
}

}  // namespace mitefall::safety
