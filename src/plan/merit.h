#pragma once

#include <cstddef>
#include <vector>

#include "base/band.h"
#include "plan/goal.h"

// What courses are ranked and recommended by.
namespace mitefall::plan {

/// Of the chance; less does not make a course of its own.
inline constexpr double gain_worth_telling = 0.002;

/// A course as screening saw it.
struct Candidate {
    Course course;
    Burden burden;
    base::Band clear;
    bool expanded = false;  ///< its neighbours were tried
};

/// Lighter in what the keeper prefers, then in burden.
[[nodiscard]] bool is_lighter(const Burden& a, const Burden& b, Prefer prefer);

/// What courses are ranked by: the low end of the chance, and where that is as good as nothing the mean. A
/// course with a low end comes before all without.
struct Worth {
    bool has_low_end = false;
    double chance = 0;

    explicit Worth(const base::Band& clear)
        : has_low_end(clear.p10 >= gain_worth_telling), chance(has_low_end ? clear.p10 : clear.mean) {}

    [[nodiscard]] bool is_more_than(const Worth& other, double by = 0) const {
        return has_low_end != other.has_low_end ? has_low_end : chance > other.chance + by;
    }
};

/// What courses are recommended by.
struct Merit {
    const Burden& burden;
    const base::Band& clear;
    std::size_t rounds = 0;
};

[[nodiscard]] Merit merit_of(const Candidate& candidate);

/// Whether `a` is to be recommended before `b`.
[[nodiscard]] bool is_better(const Merit& a, const Merit& b, const Goal& goal);

/// Indices of those no other beats in both chance and lightness, lightest first.
[[nodiscard]] std::vector<std::size_t> frontier(const std::vector<Candidate>& candidates, Prefer prefer);

/// Positions below `count`, `chosen` first, then its neighbours and theirs.
[[nodiscard]] std::vector<std::size_t> nearest_first(std::size_t chosen, std::size_t count);

}  // namespace mitefall::plan
