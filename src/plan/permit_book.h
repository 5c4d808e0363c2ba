#pragma once

#include <tbb/concurrent_unordered_map.h>

#include <memory>
#include <optional>
#include <string>

#include "safety/permit.h"

namespace mitefall::plan {

class Emptied;

/// Permits already asked for, by everything the answer depends on in one case: who, what, when, and what is
/// proposed for the animals concerned so far. A search asks the same questions again and again. Safe to use
/// from several threads.
class PermitBook {
  public:
    explicit PermitBook(const safety::Case& with) : with_(with) {}

    using Answer = safety::Permit;
    [[nodiscard]] const Answer& animal(const records::AnimalId& id, const safety::Request& request,
                                       const safety::CourseSoFar& course);
    [[nodiscard]] const Answer& enclosure(const records::EnclosureId& id, const safety::Request& request,
                                          const safety::CourseSoFar& course);
    [[nodiscard]] const Answer& room(const records::RoomId& id, const safety::Request& request,
                                     const safety::CourseSoFar& course);

    /// The same where everybody of a wooden enclosure lives in its tub, made when it is first asked for.
    [[nodiscard]] Emptied& emptied(const records::EmptiedWood& wood);

    /// The day from which nothing stands in the way of the request but waiting, if that is known, for one
    /// animal; the day of the request if nothing does.
    [[nodiscard]] std::optional<units::Day> free_from(const records::AnimalId& id,
                                                      const safety::Request& request,
                                                      const safety::CourseSoFar& course);

  private:
    template <class Ask>
    const Answer& find(std::string key, Ask ask);

    const safety::Case& with_;
    std::map<records::RoomId, std::vector<records::AnimalId>> in_room_ = animals_by_room();
    [[nodiscard]] std::map<records::RoomId, std::vector<records::AnimalId>> animals_by_room() const;
    tbb::concurrent_unordered_map<std::string, std::shared_ptr<const Answer>> answers_;
    tbb::concurrent_unordered_map<std::string, std::optional<units::Day>> free_days_;
    tbb::concurrent_unordered_map<std::string, std::shared_ptr<Emptied>> emptied_;  ///< by tub
};

}  // namespace mitefall::plan
