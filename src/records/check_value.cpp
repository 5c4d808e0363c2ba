#include "records/check_value.h"

namespace mitefall::records {

Applied check_amounts(const Fact& fact) {
    return std::visit(
        []<class T>(const T& one) -> Applied {
            if constexpr (requires { T::check_amounts(one); })
                return T::check_amounts(one);
            else
                return {};
        },
        fact);
}

Applied check_value(const Fact& fact) {
    return std::visit(
        []<class T>(const T& one) -> Applied {
            if constexpr (requires { T::check(one); })
                return T::check(one);
            else
                return {};
        },
        fact);
}

}  // namespace mitefall::records
