#include "evidence/tables.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

#include "base/contract.h"
#include "evidence/toml_text.h"

namespace mitefall::evidence {
namespace {

using base::Error;
using base::fail;
using base::Result;

constexpr std::array known_units{"g", "mg/L", "C", "h", "d", "1/d", "share", "1", "C h", "mL/cm2", "mg/kg"};
constexpr std::array known_keys{"value", "low", "high", "unit", "tag", "source", "meaning"};

bool needs_source(Tag tag) { return tag != Tag::common_practice && tag != Tag::assumption; }

bool lies_in_domain(double x, std::string_view unit) {
    if (!std::isfinite(x)) return false;
    if (unit == "share") return x >= 0 && x <= 1;
    if (unit == "C") return x >= -50 && x <= 100;
    return x >= 0;
}

/// Reads one [parameter.KEY] table.
class RowReader {
  public:
    RowReader(const std::string& file, const std::string& key, const toml::table& table)
        : file_(file), key_(key), table_(table), row_(file, table, key + ".") {}

    Result<Tables::Row> read(const std::map<std::string, std::string, std::less<>>& sources) {
        if (const auto unknown = row_.refuse_unknown_keys(known_keys)) return fail(*unknown);
        for (const char* const name : {"unit", "tag", "meaning"}) {
            if (!table_[name].is_string()) return fail(wrong(name, "must be a text"));
        }
        Tables::Row row;
        row.file = file_;
        row.unit = *table_["unit"].value<std::string>();
        Tables::Row::Texts texts;
        texts.key = key_;
        texts.meaning = *table_["meaning"].value<std::string>();
        if (std::find(known_units.begin(), known_units.end(), row.unit) == known_units.end()) {
            return fail(wrong("unit", "unknown unit \"" + row.unit + "\""));
        }
        const auto tag = base::from_text<Tag>(*table_["tag"].value<std::string>());
        if (!tag) return fail(wrong("tag", "must be one of R, R2, M, C, P, A"));
        row.cited.tag = *tag;
        if (auto fault = read_numbers(row)) return fail(*fault);
        if (auto fault = read_source(row.cited.tag, sources, texts.source)) return fail(*fault);
        row.texts = std::make_shared<const Tables::Row::Texts>(std::move(texts));
        row.cited.source = row.texts->source;
        row.cited.key = row.texts->key;
        row.cited.meaning = row.texts->meaning;
        return row;
    }

  private:
    Error wrong(std::string_view name, std::string what) const { return row_.wrong(name, std::move(what)); }

    std::optional<Error> read_numbers(Tables::Row& row) const {
        const std::array<std::pair<const char*, double*>, 3> targets{
            {{"value", &row.cited.value}, {"low", &row.cited.low}, {"high", &row.cited.high}}};
        for (const auto& [name, target] : targets) {
            const auto number = table_[name].value<double>();
            if (!number && (std::string_view(name) == "value" || table_.contains(name))) {
                return wrong(name, "must be a number");
            }
            *target = number.value_or(row.cited.value);
            if (!lies_in_domain(*target, row.unit)) {
                return wrong(name, fmt::format("{} is not possible for unit \"{}\"", *target, row.unit));
            }
        }
        if (!(row.cited.low <= row.cited.value && row.cited.value <= row.cited.high)) {
            return wrong("value", fmt::format("low <= value <= high does not hold: {} {} {}", row.cited.low,
                                              row.cited.value, row.cited.high));
        }
        return std::nullopt;
    }

    std::optional<Error> read_source(Tag tag, const std::map<std::string, std::string, std::less<>>& sources,
                                     std::string& text) const {
        const auto source = table_["source"].value<std::string>();
        if (source.has_value() != needs_source(tag)) {
            return wrong("source", needs_source(tag) ? "tag " + std::string(to_text(tag)) + " needs a source"
                                                     : "common practice and assumptions have no source");
        }
        if (!source) return std::nullopt;
        const auto found = sources.find(*source);
        if (found == sources.end()) return wrong("source", "no source named \"" + *source + "\"");
        text = found->second;
        return std::nullopt;
    }

