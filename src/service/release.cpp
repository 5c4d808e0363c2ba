#include <algorithm>

#include "records/history.h"
#include "service/clearance.h"
#include "service/stand.h"
#include "units/whole_days.h"

namespace mitefall::service {
namespace {

using records::Animal;
using records::Entry;
using units::Day;
using units::Days;

constexpr int most_rounds = 30;

Error no_animal_to_release(const records::AnimalId& animal) {
    return {ErrorKind::not_found, "no such animal", animal.text(), {}, "look it up among the animals", {}};
}

Error not_in_quarantine(const records::AnimalId& animal) {
    return {ErrorKind::conflict,
            "the animal is not in quarantine",
            animal.text(),
            {},
            "ask how sure you may be of the whole collection",
            {}};
}

Error mites_with_it(const records::AnimalId& animal, Day day) {
    return {ErrorKind::conflict,
            "mites were seen where it lives on " + units::show_day(day),
            animal.text(),
            "a quarantine ends without mites, not after them",
            "treat it as an outbreak: a plan first, then how sure you may be",
            {}};
}

/// Where the animal lived since it came, the first place first.
std::vector<records::Stay> stays_of(std::span<const Entry> journal, const Animal& animal) {
    std::vector<records::Stay> own;
    for (const records::Stay& stay : records::stays(journal)) {
        if (stay.animal == animal.id && stay.from >= animal.arrived) own.push_back(stay);
    }
    return own;
}

bool was_there(const std::vector<records::Stay>& stays, const records::EnclosureId& enclosure, Day day) {
    return std::any_of(stays.begin(), stays.end(), [&](const records::Stay& stay) {
        return stay.enclosure == enclosure && stay.from <= day && (!stay.until || day <= *stay.until);
    });
}

int clean_checks_of(std::span<const Entry> journal, const std::vector<records::Stay>& stays, Day today) {
    int count = 0;
    for (const Entry& entry : records::in_force(journal)) {
        const auto* const check = std::get_if<records::Checked>(&entry.fact);
        if (check != nullptr && check->count == records::SeenCount::none && entry.day <= today &&
            was_there(stays, check->enclosure, entry.day))
            ++count;
    }
    return count;
}

class ReleaseWriter {
  public:
    ReleaseWriter(const Situation& situation, const Animal& animal, const ClearanceOptions& options)
        : knowledge_(situation.knowledge()),
          options_(options),
          stays_(stays_of(situation.journal(), animal)) {
        const auto usual = knowledge_.tables.time("quarantine");
        answer_.animal = animal.id;
        answer_.others = clearance::other_diseases(knowledge_.tables);
        answer_.arrived = animal.arrived;
        answer_.today = situation.today();
        answer_.usual_from = animal.arrived + units::at_least_days(usual.low);
        answer_.usual_to = animal.arrived + units::at_least_days(usual.high);
        answer_.clean_checks = clean_checks_of(situation.journal(), stays_, answer_.today);
        answer_.interval_days = options.interval_days;
        enclosure_ = animal.enclosure;
        known_ = scenario::recorded_since({situation.journal(), situation.collection(),
                                           situation.collection_then(animal.arrived - Days(1))},
                                          animal.arrived, mites::fixed_parameters(knowledge_.tables));
    }

    /// The day mites were last seen where it lived; notes those seen elsewhere.
    [[nodiscard]] std::optional<Day> mites_seen(const records::Collection& collection) {
        std::optional<Day> seen;
        for (const auto& sighting : collection.sightings) {
            if (sighting.day < answer_.arrived) continue;
            if (was_there(stays_, sighting.value.enclosure, sighting.day))
                seen = sighting.day;
            else
                answer_.mites_elsewhere = true;
        }
        return seen;
    }

    [[nodiscard]] Result<clearance::ReleaseAnswer> write() {
        const auto draws = mites::draw_parameters(knowledge_.tables, options_.draws, options_.seed);
        const auto end = [&](clearance::DetectionEnd at) {
            return clearance::with_detection_at(draws, knowledge_.tables, at);
        };
        const bool done = plan(draws, 0, 1.0 / 3, answer_.release) &&
                          plan(end(clearance::DetectionEnd::low), 1.0 / 3, 2.0 / 3, answer_.at_low) &&
                          plan(end(clearance::DetectionEnd::high), 2.0 / 3, 1, answer_.at_high);
        if (!done) return fail(cancelled());
        return std::move(answer_);
    }

  private:
    /// Every round up to the end of the usual quarantine, and at least those asked for.
    [[nodiscard]] int round_count() const {
        const auto left = static_cast<int>((answer_.usual_to - answer_.today).count());
        const int to_the_end = (std::max(0, left) + options_.interval_days - 1) / options_.interval_days;
        return std::min(most_rounds, std::max(options_.rounds, to_the_end));
    }

    [[nodiscard]] bool plan(const mites::Ensemble& draws, double begin, double until,
                            clearance::Release& into) const {
        clearance::ReleaseRequest request;
        request.scenario = &known_.scenario;
        request.ensemble = &draws;
        request.place = known_.enclosures.at(stays_.front().enclosure);
        request.today = known_.time_of(answer_.today);
        request.rounds = {{known_.enclosures.at(enclosure_)},
                          options_.method,
                          request.today + options_.interval_days,
                          static_cast<double>(options_.interval_days),
                          round_count()};
        request.least = known_.time_of(answer_.usual_from);
        request.progress = part_of(options_.progress, begin, until);
        auto release = clearance::plan_release(request, certainty_levels);
        if (release) into = std::move(*release);
        return release.has_value();
    }

    const Knowledge& knowledge_;
    const ClearanceOptions& options_;
    std::vector<records::Stay> stays_;
    records::EnclosureId enclosure_;
    scenario::RecordedCase known_;
    clearance::ReleaseAnswer answer_;
};

}  // namespace

Result<clearance::ReleaseAnswer> release_of(const Situation& situation, const records::AnimalId& animal,
                                            const ClearanceOptions& options) {
    const records::Collection& collection = situation.collection();
    const auto found = collection.animals.find(animal);
    if (found == collection.animals.end()) return fail(no_animal_to_release(animal));
    if (!found->second.quarantine) return fail(not_in_quarantine(animal));
    ReleaseWriter writer(situation, found->second, options);
    if (const auto day = writer.mites_seen(collection)) return fail(mites_with_it(animal, *day));
    return writer.write();
}

}  // namespace mitefall::service
