#pragma once

#include <bitset>
#include <set>

#include "records/names.h"
#include "units/day.h"

namespace mitefall::plan {

/// What the keeper asks of every course, whatever it is.
struct Limits {
    std::bitset<7> free_days = std::bitset<7>().set();  ///< days of the week for rounds; 0 is Sunday
    std::set<records::EnclosureId> only;                ///< treat these and nothing else; empty: no such wish
    int spare_tubs = 0;                                 ///< clean plain tubs at hand in each round
    bool clear_heads = false;                           ///< courses that go over heads and eyes are tried
    bool without_spray = false;  ///< none is at hand: courses without any acaricide alone

    [[nodiscard]] bool is_free(units::Day day) const {
        return free_days.test(std::chrono::weekday(day).c_encoding());
    }
};

/// What makes one course lighter than another.
enum class Prefer {
    burden,  ///< on the animals, then work, then spray
    work,    ///< tasks, soaks counted twice, then burden
    cost,    ///< spray mixed, then tasks
};

}  // namespace mitefall::plan