    const std::string& file_;
    const std::string& key_;
    const toml::table& table_;
    TomlRow row_;
};

template <class T, class Make>
Cited<T> typed(const Cited<double>& plain, Make make) {
    return {make(plain.value), make(plain.low), make(plain.high), plain.source,
            plain.tag,         plain.key,       plain.meaning};
}

}  // namespace

Result<Tables> Tables::load(std::span<const TableText> files) {
    Tables tables;
    std::vector<std::pair<std::string, toml::table>> parsed;
    for (const TableText& file : files) {
        auto table = parse_toml(file);
        if (!table) return fail(table.error());
        if (const toml::table* const sources = (*table)["source"].as_table()) {
            for (const auto& [key, node] : *sources) {
                const auto text = node.value<std::string>();
                if (!text || text->empty()) {
                    return fail(
                        damaged(file.name, node.source(), std::string(key.str()), "a source must be a text"));
                }
                tables.sources_.emplace(key.str(), *text);
            }
        }
        parsed.emplace_back(file.name, std::move(*table));
    }
    for (const auto& [name, table] : parsed) {
        for (const auto& [section, node] : table) {
            if (section.str() != "source" && section.str() != "parameter") {
                return fail(damaged(name, node.source(), std::string(section.str()), "unknown section"));
            }
        }
        const toml::table* const parameters = table["parameter"].as_table();
        if (parameters == nullptr) continue;
        for (const auto& [key_node, node] : *parameters) {
            const std::string key(key_node.str());
            const toml::table* const body = node.as_table();
            if (body == nullptr)
                return fail(damaged(name, node.source(), key, "a parameter must be a table"));
            if (tables.index_.contains(key)) return fail(damaged(name, node.source(), key, "defined twice"));
            auto row = RowReader(name, key, *body).read(tables.sources_);
            if (!row) return fail(row.error());
            tables.index_.emplace(key, tables.rows_.size());
            tables.rows_.push_back(std::move(*row));
        }
    }
    return tables;
}

Result<Tables> Tables::load_embedded() { return load(embedded_texts("data/evidence/")); }

const Tables::Row& Tables::row(std::string_view key) const {
    const auto found = index_.find(key);
    if (found == index_.end()) base::expects(false, fmt::format("evidence has no parameter \"{}\"", key));
    return rows_[found->second];
}

const Tables::Row& Tables::row(std::string_view key, std::span<const std::string_view> units) const {
    const Row& found = row(key);
    if (std::find(units.begin(), units.end(), found.unit) == units.end())
        base::expects(false, fmt::format("parameter \"{}\" has unit \"{}\"", key, found.unit));
    return found;
}

Cited<units::Mass> Tables::mass(MassKey key) const {
    return typed<units::Mass>(row(key.text(), std::array<std::string_view, 1>{"g"}).cited, units::grams);
}
Cited<units::Strength> Tables::strength(StrengthKey key) const {
    return typed<units::Strength>(row(key.text(), std::array<std::string_view, 1>{"mg/L"}).cited,
                                  units::milligrams_per_litre);
}
Cited<units::Temperature> Tables::temperature(TemperatureKey key) const {
    return typed<units::Temperature>(row(key.text(), std::array<std::string_view, 1>{"C"}).cited,
                                     units::celsius);
}
Cited<units::TimeSpan> Tables::time(TimeKey key) const {
    const Row& found = row(key.text(), std::array<std::string_view, 2>{"d", "h"});
    return typed<units::TimeSpan>(found.cited, found.unit == "d" ? units::days_long : units::hours_long);
}
Cited<units::Rate> Tables::rate(RateKey key) const {
    return typed<units::Rate>(row(key.text(), std::array<std::string_view, 1>{"1/d"}).cited, units::per_day);
}
Cited<units::Share> Tables::part(ShareKey key) const {
    return typed<units::Share>(row(key.text(), std::array<std::string_view, 1>{"share"}).cited, units::share);
}
Cited<units::Dose> Tables::dose(DoseKey key) const {
    return typed<units::Dose>(row(key.text(), std::array<std::string_view, 1>{"mg/kg"}).cited,
                              units::milligrams_per_kilogram);
}
Cited<units::Count> Tables::number(NumberKey key) const {
    return typed<units::Count>(row(key.text(), std::array<std::string_view, 1>{"1"}).cited, units::count);
}
Cited<units::Count> Tables::degree_hours(DegreeHoursKey key) const {
    return typed<units::Count>(row(key.text(), std::array<std::string_view, 1>{"C h"}).cited, units::count);
}
Cited<SprayPerArea> Tables::spray(SprayKey key) const {
    return typed<SprayPerArea>(row(key.text(), std::array<std::string_view, 1>{"mL/cm2"}).cited,
                               SprayPerArea::from_base);
}

}  // namespace mitefall::evidence
