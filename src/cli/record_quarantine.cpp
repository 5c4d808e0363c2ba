#include "cli/record_quarantine.h"

#include <fmt/format.h>

#include <variant>

#include "units/whole_days.h"

namespace mitefall::cli {
namespace {

/// One word of a command line, whatever is in it.
std::string shell_word(const std::string& text) {
    std::string word = "'";
    for (const char c : text) word += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return word + "'";
}

}  // namespace

std::string quarantine_proposed(const Recording& recording, const service::DatedFact& dated) {
    const auto* const arrived = std::get_if<records::AnimalArrived>(&dated.fact);
    if (arrived == nullptr || arrived->quarantine || recording.is_quarantine_said) return {};
    const Context& context = recording.context;
    const auto usual = context.knowledge().tables.time("quarantine");
    const units::Days least = units::at_least_days(usual.low);
    if (dated.day + least <= context.now().today) return {};
    return fmt::format(
        "Quarantine is proposed for what comes from outside: at least {} days,\nin a room of its own ({}).\n",
        least.count(), evidence::to_text(usual.tag));
}

std::string quarantine_command(const Context& context, const service::DatedFact& dated,
                               records::FactId entry) {
    const auto& arrived = std::get<records::AnimalArrived>(dated.fact);
    const auto option = [](const char* name, const std::string& value) {
        return value.empty() ? std::string() : fmt::format(" {} {}", name, shell_word(value));
    };
    return fmt::format("{} record arrival {}{}{}{} --enclosure {} --on {} --quarantine --corrects {}{}",
                       context.program(), arrived.animal.text(), option("--name", arrived.name),
                       option("--kind", arrived.taxon), option("--origin", arrived.origin),
                       arrived.enclosure.text(), units::format_day(dated.day), entry,
                       context.file() == context.usual_file() ? "" : option("--file", context.file()));
}

}  // namespace mitefall::cli
