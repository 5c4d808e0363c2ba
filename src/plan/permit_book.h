#pragma once

#include <tbb/concurrent_unordered_map.h>

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>

#include "plan/proposed.h"
#include "plan/roster.h"
#include "safety/permit.h"
#include "safety/wet_book.h"

namespace mitefall::plan {

class Emptied;

/// Permits already asked for, by everything the answer depends on in one case: who, what, when, and what is
/// proposed for the animals concerned so far. A search asks the same questions again and again. Safe to use
/// from several threads.
class PermitBook {
  public:
    explicit PermitBook(const safety::Case& with);
    /// About these enclosures alone, and about no room: soon made, however large the collection is.
    PermitBook(const safety::Case& with, std::set<records::EnclosureId> only);
    PermitBook(const PermitBook&) = delete;
    PermitBook& operator=(const PermitBook&) = delete;
    ~PermitBook();

    [[nodiscard]] const safety::Case& with() const { return with_; }
    [[nodiscard]] const Roster& roster() const { return roster_; }

    /// `before` and then this.
    [[nodiscard]] const Proposed* after(const Proposed* before, const safety::Application& next) {
        return proposed_.after(before, next);
    }

    // `course`: of every animal of the roster.
    using Answer = safety::Permit;
    [[nodiscard]] const Answer& animal(AnimalNumber animal, const safety::Request& request,
                                       const ProposedCourse& course);
    [[nodiscard]] const Answer& enclosure(EnclosureNumber enclosure, const safety::Request& request,
                                          const ProposedCourse& course);
    [[nodiscard]] const Answer& room(const records::RoomId& room, const safety::Request& request,
                                     const ProposedCourse& course);

    // Where nothing else is proposed.
    [[nodiscard]] const Answer& animal(const records::AnimalId& id, const safety::Request& request);
    [[nodiscard]] const Answer& enclosure(const records::EnclosureId& id, const safety::Request& request);

    /// What is on record of dish and paper of an enclosure, for a course without rounds from `today` on.
    [[nodiscard]] const safety::WetBook& water_of(EnclosureNumber enclosure, units::Day today);

    /// The same where everybody of a wooden enclosure lives in its tub, made when it is first asked for.
    [[nodiscard]] Emptied& emptied(const records::EmptiedWood& wood);

    /// The day from which nothing stands in the way of the request but waiting, if that is known, for one
    /// animal; the day of the request if nothing does.
    [[nodiscard]] std::optional<units::Day> free_from(AnimalNumber animal, const safety::Request& request,
                                                      const ProposedCourse& course);

  private:
    struct Key {
        const void* who = nullptr;  ///< of the collection
        const Proposed* proposed = nullptr;
        double strength = 0;  ///< mg/L
        units::Day day;
        records::Method method = records::Method::spray_animal;
        friend bool operator==(const Key&, const Key&) = default;
    };
    struct HashOfKey {
        std::size_t operator()(const Key& key) const;
    };
    [[nodiscard]] static Key key_of(const void* who, const safety::Request& request,
                                    const Proposed* proposed);
    template <class Ask>
    const Answer& find(const Key& key, Ask ask);
    [[nodiscard]] safety::CourseSoFar told(const std::vector<AnimalNumber>& animals,
                                           const ProposedCourse& course) const;
    [[nodiscard]] std::map<records::RoomId, std::vector<AnimalNumber>> animals_by_room() const;

    const safety::Case& with_;
    std::optional<std::set<records::EnclosureId>> only_;  ///< nothing: all
    Roster roster_;
    ProposedBook proposed_;
    std::map<records::RoomId, std::vector<AnimalNumber>> in_room_;
    /// By part of the key: so that hundreds of thousands of permits are let go of on all threads.
    std::array<tbb::concurrent_unordered_map<Key, Answer, HashOfKey>, 8> answers_;
    tbb::concurrent_unordered_map<Key, std::optional<units::Day>, HashOfKey> free_days_;
    tbb::concurrent_unordered_map<Key, safety::WetBook, HashOfKey> water_;
    tbb::concurrent_unordered_map<std::string, std::shared_ptr<Emptied>> emptied_;  ///< by tub
};

}  // namespace mitefall::plan
