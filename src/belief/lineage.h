#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <span>
#include <tuple>
#include <vector>

#include "base/random.h"
#include "belief/crowd.h"
#include "belief/looks.h"
#include "mites/parameters.h"
#include "mites/rates.h"
#include "scenario/scenario.h"

// Histories of mites from their coming in to a moment, one random history at a time, as fast as may be. The
// same model as simulator.h: a stage is lived through in one step, its substages are drawn only when a mite
// is stopped within it, and crowds are carried by a sample of them.
namespace mitefall::belief {

/// Events happen at whole days, and so do looks: at this part of a day nothing does.
inline constexpr double between_events = 0.37;

/// Whether a happening does anything to mites that are there. A check does not, and what comes in is the
/// matter of introductions.
[[nodiscard]] inline bool acts_on_mites(const scenario::Happening& what) {
    return !std::holds_alternative<scenario::CleanCheck>(what) &&
           !std::holds_alternative<scenario::Import>(what);
}

/// What happens to the mites of a place at one instant, or a look at them.
struct Incident {
    std::size_t order = 0;                      ///< place among all incidents
    const scenario::Happening* what = nullptr;  ///< null: a look
    int animals_before = 0;
    std::uint32_t look = 0;
};

/// A time in which nothing about a place changes. Its incidents are those of its first instant.
struct Spell {
    double begin = 0;
    std::uint32_t climate = 0;  ///< index into Terrain::climates
    int animals = 0;
    const scenario::Medicated* drugs = nullptr;
    std::vector<scenario::Residue> on_paper;
    std::vector<Incident> incidents;
};

/// The scenario up to `at`, place by place; read only, shared by all histories.
class Terrain {
  public:
    /// Looks in order of time. Events at `at` and later are not part of it, looks at `at` are. Imports are
    /// not followed: what comes in is the matter of introductions.
    Terrain(const scenario::Scenario& scenario, std::span<const scenario::Look> looks, double at);

    [[nodiscard]] double at() const { return at_; }
    [[nodiscard]] const scenario::Scenario& scenario() const { return *scenario_; }
    [[nodiscard]] std::span<const scenario::Look> looks() const { return looks_; }
    [[nodiscard]] const std::vector<records::Climate>& climates() const { return climates_; }
    [[nodiscard]] const std::vector<Spell>& spells(scenario::PlaceIndex place) const {
        return spells_[place];
    }
    [[nodiscard]] const std::vector<scenario::PlaceIndex>& enclosures_of(scenario::PlaceIndex room) const {
        return enclosures_[room];
    }
    /// Looks that found mites, in order.
    [[nodiscard]] const std::vector<std::uint32_t>& finds() const { return finds_; }
    [[nodiscard]] const std::vector<std::uint32_t>& last_looks(scenario::PlaceIndex place) const {
        return last_looks_[place];
    }
    /// The spell in force at `time`, its incidents included.
    [[nodiscard]] std::size_t spell_at(scenario::PlaceIndex place, double time) const;
    /// Order of the incident that event `index` of the scenario is.
    [[nodiscard]] static std::size_t order_of_event(std::size_t index) { return 2 * index + 1; }
    [[nodiscard]] static std::size_t order_of_look(const scenario::Look& look) { return 2 * look.next_event; }

  private:
    std::uint32_t climate_index(const records::Climate& climate);
    void write_events();
    void write_looks();
    Spell& spell_beginning(scenario::PlaceIndex place, double time);

    const scenario::Scenario* scenario_;
    std::span<const scenario::Look> looks_;
    double at_;
    std::vector<records::Climate> climates_;
    std::map<std::tuple<double, double, double>, std::uint32_t> climate_indices_;
    std::vector<std::vector<Spell>> spells_;                     ///< per place
    std::vector<std::vector<scenario::PlaceIndex>> enclosures_;  ///< per room
    std::vector<std::uint32_t> finds_;
    std::vector<std::vector<std::uint32_t>> last_looks_;  ///< per place, those at `at`
};

/// Everything one draw says about the terrain.
struct Pace {
    Pace(const Terrain& terrain, const mites::FixedParameters& fixed, const mites::MiteParameters& draw);

