#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "base/random.h"

// Crowds carried by a sample: of each place with many some, each heavier for it; of places with few all.
namespace mitefall::belief {

/// A sample is at least `least` and at most `most`, and between them leaves room for `each` in every place.
struct SampleSize {
    std::size_t least = 128;
    std::size_t each = 6;
    std::size_t most = 512;
};

/// The most that each place may keep so that together they keep `all`, if what places with fewer do not use
/// goes to the others; at least 1.
[[nodiscard]] std::size_t share_of_each(std::vector<std::size_t> counts, std::size_t all);

/// Systematic sampling: a comb with teeth `step` apart, the first at `first`, is laid along `count` items,
/// each as long as its weight; take(i) for each tooth on item i, in order.
template <typename WeightOf, typename Take>
void lay_comb(std::size_t count, double first, double step, const WeightOf& weight_of, const Take& take) {
    double next = first;
    for (std::size_t i = 0; i < count; ++i) {
        for (next -= weight_of(i); next < 0; next += step) take(i);
    }
}

namespace crowd_detail {

/// Those picked share the weight alike. `offset`: from 0 to 1.
template <typename One>
void sample(const One* begin, const One* end, std::size_t size, double offset, std::vector<One>& into) {
    double total = 0;
    for (const One* one = begin; one != end; ++one) total += one->weight;
    const double step = total / static_cast<double>(size);
    lay_comb(
        static_cast<std::size_t>(end - begin), offset * step, step,
        [&](std::size_t i) { return begin[i].weight; },
        [&](std::size_t i) {
            into.push_back(begin[i]);
            into[into.size() - 1].weight = step;
        });
}

}  // namespace crowd_detail

/// Thins `all`, which have a place and a weight, to `size`. The weight in each place is kept on average, and
/// where there are few everything is as it was. Order within a place is kept. `scratch` is for room only.
template <typename One>
void thin_crowd(std::vector<One>& all, const SampleSize& size, base::RandomStream& random,
                std::vector<One>& scratch) {
    if (all.size() <= size.least) return;
    const auto by_place = [](const One& a, const One& b) { return a.place < b.place; };
    if (!std::is_sorted(all.begin(), all.end(), by_place)) std::stable_sort(all.begin(), all.end(), by_place);
    std::vector<std::size_t> counts;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i == 0 || all[i].place != all[i - 1].place) counts.push_back(0);
        ++counts[counts.size() - 1];
    }
    const std::size_t room = std::clamp(size.each * counts.size(), size.least, size.most);
    if (all.size() <= room) return;
    const std::size_t each = share_of_each(counts, room);
    scratch.clear();
    const One* begin = all.data();
    for (const std::size_t count : counts) {
        const One* const end = begin + count;
        if (count <= each)
            scratch.insert(scratch.end(), begin, end);
        else
            crowd_detail::sample(begin, end, each, random.uniform(), scratch);
        begin = end;
    }
    all.swap(scratch);
}

/// The opposite: where a place has room for more than it holds, what stands for several is parted, as long as
/// no part stands for less than one. Order of places is kept; `all` is in their order.
template <typename One>
void part_where_few(std::vector<One>& all, std::size_t each, std::vector<One>& scratch) {
    scratch.clear();
    for (std::size_t begin = 0, end = 0; begin < all.size(); begin = end) {
        while (end < all.size() && all[end].place == all[begin].place) ++end;
        const std::size_t pieces = std::max<std::size_t>(1, each / (end - begin));
        for (std::size_t i = begin; i < end; ++i) {
            One one = all[i];
            const auto whole = static_cast<std::size_t>(std::max(1.0, std::min(one.weight, 1e9)));
            const std::size_t parts = std::min(pieces, whole);
            one.weight /= static_cast<double>(parts);
            scratch.insert(scratch.end(), parts, one);
        }
    }
    all.swap(scratch);
}

}  // namespace mitefall::belief
