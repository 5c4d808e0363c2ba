#pragma once

#include <stdexcept>
#include <string_view>

namespace mitefall::base {

/// A broken promise between two functions of ours: a defect in the program, never a keeper's mistake.
class ContractViolation : public std::logic_error {
  public:
    using std::logic_error::logic_error;
};

/// Throws ContractViolation unless `condition` holds. Write conditions so that NaN fails: `!(x < 0)` is
/// wrong.
inline void expects(bool condition, std::string_view promise) {
    if (!condition) throw ContractViolation("contract broken: " + std::string(promise));
}

}  // namespace mitefall::base
