#include "service/exposure.h"

namespace mitefall::service {

base::Result<exposure::Tracing> exposure_of(const Situation& situation) {
    const auto& seen = situation.tracing();
    if (seen || seen.error().kind != ErrorKind::not_found) return seen;
    auto brought =
        exposure::trace_outside(situation.journal(), situation.collection(), situation.knowledge().tables);
    return brought ? brought : seen;
}

}  // namespace mitefall::service
