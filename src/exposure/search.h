#pragma once

#include <optional>
#include <span>
#include <vector>

#include "exposure/contacts.h"
#include "exposure/walking.h"

namespace mitefall::exposure {

/// back: who may have brought the mites, time running backward; onward: who may have got them, time running
/// forward.
enum class Side { back, onward };

/// An enclosure in question from one moment on, and how it came into question.
struct Label {
    double chance = 1;  ///< of the whole path
    double link = 1;    ///< of its last link
    Side side = Side::back;
    std::size_t enclosure = 0;
    int clock = 0;  ///< order in the journal, negative going back: links must lie above it
    int day = 0;    ///< of that moment
    std::ptrdiff_t parent = -1;
    std::ptrdiff_t contact = -1;  ///< -1: on foot, at a sighting, or at a turn
    bool turn = false;            ///< the same enclosure as the parent, now as the origin looking onward
    std::ptrdiff_t outside = -1;  ///< of a path that begins outside: its contact
};

struct Question {
    const Places& places;
    const ContactList& list;
    const Walking& walking;
    int last_day = 0;  ///< days looked at: 0 to last_day
};

/// The best path to every enclosure. A path goes back in time from the sighting to the enclosure where the
/// mites may have come from (the sighted one itself, if need be) and from there onward in time.
struct Paths {
    std::vector<Label> labels;
    std::vector<std::ptrdiff_t> best;  ///< enclosure -> label, -1 without a path
    std::vector<std::vector<std::ptrdiff_t>>
        backward;  ///< enclosure -> labels of the side back, likeliest first

    /// From the sighting to `label`.
    [[nodiscard]] std::vector<std::ptrdiff_t> way_to(std::ptrdiff_t label) const;
};

[[nodiscard]] Paths find_paths(const Question& question, std::span<const std::size_t> sighted);

/// The same with nothing seen: the best path onward from where something may have come in. `starts`: of the
/// side onward.
[[nodiscard]] Paths follow_onward(const Question& question, std::span<const Label> starts);

}  // namespace mitefall::exposure
