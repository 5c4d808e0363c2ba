#include "belief/crowd.h"

namespace mitefall::belief {

std::size_t share_of_each(std::vector<std::size_t> counts, std::size_t all) {
    std::sort(counts.begin(), counts.end());
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const std::size_t each = all / (counts.size() - i);
        if (counts[i] > each) return std::max<std::size_t>(1, each);
        all -= counts[i];
    }
    return counts.empty() ? 1 : std::max<std::size_t>(1, counts[counts.size() - 1]);
}

}  // namespace mitefall::belief
