#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "statement/statement.h"

// Words and turns that many sentences use.
namespace mitefall::words::en {

inline constexpr std::string_view nameless = "one without a name";

[[nodiscard]] std::string and_more(const std::string& names, std::size_t more);  ///< "Anna and 4 more"
inline constexpr std::string_view either = " or ";  ///< between the last of several that may be meant

[[nodiscard]] std::string counted(double number, std::string_view thing);  ///< "1 round", "3 rounds"
[[nodiscard]] std::string days(const std::string& number);                 ///< "14 days"
/// "it weighs 95 g. What to do: weigh it"
[[nodiscard]] std::string with_remedy(const std::string& what, const std::string& remedy);
[[nodiscard]] std::string term(const statement::Term& term);

}  // namespace mitefall::words::en
