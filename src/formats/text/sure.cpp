#include "formats/text/sure.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/layout.h"
#include "units/text.h"

namespace mitefall::formats {

using clearance::Sureness;
using records::CheckMethod;

namespace {

constexpr std::size_t most_names = 6;

}  // namespace

std::string_view name_of(CheckMethod method) {
    switch (method) {
        case CheckMethod::look_over: return "look over";
        case CheckMethod::soak: return "soak";
        case CheckMethod::wipe: return "wipe";
        case CheckMethod::paper_trap: return "paper trap";
    }
    return {};
}

std::string show_sure(const Sureness& sure) { return units::show_chance(sure.clear.mean); }

std::string show_left(double risk) {
    if (risk >= 1) return "for certain";
    if (risk > 0.1) return units::show_chance(risk);
    if (!(risk > 0)) return "none";
    return fmt::format("1 in {}", units::show_number(1 / risk, 2));
}

std::string show_range(const Sureness& sure) {
    return units::show_chance(sure.clear.p10) + " to " + units::show_chance(sure.clear.p90);
}

std::string names_of(const std::vector<records::EnclosureId>& ids) {
    if (ids.size() > most_names) return fmt::format("{} and {} like it", ids.front().text(), ids.size() - 1);
    std::string text;
    for (const auto& id : ids) text += (text.empty() ? "" : ", ") + id.text();
    return text;
}

std::string show_time(units::Day origin, const std::optional<double>& time) {
    if (!time) return "not within these rounds";
    return units::format_day(origin + units::Days(static_cast<int>(std::lround(*time))));
}

std::string days_text(const std::vector<clearance::Reached>& usual,
                      const std::vector<clearance::Reached>& low, const std::vector<clearance::Reached>& high,
                      units::Day origin) {
    Table table(
        {"SURE TO", "ON AVERAGE", "AT THE CAUTIOUS END", "IF LOOKS SHOW LITTLE", "IF LOOKS SHOW MUCH"});
    for (std::size_t i = 0; i < usual.size(); ++i) {
        table.add({units::show_chance(usual[i].level), show_time(origin, usual[i].at_mean),
                   show_time(origin, usual[i].at_cautious), show_time(origin, low[i].at_mean),
                   show_time(origin, high[i].at_mean)});
    }
    return table.text();
}

}  // namespace mitefall::formats