    const mites::FixedParameters* fixed;
    const mites::MiteParameters* draw;
    std::vector<std::array<mites::StageRates, mites::stage_total>> rates;  ///< per climate
    std::vector<double> laying;  ///< per climate, female eggs per day
    [[nodiscard]] const Eyes& eyes_of(const scenario::Look& look) const {
        return eyes[static_cast<std::size_t>(look.method)];
    }
    std::array<Eyes, 4> eyes;  ///< per records::CheckMethod
};

/// A mite that comes in.
struct Founder {
    scenario::PlaceIndex place = 0;
    mites::Stage stage = mites::Stage::adult_feeding_1;
    int substage = 0;
    double time = 0;
    std::size_t after = 0;           ///< incidents of this instant with an order below it are over
    std::uint32_t introduction = 0;  ///< position among the introductions of the history
};

/// A mite in the middle of its life, or some that are alike.
struct Living {
    std::uint32_t place = 0;
    std::uint32_t introduction = 0;  ///< position among the introductions of the history
    mites::Stage stage = mites::Stage::egg;
    std::int32_t left = 1;  ///< substages still to live through, the present one included
    double weight = 1;      ///< mites it stands for
};

/// A history under way: who lives at `time`, just before the incidents of that instant.
struct Course {
    double time = std::numeric_limits<double>::lowest();
    std::vector<Founder> to_come;
    std::vector<Living> mites;
    std::vector<std::uint32_t> newcomers;  ///< finds explained by mites that had only just come in
    std::vector<double> cause;  ///< per introduction, then per newcomers: mites seen on average by the looks
                                ///< at Terrain::at that found some
};

/// A look that found mites, in one history.
struct Find {
    std::uint32_t look = 0;
    double likelihood = 0;  ///< of the record, newcomers or not
    double doubt = 0;       ///< see doubt_of
};

/// What the looks of a stretch of time could have shown.
struct Sights {
    std::vector<std::pair<std::uint32_t, Visible>> visible;  ///< looks with mites in sight, each once
    std::vector<Find> finds;                                 ///< in their order
};

/// What one history leaves: what the looks could have shown, and who is alive.
struct Outcome {
    Sights sights;
    std::vector<std::uint32_t> newcomers;    ///< as Course
    std::vector<double> cause;               ///< as Course
    std::vector<scenario::MiteCount> mites;  ///< alive at `at`
    bool alive = false;                      ///< anybody, at `at`
};

struct LineageOptions {
    SampleSize eggs{};                ///< of one generation within one stretch of time
    SampleSize mites{512, 24, 2048};  ///< alive at the end of a stretch
    RecordErrors errors{};            ///< of the finds
};

/// Nothing is carried by a sample.
inline constexpr SampleSize everybody{std::numeric_limits<std::size_t>::max(), 0,
                                      std::numeric_limits<std::size_t>::max()};

/// Follows the descendants of founders through time, stretch by stretch, generation by generation. Crowds are
/// carried by a sample (crowd.h): expected numbers are kept exactly, and where there are few each goes its
/// own way. What one of a crowd stands for also goes its own ways where it leaves a place.
///
/// At each look that found mites some must have been there. With the chance `errors.unexplained`, over that
/// of what was seen, they are newcomers: as many as make the number seen usual, there from that moment on.
class Lineage {
  public:
    Lineage(const Terrain& terrain, LineageOptions options) : terrain_(terrain), options_(options) {
        visible_.resize(terrain.looks().size());
    }

    /// From `course.time` to `until`, at most `terrain.at()`, with the looks between them; those at
    /// `until` only if it is the end of all.
    [[nodiscard]] Sights advance(const Pace& pace, Course& course, double until, base::RandomStream random);

    /// All the way.
    [[nodiscard]] Outcome run(const Pace& pace, std::span<const Founder> founders, std::size_t introductions,
                              base::RandomStream random);

  private:
    /// `left`: substages still to live through, the present one included.
    struct Mite {
        scenario::PlaceIndex place = 0;
        std::size_t spell = 0;
        mites::Stage stage = mites::Stage::egg;
        int left = 1;
        double time = 0;
        std::uint32_t introduction = 0;
        double weight = 1;
    };
    struct Egg {
        scenario::PlaceIndex place = 0;
        double time = 0;
        std::uint32_t introduction = 0;
        double weight = 1;
    };
    enum class Fate { dead, going_on, at_limit };

    [[nodiscard]] Mite woken(const Living& living, double time) const;
    void let_in(const Founder& founder);
    void follow(const Mite& mite);
    void follow_one(Mite mite);
    void follow_apart();
    void stay(const Mite& mite);
    void part(Mite& mite);
    void send_apart(Mite mite, double number);
    void carry(Mite& mite, double chance, scenario::PlaceIndex to, std::size_t order);
    [[nodiscard]] double successes(double trials, double chance);
    [[nodiscard]] bool is_spared(Mite& mite, double chance_to_die);
    void follow_eggs();
    [[nodiscard]] Sights take_sights();
    void explain(std::uint32_t find);
    void add_newcomers(std::uint32_t find);
    void thin_mites();
    Fate live_until(Mite& mite, double limit);
    Fate grow(Mite& mite);
    Fate pick_fate(Mite& mite, double pick, double loss, double finding, double hazard);
    void lay(const Mite& mite, double until);
    void walk(Mite& mite);
    bool enter(Mite& mite, std::size_t after);
    bool suffer(Mite& mite, const Incident& incident);
    bool endure(Mite& mite, const Incident& incident);
    void be_looked_at(const Mite& mite, std::uint32_t look);
    int substages_before_other(const Mite& mite, double advance, double others);
    void change_stage(Mite& mite, mites::Stage stage);
    [[nodiscard]] const mites::StageRates& rates(const Mite& mite) const;
    [[nodiscard]] double hazard_at(const Mite& mite) const;
    [[nodiscard]] double walking_rate(const Mite& mite) const;
    [[nodiscard]] bool happens(double chance) { return random_.uniform() < chance; }

    const Terrain& terrain_;
    LineageOptions options_;
    const Pace* pace_ = nullptr;
    base::RandomStream random_{0, 0, 0};
    double until_ = 0;
    Course* course_ = nullptr;
    std::size_t parted_ = 0;   ///< in this stretch
    std::vector<Mite> apart_;  ///< what left others of its crowd, to be followed after them
    std::vector<Egg> eggs_;
    std::vector<Egg> hatching_;
    std::vector<Egg> thinned_eggs_;
    std::vector<Living> thinned_mites_;
    std::vector<Visible> visible_;  ///< per look, zero but for those of this stretch
    Sights sights_;
};

/// One row for those in the same place, stage and substage, at the end of the terrain.
[[nodiscard]] std::vector<scenario::MiteCount> counted(const Terrain& terrain, const Pace& pace,
                                                       const std::vector<Living>& living);

}  // namespace mitefall::belief
