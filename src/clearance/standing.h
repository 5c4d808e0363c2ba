#pragma once

#include <functional>
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "clearance/sureness.h"
#include "evidence/tables.h"

namespace mitefall::clearance {

/// What is known, and what is going to be done whatever the answer. Must outlive every question asked of it.
struct Standing {
    const scenario::Scenario* scenario = nullptr;  ///< everything since `from`, checks included
    const mites::Ensemble* ensemble = nullptr;
    forecast::Start start;   ///< of the mites at the last sighting; belongs to these draws
    double from = 0;         ///< days; the last sighting
    double today = 0;        ///< days; at or after `from`
    std::size_t blocks = 0;  ///< blocks of draws used, from the first; 0: all
};

/// Tells how far a long answer has come; returning false cancels it.
using Progress = std::function<bool(double)>;

/// ln P(every check clean), per draw, as far as it is known: quickly worked out, and finely.
struct KnownClean {
    std::vector<double> quick, fine;
};

/// Questions to one standing, with a count of the work done.
class Enquiry {
  public:
    /// `expected`: how many chances will be worked out, for the progress.
    Enquiry(const Standing& standing, Progress progress, std::size_t expected);

    /// ln P(every check of `scenario` up to `to` is clean), per draw. Empty if cancelled.
    [[nodiscard]] std::vector<double> log_clean(const scenario::Scenario& scenario, double to);

    /// The same and ln P(clear at `to` | clean), with mites counted in `counted` alone, or anywhere if empty.
    /// `known`: log_clean where it is known already, by the same tolerance.
    [[nodiscard]] std::optional<Draws> draws_at(const scenario::Scenario& scenario, double to,
                                                const std::vector<scenario::PlaceIndex>& counted = {},
                                                const std::vector<double>& known = {});

    /// The same, to tell how sure we are: quickly where that shows the risk to a thousandth of itself, else
    /// as exactly as draws_at (docs/decisions/0078). `known`: of this scenario up to `to`; what is worked out
    /// of it is kept there.
    [[nodiscard]] std::optional<Draws> draws_to_tell(const scenario::Scenario& scenario, double to,
                                                     const std::vector<scenario::PlaceIndex>& counted = {},
                                                     KnownClean* known = nullptr);

    /// From the first only, for a first look; 0: all the standing asks for.
    void use_blocks(std::size_t blocks) { blocks_ = blocks; }
    [[nodiscard]] bool is_cancelled() const { return cancelled_; }

  private:
    [[nodiscard]] std::vector<double> ask(forecast::ForecastRequest request, branching::Question question);
    [[nodiscard]] forecast::ForecastRequest request_for(const scenario::Scenario& scenario, double to) const;
    [[nodiscard]] std::optional<Draws> draws_by(branching::Tolerance tolerance,
                                                const scenario::Scenario& scenario, double to,
                                                const std::vector<scenario::PlaceIndex>& counted,
                                                std::vector<double>& log_clean);

    const Standing& standing_;
    Progress progress_;
    std::size_t expected_;
    std::size_t done_ = 0;
    std::size_t blocks_;
    branching::Tolerance tolerance_;
    bool is_counted_ = true;    ///< what is asked is part of `expected_`
    std::size_t too_fine_ = 0;  ///< quick answers in a row that would not do
    bool cancelled_ = false;
};

/// The scenario with `added` in its place in time, after what happens at the same instant.
[[nodiscard]] scenario::Scenario with_events(const scenario::Scenario& scenario,
                                             std::vector<scenario::Event> added);

/// Whether a check stands in the scenario from `from` to `to`.
[[nodiscard]] bool has_checks(const scenario::Scenario& scenario, double from, double to);

enum class DetectionEnd { low, high };

/// The same draws with every chance to see a mite at one end of its range.
[[nodiscard]] mites::Ensemble with_detection_at(mites::Ensemble ensemble, const evidence::Tables& tables,
                                                DetectionEnd end);

}  // namespace mitefall::clearance
