#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "records/facts.h"
#include "records/method.h"

namespace mitefall::records {

/// What of a day's work a task is. Everything that is asked of a part is asked of its row.
enum class TaskPart {
    animal,
    head,
    substrate,
    fresh_tub,
    bedding,
    room,
    redampen,
    water_out,
    water_back,
    thing,
    old_tub,
    drink,
    check,
    mix,
    hygiene,
    sign,
    dry_tub,
    death,
    left_wood,
    wood_back,
};

/// Whose name stands in the key of a task.
enum class NameOf { animal, enclosure, room, thing, bench };

struct PartRow {
    TaskPart part;
    std::string_view text;  ///< in keys: part of the file format
    NameOf name_of = NameOf::enclosure;
    bool is_of_round = false;  ///< a round of the course asks for it, and its key keeps the day of the round
    bool treats = false;       ///< against mites
    int turn = 0;              ///< among the treatments of one place on one day
    std::optional<Method> method{};  ///< that it always is; an animal is given what it may have
};

inline constexpr std::array part_rows{
    PartRow{.part = TaskPart::animal,
            .text = "animal",
            .name_of = NameOf::animal,
            .is_of_round = true,
            .treats = true},
    PartRow{.part = TaskPart::head,
            .text = "head",
            .name_of = NameOf::animal,
            .is_of_round = true,
            .treats = true,
            .method = Method::clear_head},
    PartRow{.part = TaskPart::substrate,
            .text = "substrate",
            .is_of_round = true,
            .treats = true,
            .turn = 1,
            .method = Method::change_substrate},
    PartRow{.part = TaskPart::fresh_tub,
            .text = "fresh-tub",
            .is_of_round = true,
            .treats = true,
            .turn = 1,
            .method = Method::fresh_tub},
    PartRow{.part = TaskPart::bedding,
            .text = "bedding",
            .is_of_round = true,
            .treats = true,
            .turn = 2,
            .method = Method::spray_bedding},
    PartRow{.part = TaskPart::room,
            .text = "room",
            .name_of = NameOf::room,
            .is_of_round = true,
            .treats = true,
            .turn = 2,
            .method = Method::treat_room},
    PartRow{.part = TaskPart::redampen, .text = "redampen", .treats = true},
    PartRow{.part = TaskPart::water_out, .text = "water-out"},
    PartRow{.part = TaskPart::water_back, .text = "water-back"},
    PartRow{.part = TaskPart::thing, .text = "thing", .name_of = NameOf::thing},
    PartRow{.part = TaskPart::old_tub, .text = "old-tub"},
    PartRow{.part = TaskPart::drink, .text = "drink"},
    PartRow{.part = TaskPart::check, .text = "check"},
    PartRow{.part = TaskPart::mix, .text = "mix", .name_of = NameOf::bench},
    PartRow{.part = TaskPart::hygiene, .text = "hygiene", .name_of = NameOf::bench},
    PartRow{.part = TaskPart::sign, .text = "sign", .name_of = NameOf::animal},
    PartRow{.part = TaskPart::dry_tub, .text = "dry-tub", .name_of = NameOf::animal},
    PartRow{.part = TaskPart::death, .text = "death", .name_of = NameOf::animal},
    PartRow{.part = TaskPart::left_wood, .text = "left-wood"},
    PartRow{.part = TaskPart::wood_back, .text = "wood-back"},
};

static_assert(base::in_order(part_rows, &PartRow::part));

[[nodiscard]] constexpr auto vocabulary_of(TaskPart) {
    return base::vocabulary("part of a task", part_rows, &PartRow::part, &PartRow::text);
}

/// Throws ContractViolation for what is no part.
[[nodiscard]] constexpr const PartRow& row_of(TaskPart part) { return base::row_in(part_rows, part); }

/// What a task of the worklist is called in the journal, taken apart: "2026-11-25/redampen/tub-2".
struct TaskKey {
    units::Day day;  ///< of the round, or on which the task is to be done
    TaskPart part = TaskPart::animal;
    std::string name;  ///< of the animal, enclosure, room or thing
};

/// What says of a task that it was done, or passed over.
[[nodiscard]] bool is_mark(const Entry& entry);

[[nodiscard]] std::string to_text(units::Day day, TaskPart part, std::string_view name);

/// Empty for a text that is no such key, or of a part that this version does not know.
[[nodiscard]] std::optional<TaskKey> read_task_key(const std::string& text);

/// Before wetted paper was a fact of its own, the tick was all that told of it. Two of one day are one
/// wetting.
[[nodiscard]] std::optional<PaperWetted> paper_wetted_by(const TaskDone& tick);

}  // namespace mitefall::records
