#include "plan/proposed.h"

#include <algorithm>
#include <boost/container_hash/hash.hpp>

namespace mitefall::plan {

std::size_t ProposedBook::Hash::operator()(const Proposed& one) const {
    std::size_t hash = 0;
    boost::hash_combine(hash, one.before);
    boost::hash_combine(hash, one.other);
    boost::hash_combine(hash, static_cast<int>(one.last.method));
    boost::hash_combine(hash, one.last.day.time_since_epoch().count());
    return hash;
}

bool ProposedBook::Equal::operator()(const Proposed& a, const Proposed& b) const {
    return a.before == b.before && a.other == b.other && a.last.method == b.last.method &&
           a.last.day == b.last.day;
}

std::vector<safety::Application> applications_of(const Proposed* proposed) {
    std::vector<safety::Application> all;
    for (; proposed != nullptr; proposed = proposed->before) all.push_back(proposed->last);
    std::reverse(all.begin(), all.end());
    return all;
}

}  // namespace mitefall::plan
