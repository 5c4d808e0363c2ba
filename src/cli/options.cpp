#include "cli/options.h"

#include <cmath>

namespace mitefall::cli {
namespace {

using questions::Type;

constexpr double percent = 100;

/// Without the noise of the last digit, so that a limit reads as it was written.
double in_percent(double share) { return std::round(share * percent * 1e6) / 1e6; }

void add_number(CLI::App& command, const questions::Saying& option, double& said) {
    const auto typed = [&](double value) { return option.is_percent_when_typed ? in_percent(value) : value; };
    said = typed(said);
    command.add_option(std::string(option.names.typed), said, std::string(option.help))
        ->check(CLI::Range(typed(option.limits->low), typed(option.limits->high)))
        ->capture_default_str();
}

void add_whole(CLI::App& command, const questions::Saying& option, std::uint64_t& said) {
    CLI::Option* const added =
        command.add_option(std::string(option.names.typed), said, std::string(option.help));
    added->capture_default_str();
    if (option.limits)
        added->check(CLI::Range(static_cast<int>(option.limits->low), static_cast<int>(option.limits->high)));
}

}  // namespace

void add_option(CLI::App& command, const questions::Saying& option, questions::Value& said) {
    const std::string name(option.names.typed);
    const std::string help(option.help);
    if (name.empty()) return;
    CLI::Option* added = nullptr;
    if (auto* const number = std::get_if<double>(&said)) return add_number(command, option, *number);
    if (auto* const whole = std::get_if<std::uint64_t>(&said)) return add_whole(command, option, *whole);
    if (auto* const flag = std::get_if<bool>(&said)) {
        added = command.add_flag(name, *flag, help);
    } else if (auto* const list = std::get_if<std::vector<std::string>>(&said)) {
        added = command.add_option(name, *list, help);
        if (option.type == Type::names || option.type == Type::days) added->delimiter(',');
    } else {
        auto& text = std::get<std::string>(said);
        added = command.add_option(name, text, help);
        if (!text.empty()) added->capture_default_str();
    }
    if (!option.choices.empty()) added->check(CLI::IsMember(option.choices));
    added->required(option.is_required);
}

questions::Value as_sent(const questions::Saying& option, const questions::Value& said) {
    if (option.is_percent_when_typed) return std::get<double>(said) / percent;
    return said;
}

}  // namespace mitefall::cli
