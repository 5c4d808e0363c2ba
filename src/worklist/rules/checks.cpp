#include <algorithm>

#include "records/task_key.h"
#include "worklist/rules/rules.h"

namespace mitefall::worklist {

statement::Statement look_in(const Workday& day, const records::EnclosureId& id) {
    const auto found = day.collection().enclosures.find(id);
    if (found != day.collection().enclosures.end() && found->second.eggs)
        return work::look_around_eggs(day.name_of(id));
    const bool by_hand = check_method(day, id) != records::CheckMethod::paper_trap;
    return by_hand ? work::look(day.name_of(id)) : work::look_without_hands(day.name_of(id));
}

namespace rules {
namespace {

using records::EnclosureId;

/// Whom a later sighting first brought near mites was not to be looked at before it.
std::set<EnclosureId> watched_on(const Workday& day, units::Day planned) {
    const auto& treated = day.assignment().enclosures;
    const auto& sightings = day.collection().sightings;
    std::set<EnclosureId> watched(treated.begin(), treated.end());
    const bool is_news = std::any_of(sightings.begin(), sightings.end(),
                                     [&](const auto& sighting) { return sighting.day > planned; });
    const auto& exposed = day.setting().exposed;
    if (planned == day.today() || !is_news) watched.insert(exposed.begin(), exposed.end());
    return watched;
}

bool is_looked_at(const Workday& day, const EnclosureId& id, units::Day since, const std::string& task) {
    const auto& looked_at = day.collection().enclosures.at(id).looked_at;
    return (looked_at && *looked_at >= since) || day.assignment().settled.contains(task);
}

}  // namespace

Tasks checks(const Workday& day) {
    if (!day.has_course()) return {};
    const units::Day first = day.assignment().rounds.front();
    const auto weeks = (day.today() - first) / check_interval;
    const units::Day planned = first + weeks * check_interval;
    if (planned <= first || planned > day.end_of_watch()) return {};
    Tasks tasks;
    for (const EnclosureId& id : watched_on(day, planned)) {
        std::string key = records::to_text(planned, records::TaskPart::check, id.text());
        if (planned < day.today() && is_looked_at(day, id, planned, key)) continue;
        Task& task = tasks.emplace_back(day.task(std::move(key), TaskKind::check, id, look_in(day, id)));
        task.planned = planned;
        task.check = check_method(day, id);
    }
    return tasks;
}

}  // namespace rules
}  // namespace mitefall::worklist
