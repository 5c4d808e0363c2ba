#pragma once

#include <map>
#include <optional>
#include <span>
#include <vector>

#include "records/collection.h"
#include "scenario/on_record.h"
#include "scenario/scenario.h"

namespace mitefall::scenario {

/// A scenario made from records, what was seen in it, and where the keeper's places stand.
struct RecordedCase {
    Scenario scenario;
    units::Day origin;  ///< day 0
    double from = 0;  ///< day of the last sighting, or of today: what happened since is known, what was there
                      ///< is inferred
    std::vector<Look> looks;  ///< up to `from`, in order; clean checks on that day come after it
    std::vector<ArrivalOnRecord> arrivals;  ///< animals that came from outside on day 0 or later
    std::vector<OutsideOnRecord> outside;   ///< up to `from`; what came in later is in the scenario
    std::vector<PlaceIndex> sighted;        ///< as LastSeen::enclosures, oldest sighting first
    std::map<records::EnclosureId, PlaceIndex> enclosures;
    std::map<records::RoomId, PlaceIndex> rooms;
    std::map<records::EnclosureId, std::vector<records::AnimalId>>
        living;  ///< who lives there at the end, as Residents::of puts them

    [[nodiscard]] double time_of(units::Day day) const { return static_cast<double>((day - origin).count()); }
};

/// The outbreak at hand, as far as it was seen.
struct LastSeen {
    units::Day day;      ///< of the last sighting, not after today
    units::Day reaches;  ///< today, or the last day from which `look_back` reaches back to `day`
    std::vector<records::EnclosureId>
        enclosures;  ///< with a sighting within `look_back` of `reaches`; each once, oldest sighting first
};

/// nullopt if the last sighting is more than three times `look_back` ago: older ones are of another outbreak.
[[nodiscard]] std::optional<LastSeen> last_seen(const records::Collection& today, units::TimeSpan look_back);

/// Everything on record from `origin` to `today` that moves, carries or kills mites or looked for them in
/// vain; no start. Places are those known today; facts of one day keep their order.
[[nodiscard]] RecordedCase recorded_since(std::span<const records::Entry> journal, units::Day today,
                                          units::Day origin, const mites::FixedParameters& fixed);

/// Everything on record up to `today` that moves, carries or kills mites or looked for them. The belief is
/// formed on the day of the last sighting, if there is one within three times `look_back`, else today; day 0
/// is `look_back` before. Animals entered on the first day of the journal were there before it (M16). Places
/// are those known today; facts of one day keep their order.
[[nodiscard]] base::Result<RecordedCase> case_from_records(std::span<const records::Entry> journal,
                                                           units::Day today, units::TimeSpan look_back,
                                                           const mites::FixedParameters& fixed);

/// The journal with the days of it a case is made from, where these are at hand.
struct FoldedJournal {
    std::span<const records::Entry> entries;
    const records::Collection& today;
    const records::Collection& before;  ///< at the end of the day before a case begins
};
/// As above. `before`: of the day before `origin`.
[[nodiscard]] RecordedCase recorded_since(const FoldedJournal& journal, units::Day origin,
                                          const mites::FixedParameters& fixed);
/// As above. `before`: of `day_before_case`.
[[nodiscard]] base::Result<RecordedCase> case_from_records(const FoldedJournal& journal,
                                                           units::TimeSpan look_back,
                                                           const mites::FixedParameters& fixed);
/// The last day of which only what was there counts, not what happened.
[[nodiscard]] units::Day day_before_case(std::span<const records::Entry> journal,
                                         const records::Collection& today, units::TimeSpan look_back);

}  // namespace mitefall::scenario
