#pragma once

#include <optional>
#include <span>

#include "mixing/tools.h"

namespace mitefall::mixing {

/// What one tool contributes to a sequence of measures.
struct ToolUse {
    const Tool* tool = nullptr;
    int times = 0;
    long graduations = 0;  ///< of all its measures together

    [[nodiscard]] units::Volume volume() const;
    [[nodiscard]] units::Volume reading_error() const;
    /// How many different amounts it measures: 38 graduations in two measures are 19 and 19, in three 13, 13
    /// and 12.
    [[nodiscard]] int different_amounts() const;
};

/// Looks through all sequences of measures with at most two different tools, fewest measures first.
class MeasureSearch {
  public:
    /// Keeps a view of `tools`.
    MeasureSearch(units::Volume wanted, std::span<const Tool> tools, units::Share deviation_limit,
                  int most_steps = 40)
        : wanted_(wanted), tools_(tools), deviation_limit_(deviation_limit), most_steps_(most_steps) {}

    /// None when no sequence of up to `most_steps` measures keeps deviation and reading error together within
    /// `error_limit`.
    [[nodiscard]] std::optional<Measurement> fewest_steps(units::Share error_limit) const;

  private:
    struct Candidate {
        ToolUse first;
        ToolUse second;  ///< times 0: only one tool
    };

    void try_tools(const Tool& first, const Tool& second, int steps, units::Share error_limit,
                   std::optional<Candidate>& best) const;
    void complete(const ToolUse& first, const Tool& second, int times, units::Share error_limit,
                  std::optional<Candidate>& best) const;
    [[nodiscard]] bool is_acceptable(const Candidate& candidate, units::Share error_limit) const;
    [[nodiscard]] bool is_better(const Candidate& a, const Candidate& b) const;
    [[nodiscard]] units::Volume deviation(const Candidate& candidate) const;
    [[nodiscard]] Measurement write_out(const Candidate& candidate) const;

    units::Volume wanted_;
    std::span<const Tool> tools_;
    units::Share deviation_limit_;
    int most_steps_;
};

}  // namespace mitefall::mixing
