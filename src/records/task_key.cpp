#include "records/task_key.h"

#include <fmt/format.h>

namespace mitefall::records {

bool is_mark(const Entry& entry) {
    return std::holds_alternative<TaskDone>(entry.fact) || std::holds_alternative<TaskSkipped>(entry.fact);
}

std::string to_text(units::Day day, std::string_view part, std::string_view name) {
    return fmt::format("{}/{}/{}", units::format_day(day), part, name);
}

std::optional<TaskKey> read_task_key(const std::string& text) {
    const auto first = text.find('/');
    const auto second = first == std::string::npos ? first : text.find('/', first + 1);
    if (second == std::string::npos) return std::nullopt;
    const auto day = units::parse_day(text.substr(0, first));
    if (!day) return std::nullopt;
    return TaskKey{*day, text.substr(first + 1, second - first - 1), text.substr(second + 1)};
}

std::optional<PaperWetted> paper_wetted_by(const TaskDone& tick) {
    const auto key = read_task_key(tick.task);
    if (!key || key->part != "redampen") return std::nullopt;
    return PaperWetted{EnclosureId(key->name)};
}

}  // namespace mitefall::records
