#include "records/facts.h"

namespace mitefall::records {

std::string_view kind_of(const Fact& fact) {
    return std::visit([]<class T>(const T&) { return T::kind.name; }, fact);
}

}  // namespace mitefall::records
