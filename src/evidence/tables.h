#pragma once

#include <functional>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/result.h"
#include "evidence/cited.h"
#include "evidence/key.h"
#include "units/amounts.h"
#include "units/climate.h"

namespace mitefall::evidence {

/// One evidence file as text; `name` is used in errors.
struct TableText {
    std::string name;
    std::string text;
};

struct SprayPerAreaDimension;
/// Spray per surface; base unit: mL per square centimetre.
using SprayPerArea = units::Quantity<SprayPerAreaDimension>;
constexpr units::Volume operator*(SprayPerArea s, units::Area a) {
    return units::millilitres(s.base() * a.base());
}

/// Every number in use, by key, with unit, range, source and tag. Immutable once loaded.
///
/// File format (TOML 1.0): `[source]` maps a key to a citation; each `[parameter.KEY]` has `value`, `unit`,
/// `tag`, `meaning`, optionally `low` and `high`, and `source` where the tag needs one (R, R2, M, C). P and A
/// must not name a source: what nobody has published must not look as if somebody had.
class Tables {
  public:
    /// Reads and checks all files together. Errors name file, line and key.
    [[nodiscard]] static base::Result<Tables> load(std::span<const TableText> files);

    /// The tables carried inside the program.
    [[nodiscard]] static base::Result<Tables> load_embedded();

    // A key that is not in data/evidence, or holds another unit, does not compile. Each lookup throws
    // ContractViolation where these tables are others than those and lack it.
    [[nodiscard]] Cited<units::Mass> mass(MassKey key) const;                       ///< g
    [[nodiscard]] Cited<units::Strength> strength(StrengthKey key) const;           ///< mg/L
    [[nodiscard]] Cited<units::Temperature> temperature(TemperatureKey key) const;  ///< C
    [[nodiscard]] Cited<units::TimeSpan> time(TimeKey key) const;                   ///< h or d
    [[nodiscard]] Cited<units::Rate> rate(RateKey key) const;                       ///< 1/d
    [[nodiscard]] Cited<units::Share> part(ShareKey key) const;                     ///< share
    [[nodiscard]] Cited<units::Count> number(NumberKey key) const;                  ///< 1
    [[nodiscard]] Cited<units::Count> degree_hours(DegreeHoursKey key) const;       ///< C h
    [[nodiscard]] Cited<SprayPerArea> spray(SprayKey key) const;                    ///< mL/cm2
    [[nodiscard]] Cited<units::Dose> dose(DoseKey key) const;                       ///< mg/kg

    /// A row as text, for people and for the JSON listing.
    struct Row {
        /// What `cited` refers to.
        struct Texts {
            std::string source;
            std::string key;
            std::string meaning;
        };
        Cited<double> cited;
        std::string unit;
        std::string file;
        std::shared_ptr<const Texts> texts;
    };
    /// All rows, ordered by file, then as written.
    [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }
    [[nodiscard]] const std::map<std::string, std::string, std::less<>>& sources() const { return sources_; }
    [[nodiscard]] bool contains(std::string_view key) const { return index_.contains(key); }
    [[nodiscard]] const Row& row(std::string_view key) const;  ///< whatever its unit

  private:
    [[nodiscard]] const Row& row(std::string_view key, std::span<const std::string_view> units) const;

    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view key) const { return std::hash<std::string_view>{}(key); }
    };

    std::vector<Row> rows_;
    std::unordered_map<std::string, std::size_t, Hash, std::equal_to<>> index_;
    std::map<std::string, std::string, std::less<>> sources_;
};

}  // namespace mitefall::evidence
