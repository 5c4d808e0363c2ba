#include "plan/questions.h"

#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "plan/emptied.h"
#include "safety/shed.h"

namespace mitefall::plan {
namespace {

using records::ShedState;

/// What of a schedule an answer may change.
using Doing = std::tuple<std::string, records::Method, units::Day>;

/// `part`: of one enclosure, and of no room.
std::set<Doing> doings_in(const Assignment& part, const Setting& setting) {
    std::set<records::EnclosureId> concerned(part.enclosures.begin(), part.enclosures.end());
    if (const auto* const wood = wood_of(part.choices.emptied_wood, part.enclosures.front()))
        concerned.insert({wood->enclosure, wood->tub});
    PermitBook permits(setting.with, std::move(concerned));
    std::set<Doing> doings;
    for (const Round& round : fit(part, setting, permits).rounds) {
        for (const ScheduledTreatment& one : round.treatments)
            doings.emplace(one.key(), one.treatment.method(), one.treatment.day());
    }
    return doings;
}

/// A collection of its own, in which one animal after another is taken to have been seen otherwise.
class Supposing {
  public:
    explicit Supposing(const Setting& setting)
        : collection_(setting.with.collection),
          with_{collection_, setting.with.tables, setting.with.survey},
          setting_{with_, setting.known, setting.exposed, setting.today, setting.strength, setting.limits} {}
    Supposing(const Supposing&) = delete;
    Supposing& operator=(const Supposing&) = delete;

    /// What would be done if the animal were seen so today.
    std::set<Doing> doings_if(const records::AnimalId& id, ShedState seen, const Assignment& part) {
        records::Animal& animal = collection_.animals.at(id);
        const auto on_record = animal.shed;
        animal.shed = {setting_.today, on_record ? on_record->entry : 0, seen};
        auto doings = doings_in(part, setting_);
        animal.shed = on_record;
        return doings;
    }

  private:
    records::Collection collection_;
    safety::Case with_;
    Setting setting_;
};

}  // namespace

std::vector<ShedQuestion> open_questions(const Assignment& assignment, const Setting& setting) {
    std::vector<ShedQuestion> questions;
    std::optional<Supposing> supposing;
    const std::set<records::EnclosureId> places(assignment.enclosures.begin(), assignment.enclosures.end());
    for (const auto& [id, animal] : setting.with.collection.animals) {
        const auto awaited = safety::shed_awaited(animal, setting.today, setting.with.tables);
        if (!awaited || !places.contains(animal.enclosure)) continue;
        ShedQuestion question{id, animal.enclosure, awaited->since, {}};
        Assignment part = assignment;
        part.enclosures = {animal.enclosure};
        part.rooms.clear();
        const auto as_it_is = doings_in(part, setting);
        if (!supposing) supposing.emplace(setting);
        for (const ShedState answer : {ShedState::shed, ShedState::cloudy, ShedState::clear}) {
            if (supposing->doings_if(id, answer, part) != as_it_is) question.would_change.push_back(answer);
        }
        questions.push_back(std::move(question));
    }
    return questions;
}

}  // namespace mitefall::plan
