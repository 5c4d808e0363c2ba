#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "branching/lanes.h"

// A multi-type branching process in a changing environment, as plain data. It knows nothing of mites.
// Harris 1963, The Theory of Branching Processes, chapters II and V.
//
// Types stand in runs: a run is a chain of equal substages (an Erlang stage). A particle in a run
//   - moves on to the next substage at rate `advance`; from the last one it goes to one of `ends`, by its
//   share,
//     and dies with the share that is left;
//   - dies at rate `loss`, plus any hazard window in force;
//   - leaves at the rate of each of `exits`, for the first substage of another run or for its own substage
//   there;
//   - produces a particle of each `births` target at that rate, and stays.
namespace mitefall::branching {

using TypeIndex = std::uint32_t;
using ValueIndex = std::uint32_t;
inline constexpr TypeIndex no_type = std::numeric_limits<TypeIndex>::max();

/// A transition out of every substage of a run.
struct Exit {
    TypeIndex target = 0;
    bool same_substage = false;  ///< target + m from substage m, else always target
    ValueIndex rate = 0;         ///< per day
};

/// Where the last substage leads.
struct End {
    TypeIndex target = 0;
    ValueIndex share = 0;
};

struct Birth {
    TypeIndex target = 0;
    ValueIndex rate = 0;  ///< per day
};

/// Consecutive elements of one of the network's lists.
struct Slice {
    std::uint32_t first = 0;
    std::uint32_t count = 0;
};

struct Run {
    TypeIndex first = 0;
    std::uint32_t count = 0;  ///< substages
    ValueIndex advance = 0;   ///< per day
    ValueIndex loss = 0;      ///< per day
    Slice exits;
    Slice ends;
    Slice births;
};

/// Rates and shares in force from `begin` until the next segment begins.
struct Segment {
    double begin = 0;               ///< days
    std::uint32_t value_table = 0;  ///< index into Network::values
};

/// Extra death that holds steady until `decays_from`, then halves every `half_life`.
struct HazardWindow {
    double begin = 0;  ///< days
    double end = 0;
    Lanes decays_from;
    Lanes level;      ///< per day
    Lanes half_life;  ///< days
    std::vector<std::uint32_t> runs;
};

/// At an instant, each type of a range becomes a mixture. In the survival probability v of the backward
/// sweep: v <- keep * v + move * v(target) + seen, where the right-hand side is just after the instant.
struct Jump {
    double time = 0;  ///< days
    TypeIndex first = 0;
    std::uint32_t count = 0;
    TypeIndex target = no_type;  ///< first type of the range some particles go to
    Lanes keep;
    Lanes move;
    Lanes seen;  ///< chance that a particle makes a check fail to be clean; zero for all other jumps
};

/// Particles that appear from outside, as a Poisson stream.
struct Source {
    double begin = 0;  ///< days
    double end = 0;
    TypeIndex target = 0;
    Lanes rate;  ///< per day
};

struct Network {
    std::uint32_t type_count = 0;
    std::vector<Run> runs;
    std::vector<Exit> exits;
    std::vector<End> ends;
    std::vector<Birth> births;
    std::vector<std::vector<Lanes>> values;  ///< tables of rates and shares, all of the same size
    std::vector<Segment> segments;           ///< ordered, the first at or before the start
    std::vector<HazardWindow> hazards;
    std::vector<Jump> jumps;  ///< in order of time; at one instant in order of happening
    std::vector<Source> sources;
};

}  // namespace mitefall::branching
