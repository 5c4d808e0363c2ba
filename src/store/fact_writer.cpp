#include "store/fact_writer.h"

#include <cmath>

namespace mitefall::store {

std::string FactWriter::checked_day(units::Day day) {
    std::string text = units::format_day(day);
    if (!units::parse_day(text)) {
        put_failed(base::invalid("not a day of the journal", text, "years 1900 to 2199", "check the year"));
    }
    return text;
}

void FactWriter::field(const char* key, units::Day day) { body_[key] = checked_day(day); }

void FactWriter::field(const char* key, const std::vector<units::Day>& days) {
    body_[key] = nlohmann::json::array();
    for (const units::Day day : days) body_[key].push_back(checked_day(day));
}

void FactWriter::put_number(const char* key, double value) {
    if (!std::isfinite(value)) {
        put_failed(base::invalid(std::string("not a number: ") + key, std::to_string(value),
                                 "a finite number", "check what was entered"));
    }
    body_[key] = value;
}

void FactWriter::put_failed(base::Error error) {
    if (!error_) error_ = std::move(error);
}

}  // namespace mitefall::store
