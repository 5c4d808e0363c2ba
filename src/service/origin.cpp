#include "service/origin.h"

namespace mitefall::service {

base::Result<Origin> origin_of(const Situation& situation, const Draws& draws,
                               const Situation::Progress& progress) {
    if (situation.collection().enclosures.empty()) {
        return base::fail({base::ErrorKind::not_found,
                           "no enclosure is on record yet",
                           {},
                           {},
                           "begin with a room and an enclosure",
                           {}});
    }
    const auto believed = situation.believed(draws, progress);
    if (!believed) return base::fail(believed.error());
    return Origin{situation.shared_from_this(), *believed};
}

}  // namespace mitefall::service
