#pragma once

#include <vector>

#include "worklist/workday.h"

// One rule for each kind of task: what the day asks of it. Each looks at the day alone; what several of them
// need to know stands in worklist/workday.h.
namespace mitefall::worklist::rules {

using Tasks = std::vector<Task>;

/// The treatments of a round due.
[[nodiscard]] Tasks treatments(const Workday& day);
/// Whom the day passes over, and why.
[[nodiscard]] std::vector<PassedOver> passed_over(const Workday& day);
/// The dish comes out before the spray, in whichever order the two are ticked.
[[nodiscard]] Tasks dishes_out(const Workday& day);
/// Paper that is kept damp.
[[nodiscard]] Tasks wettings_again(const Workday& day);
/// A check of every treated or exposed enclosure each week from the first round to the end of the watch. One
/// that was missed stays on the list until the next.
[[nodiscard]] Tasks checks(const Workday& day);
/// Of the routine on record: traps to be read, those that are late too. None while a course or its watch asks
/// for looks of its own.
[[nodiscard]] Tasks traps(const Workday& day);
/// Where one is to be laid today, with the day on which it is read.
[[nodiscard]] std::vector<Note> traps_to_lay(const Workday& day);
/// The next day after today on which one is to be read.
[[nodiscard]] std::optional<units::Day> next_trap(const Workday& day);
[[nodiscard]] Tasks dishes_back(const Workday& day);
/// A drink outside each enclosure that is without its dish.
[[nodiscard]] Tasks drinks(const Workday& day);
/// What an animal was carried out of, or is to be today, is washed; until it is ticked, as long as a next
/// round may need it.
[[nodiscard]] Tasks old_tubs(const Workday& day);
/// Wood that stands empty for the course: what becomes of it, and once a week after the last round, when
/// its animals may go back.
[[nodiscard]] Tasks wood(const Workday& day);
/// The next day after today on which that is to be asked.
[[nodiscard]] std::optional<units::Day> next_wood(const Workday& day);
/// Things of the enclosures and rooms the round works in.
[[nodiscard]] Tasks things(const Workday& day);
/// Those that may not be sprayed as their keeper wants, and why.
[[nodiscard]] std::vector<PassedOver> things_passed_over(const Workday& day);
[[nodiscard]] statement::Term term_of(const records::Thing& thing);
/// The name of where it is kept.
[[nodiscard]] std::string place_of(const Workday& day, const records::Thing& thing);
/// What was ticked or skipped and is not among `open` or `first` any more, so that it does not vanish.
[[nodiscard]] Tasks settled(const Workday& day, const Tasks& open, const Tasks& first);
/// Each animal with a sign that means a veterinarian today: ring one, once for each day on which a sign was
/// seen; and what it needs meanwhile, as a note.
[[nodiscard]] Tasks signs(const Workday& day);
/// An animal that reacted goes somewhere clean and dry.
[[nodiscard]] Tasks dry_tubs(const Workday& day);
/// After a death: the body is kept for an examination; its company waits until somebody says on.
[[nodiscard]] Tasks deaths(const Workday& day);
/// Today's spray: as much as the tasks still to be done take. None where nothing is to be mixed.
[[nodiscard]] std::optional<Task> mix(const Workday& day, const Tasks& all);
/// What contact with animals elsewhere asks for before one's own are worked on; notes, not to be ticked.
[[nodiscard]] Tasks after_outside(const Workday& day);
/// Gloves, hands and clothes, put between tasks that stand in working order.
[[nodiscard]] Tasks with_hygiene(const Workday& day, Tasks in_order);
/// Sheds to be asked for, of those that are treated or at risk: what waits for one waits no longer than it
/// must.
[[nodiscard]] std::vector<ShedQuestion> sheds(const Workday& day);

/// Meals to hold: nobody is fed who is wet or was just treated, nor so soon before a treatment that it would
/// have to wait. One note for each day on which they may be fed again.
[[nodiscard]] std::vector<Note> meals_to_hold(const Workday& day);
/// Gravid animals, eggs and hatchlings of places that are treated or at risk.
[[nodiscard]] std::vector<Note> breeding(const Workday& day);

}  // namespace mitefall::worklist::rules
