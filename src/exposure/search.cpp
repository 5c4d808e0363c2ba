#include "exposure/search.h"

#include <algorithm>
#include <array>
#include <limits>
#include <queue>
#include <tuple>

namespace mitefall::exposure {
namespace {

constexpr int never = std::numeric_limits<int>::max();
constexpr std::array both_sides{Side::back, Side::onward};

std::size_t slot(Side side) { return side == Side::onward ? 1 : 0; }
int sign(Side side) { return side == Side::onward ? 1 : -1; }

struct Span {
    int first = 0;
    int last = 0;
    [[nodiscard]] bool contains(Span other) const { return first <= other.first && other.last <= last; }
};

/// Dijkstra's search for the largest product of chances; every factor is at most 1, so the best open label is
/// final. A state is an enclosure and a moment. A label is dominated by one of the same enclosure and side
/// that was settled before it (so has no smaller chance) and reaches at least as many links. Each link is
/// thus followed once.
class Search {
  public:
    explicit Search(const Question& question) : q_(question) {
        const std::size_t enclosures = q_.places.enclosures.size();
        paths_.best.assign(enclosures, -1);
        paths_.backward.resize(enclosures);
        for (const Side side : both_sides) {
            settled_[slot(side)].assign(enclosures, never);
            opened_[slot(side)].resize(enclosures);
            walked_[slot(side)].resize(q_.places.rooms.size());
            links_[slot(side)].resize(enclosures);
            moments_[slot(side)].resize(enclosures);
        }
        for (std::size_t i = 0; i < q_.list.contacts.size(); ++i) {
            const Contact& contact = q_.list.contacts[i];
            note_link(Side::onward, contact.from, i, contact);
            note_link(Side::back, contact.to, i, contact);
        }
    }

    Paths run(std::span<const std::size_t> sighted) {
        for (const std::size_t enclosure : sighted) {
            open({1, 1, Side::back, enclosure, -q_.list.end_order, q_.last_day, -1, -1, false});
        }
        return follow();
    }

    Paths run_onward(std::span<const Label> starts) {
        for (const Label& start : starts) open(start);
        return follow();
    }

  private:
    Paths follow() {
        while (!queue_.empty()) {
            const std::ptrdiff_t at = queue_.top().label;
            queue_.pop();
            settle(at);
        }
        return std::move(paths_);
    }

    struct Open {
        double chance;
        bool onward;  ///< of two equal chances the one of having got mites is told, not that of having given
                      ///< them
        std::ptrdiff_t label;
        bool operator<(const Open& other) const {
            return std::tie(chance, onward, other.label) < std::tie(other.chance, other.onward, label);
        }
    };

    /// A point in time at which at least one link leads away from an enclosure.
    struct Moment {
        int clock;
        int day;
    };

    void note_link(Side side, std::size_t enclosure, std::size_t link, const Contact& contact) {
        links_[slot(side)][enclosure].push_back(link);
        auto& moments = moments_[slot(side)][enclosure];
        const int clock = sign(side) * contact.order;
        if (moments.empty() || moments.back().clock != clock) moments.push_back({clock, contact.day});
    }

    struct Reach {
        int clock;
        double chance;
    };

    /// Drops a label at once if another, opened before, is as likely and reaches as many links.
    void open(const Label& label) {
        if (!(label.chance > 0)) return;
        auto& reaches = opened_[slot(label.side)][label.enclosure];
        for (const Reach& reach : reaches) {
            if (reach.clock <= label.clock && reach.chance >= label.chance) return;
        }
        reaches.push_back({label.clock, label.chance});
        paths_.labels.push_back(label);
        const auto index = std::ssize(paths_.labels) - 1;
        queue_.push({label.chance, label.side == Side::onward, index});
    }

    void settle(std::ptrdiff_t at) {
        const Label label = paths_.labels[static_cast<std::size_t>(at)];
        int& settled = settled_[slot(label.side)][label.enclosure];
        if (label.clock >= settled) return;
        if (paths_.best[label.enclosure] < 0) paths_.best[label.enclosure] = at;
        follow_contacts(label, at, settled);
        settled = label.clock;
        follow_walks(label, at);
        if (label.side == Side::back) {
            paths_.backward[label.enclosure].push_back(at);
            open({label.chance, 1, Side::onward, label.enclosure, 0, 0, at, -1, true});
        }
    }

