#pragma once

#include <string>
#include <vector>

#include "records/facts/fact.h"
#include "records/method.h"
#include "records/names.h"
#include "units/day.h"

// What was decided when a course was adopted. Whether it may still be done is asked anew on each day.
namespace mitefall::records {

/// One thing the course does.
struct CourseTreatment {
    std::string task;    ///< its key in the worklist
    units::Day planned;  ///< the day of the round
    units::Day day;      ///< later than `planned` for animals that must wait
    RoomId room;         ///< empty: of an enclosure
    EnclosureId enclosure;
    std::vector<AnimalId> animals;
    Method method = Method::change_substrate;

    static constexpr std::tuple members{Member{"task", &CourseTreatment::task},
                                        Member{"planned", &CourseTreatment::planned},
                                        Member{"day", &CourseTreatment::day},
                                        Member{or_null("room"), &CourseTreatment::room},
                                        Member{or_null("enclosure"), &CourseTreatment::enclosure},
                                        Member{"animals", &CourseTreatment::animals},
                                        Member{"method", &CourseTreatment::method}};
};

/// Something the course would do and the safety check does not permit.
struct CourseRefusal {
    units::Day day;
    EnclosureId enclosure;  ///< empty: the room
    AnimalId animal;        ///< empty: the place
    Method method = Method::spray_animal;
    std::string reason;  ///< in full, with what to do about it, as it was said when the course was adopted
    // Of courses adopted before these were kept they are empty.
    std::string rule{};    ///< the rule's id (safety/rules.def)
    std::string common{};  ///< what holds for all to which the rule applies
    std::string own{};     ///< what is of this one alone; may be empty
    std::string remedy{};  ///< what to do about it; may be empty

    static constexpr std::tuple members{Member{"day", &CourseRefusal::day},
                                        Member{or_null("enclosure"), &CourseRefusal::enclosure},
                                        Member{or_null("animal"), &CourseRefusal::animal},
                                        Member{"method", &CourseRefusal::method},
                                        Member{"reason", &CourseRefusal::reason},
                                        later(told_otherwise("rule"), &CourseRefusal::rule),
                                        later(told_otherwise("common"), &CourseRefusal::common),
                                        later(told_otherwise("own"), &CourseRefusal::own),
                                        later(told_otherwise("remedy"), &CourseRefusal::remedy)};
};

/// A round put to another day. Its tasks keep what was ticked of them under the old one.
struct MovedRound {
    units::Day from;
    units::Day to;

    static constexpr std::tuple members{Member{"from", &MovedRound::from}, Member{"to", &MovedRound::to}};
};

/// How a course treats what it treats.
struct CourseChoices {
    bool change_substrate = false;
    bool keep_damp = false;                    ///< paper that was sprayed is wetted again
    bool soak_animals = false;                 ///< in plain water, instead of the spray
    std::vector<EnclosureId> fresh_tubs = {};  ///< whose animals go into a clean tub in each round, each once
    bool clear_heads = false;                  ///< head and eyes of each animal gone over in each round
    bool without_spray = false;                ///< no acaricide, anywhere
    friend bool operator==(const CourseChoices&, const CourseChoices&) = default;
};

/// What a course does beyond its days and places. Journals of before say nothing of it.
struct CourseTerms {
    std::string scope;  ///< as the plan names it; empty: not on record, and then nothing else is
    std::vector<CourseTreatment> treatments;
    std::vector<CourseRefusal> left_out;
    [[nodiscard]] bool are_known() const { return !scope.empty(); }
    friend bool operator==(const CourseTerms&, const CourseTerms&) = default;
};

}  // namespace mitefall::records
