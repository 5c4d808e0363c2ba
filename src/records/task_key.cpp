#include "records/task_key.h"

#include <fmt/format.h>

namespace mitefall::records {

bool is_mark(const Entry& entry) {
    return std::holds_alternative<TaskDone>(entry.fact) || std::holds_alternative<TaskSkipped>(entry.fact);
}

std::string to_text(units::Day day, TaskPart part, std::string_view name) {
    return fmt::format("{}/{}/{}", units::format_day(day), to_text(part), name);
}

std::optional<TaskKey> read_task_key(const std::string& text) {
    const auto first = text.find('/');
    const auto second = first == std::string::npos ? first : text.find('/', first + 1);
    if (second == std::string::npos) return std::nullopt;
    const auto day = units::parse_day(text.substr(0, first));
    const auto part = from_text<TaskPart>(std::string_view(text).substr(first + 1, second - first - 1));
    if (!day || !part) return std::nullopt;
    return TaskKey{*day, *part, text.substr(second + 1)};
}

std::optional<PaperWetted> paper_wetted_by(const TaskDone& tick) {
    const auto key = read_task_key(tick.task);
    if (!key || key->part != TaskPart::redampen) return std::nullopt;
    return PaperWetted{EnclosureId(key->name)};
}

}  // namespace mitefall::records
