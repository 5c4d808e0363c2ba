#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "clearance/answers.h"

// How sure we are, in words: what the answers about clearance share.
namespace mitefall::formats {

inline constexpr const char* of_detection =
    "How well a look shows mites is our assumption, nobody has published it (docs/model.md, 7).\n";

[[nodiscard]] std::string_view name_of(records::CheckMethod method);

/// A chance with as many digits as it needs: from the risk, where it is all but certain.
[[nodiscard]] std::string show_sure(const clearance::Sureness& sure);
[[nodiscard]] std::string show_left(double risk);
[[nodiscard]] std::string show_range(const clearance::Sureness& sure);

/// All of them where they are few; of many the first and how many are like it.
[[nodiscard]] std::string names_of(const std::vector<records::EnclosureId>& ids);

/// The day; "not within these rounds" where there is none.
[[nodiscard]] std::string show_time(units::Day origin, const std::optional<double>& time);

/// The day on which a level is reached, over the range of detection, then at its ends.
[[nodiscard]] std::string days_text(const std::vector<clearance::Reached>& usual,
                                    const std::vector<clearance::Reached>& low,
                                    const std::vector<clearance::Reached>& high, units::Day origin);

}  // namespace mitefall::formats
