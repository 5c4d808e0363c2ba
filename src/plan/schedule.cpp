#include "plan/schedule.h"

#include <tuple>

#include "plan/fitter.h"

namespace mitefall::plan {

bool is_large(const Setting& setting) {
    constexpr std::size_t many_enclosures = 500;
    return setting.with.collection.enclosures.size() >= many_enclosures;
}

std::string ScheduledTreatment::key() const {
    switch (records::row_of(part).name_of) {
        case records::NameOf::animal:
            return records::to_text(planned, part, treatment.animals().front().text());
        case records::NameOf::room: return records::to_text(planned, part, treatment.room().text());
        case records::NameOf::enclosure:
        case records::NameOf::thing:
        case records::NameOf::bench: break;
    }
    return records::to_text(planned, part, treatment.enclosure().text());
}

bool operator<(const Burden& a, const Burden& b) {
    const auto key = [](const Burden& x) {
        return std::tuple(x.most_on_one_animal, x.on_animal, x.damp_days, x.days_without_water, x.handlings,
                          x.tasks, units::in_millilitres(x.spray));
    };
    return key(a) < key(b);
}

Schedule fit(const Assignment& assignment, const Setting& setting) {
    PermitBook permits(setting.with);
    return fit(assignment, setting, permits);
}

Schedule fit(const Assignment& assignment, const Setting& setting, PermitBook& permits) {
    return Fitter(assignment, setting, permits).fit();
}

scenario::Scenario present_of(const Setting& setting) {
    return scenario::forget_past(setting.known.scenario, setting.known.from);
}

}  // namespace mitefall::plan
