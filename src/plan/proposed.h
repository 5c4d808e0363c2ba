#pragma once

#include <tbb/concurrent_unordered_set.h>

#include <vector>

#include "plan/roster.h"
#include "safety/check.h"

namespace mitefall::plan {

/// What a course proposes for one animal so far, its last application; or, with `other`, for several side by
/// side. Of equal ones a book holds one object, so that they are compared by address. nullptr: nothing.
struct Proposed {
    const Proposed* before = nullptr;
    const Proposed* other = nullptr;
    safety::Application last{};
};

/// By animal number.
using ProposedCourse = std::vector<const Proposed*>;

/// Holds every Proposed once. Safe to use from several threads.
class ProposedBook {
  public:
    [[nodiscard]] const Proposed* after(const Proposed* before, const safety::Application& next) {
        return &*known_.insert({before, nullptr, next}).first;
    }
    /// Of these animals, in this order.
    [[nodiscard]] const Proposed* of(const std::vector<AnimalNumber>& animals, const ProposedCourse& course) {
        if (animals.empty()) return nullptr;
        const Proposed* all = course[index_of(animals.front())];
        for (std::size_t i = 1; i < animals.size(); ++i)
            all = &*known_.insert({all, course[index_of(animals[i])], {}}).first;
        return all;
    }

  private:
    struct Hash {
        std::size_t operator()(const Proposed& one) const;
    };
    struct Equal {
        bool operator()(const Proposed& a, const Proposed& b) const;
    };
    tbb::concurrent_unordered_set<Proposed, Hash, Equal> known_;
};

/// As the safety check reads it.
[[nodiscard]] std::vector<safety::Application> applications_of(const Proposed* proposed);

}  // namespace mitefall::plan
