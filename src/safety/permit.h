#pragma once

#include <memory>
#include <tl/expected.hpp>
#include <vector>

#include "base/error.h"
#include "safety/check.h"

namespace mitefall::safety {

/// A treatment the safety rules permit. Only the functions below can make one, so nothing that was not judged
/// can reach a plan or a worklist. Copies share what was judged.
class PermittedTreatment {
  public:
    [[nodiscard]] const records::RoomId& room() const { return grounds_->room; }
    [[nodiscard]] const records::EnclosureId& enclosure() const {
        return grounds_->enclosure;
    }  ///< empty for a room
    /// Animals treated or, for a room, present; empty for an empty enclosure.
    [[nodiscard]] const std::vector<records::AnimalId>& animals() const { return grounds_->animals; }
    [[nodiscard]] records::Method method() const { return request_.method; }
    [[nodiscard]] units::Strength strength() const { return request_.strength; }
    [[nodiscard]] units::Day day() const { return request_.day; }
    /// Those of the animals and the place first, then those of the method.
    [[nodiscard]] std::vector<Caution> cautions() const;

  private:
    friend class PermitOffice;
    struct Grounds {
        records::RoomId room;
        records::EnclosureId enclosure;
        std::vector<records::AnimalId> animals;
        std::vector<Caution> cautions;                          ///< of this treatment alone
        std::shared_ptr<const std::vector<Caution>> of_method;  ///< whoever it is for
    };
    PermittedTreatment(const Request& request, Grounds grounds)
        : request_(request), grounds_(std::make_shared<const Grounds>(std::move(grounds))) {}

    Request request_;
    std::shared_ptr<const Grounds> grounds_;
};

/// Why there is none.
struct Refusal {
    base::ErrorKind kind = base::ErrorKind::refused;  ///< refused by a rule, or asked for in a wrong way
    Reason reason;
    records::AnimalId animal{};  ///< the one that does not permit it; empty: none does
};

using Permit = tl::expected<PermittedTreatment, Refusal>;

/// For one animal. A method that treats the enclosure or the room needs the consent of every animal there, as
/// below. Refused with ErrorKind::refused unless the verdict permits it.
[[nodiscard]] Permit permit(const Case& with, const records::AnimalId& animal, const Request& request,
                            const CourseSoFar& course);

/// For an enclosure: every animal inside must permit it, and its room's air. A method given to animals needs
/// one inside. treat_room is asked for by room.
[[nodiscard]] Permit permit_enclosure(const Case& with, const records::EnclosureId& enclosure,
                                      const Request& request, const CourseSoFar& course);

/// For a room, treat_room only: every animal of the room must permit it.
[[nodiscard]] Permit permit_room(const Case& with, const records::RoomId& room, const Request& request,
                                 const CourseSoFar& course);

/// The same for a single animal, from the inputs of `judge`.
[[nodiscard]] Permit permit(const records::Collection& collection, const records::Animal& animal,
                            records::Method method, units::Strength strength, units::Day day,
                            const evidence::Tables& tables, const evidence::Taxa& taxa,
                            const CourseSoFar& course);
[[nodiscard]] Permit permit_enclosure(const records::Collection& collection,
                                      const records::EnclosureId& enclosure, records::Method method,
                                      units::Strength strength, units::Day day,
                                      const evidence::Tables& tables, const evidence::Taxa& taxa,
                                      const CourseSoFar& course);
[[nodiscard]] Permit permit_room(const records::Collection& collection, const records::RoomId& room,
                                 units::Strength strength, units::Day day, const evidence::Tables& tables,
                                 const evidence::Taxa& taxa, const CourseSoFar& course);

}  // namespace mitefall::safety