    /// Links above `followed` were followed from an earlier label.
    void follow_contacts(const Label& label, std::ptrdiff_t at, int followed) {
        for (const std::size_t link : links_[slot(label.side)][label.enclosure]) {
            const Contact& contact = q_.list.contacts[link];
            const int clock = sign(label.side) * contact.order;
            if (clock <= label.clock || clock > followed) continue;
            const std::size_t other = label.side == Side::onward ? contact.to : contact.from;
            open({label.chance * contact.chance, contact.chance, label.side, other, clock, contact.day, at,
                  static_cast<std::ptrdiff_t>(link), false});
        }
    }

    /// Within a room all enclosures are alike to a mite on foot, so a label is not followed if a likelier one
    /// of its room could walk on all the same days.
    void follow_walks(const Label& label, std::ptrdiff_t at) {
        const std::size_t room = q_.places.room_of[label.enclosure];
        const Span span = walking_days(label);
        auto& followed = walked_[slot(label.side)][room];
        if (std::any_of(followed.begin(), followed.end(), [&](Span other) { return other.contains(span); }))
            return;
        followed.push_back(span);
        for (const std::size_t other : q_.walking.rooms_reached(room)) {
            const bool onward = label.side == Side::onward;
            const double rate =
                onward ? q_.walking.mites_per_day(room, other) : q_.walking.mites_per_day(other, room);
            for (const std::size_t enclosure : q_.places.enclosures_in[other]) {
                if (enclosure != label.enclosure) walk(label, at, span, enclosure, rate);
            }
        }
    }

    [[nodiscard]] Span walking_days(const Label& label) const {
        const int begin = q_.places.begin[label.enclosure];
        if (label.side == Side::onward) return {std::max(label.day, begin), q_.last_day};
        return {begin, label.day};
    }

    /// Opens a label for each moment at which being there matters: before each link, and at the last day
    /// looked at.
    void walk(const Label& label, std::ptrdiff_t at, Span span, std::size_t enclosure, double rate) {
        const bool onward = label.side == Side::onward;
        const int begin = q_.places.begin[enclosure];
        const auto arrive = [&](int clock, int day) {
            const int days =
                onward ? day - std::max(span.first, begin) : span.last - std::max({day, span.first, begin});
            const double chance = chance_of_any(rate * std::max(0, days));
            open({label.chance * chance, chance, label.side, enclosure, clock, day, at, -1, false});
        };
        for (const Moment moment : moments_[slot(label.side)][enclosure]) {
            if (moment.clock > label.clock) arrive(moment.clock - 1, moment.day);
        }
        if (onward) {
            arrive(q_.list.end_order, q_.last_day);
        } else {
            arrive(0, 0);
        }
    }

    const Question& q_;
    Paths paths_;
    std::priority_queue<Open> queue_;
    std::array<std::vector<std::vector<Reach>>, 2> opened_;  ///< side, enclosure -> labels opened
    std::array<std::vector<int>, 2> settled_;                ///< side, enclosure -> lowest clock settled
    std::array<std::vector<std::vector<Span>>, 2>
        walked_;  ///< side, room -> days on which walks were followed
    std::array<std::vector<std::vector<std::size_t>>, 2>
        links_;                                                ///< side, enclosure -> contacts that lead away
    std::array<std::vector<std::vector<Moment>>, 2> moments_;  ///< side, enclosure -> when they do
};

}  // namespace

std::vector<std::ptrdiff_t> Paths::way_to(std::ptrdiff_t label) const {
    std::vector<std::ptrdiff_t> way;
    for (std::ptrdiff_t at = label; at >= 0; at = labels[static_cast<std::size_t>(at)].parent)
        way.push_back(at);
    std::reverse(way.begin(), way.end());
    return way;
}

Paths find_paths(const Question& question, std::span<const std::size_t> sighted) {
    return Search(question).run(sighted);
}

Paths follow_onward(const Question& question, std::span<const Label> starts) {
    return Search(question).run_onward(starts);
}

}  // namespace mitefall::exposure
