#pragma once

#include <optional>
#include <span>

#include "mixing/bench.h"
#include "mixing/tools.h"

namespace mitefall::mixing {

/// Tools and marks that are looked through; more are no bench of anybody (assumption). `check_measuring`
/// refuses them.
constexpr std::size_t most_tools = 24;
constexpr double most_marks = 10'000;

class Effort;

/// As `measure` (tools.h), for a search that is part of a larger one.
[[nodiscard]] base::Result<Measurement> measure(units::Volume wanted, std::span<const Tool> tools,
                                                const Accuracy& accuracy, Effort& effort);
/// As `dilute_first` (bench.h), the same; none as well where the effort is spent.
[[nodiscard]] std::optional<Measured> dilute_first(const Recipe& recipe, units::Strength stock,
                                                   std::span<const Tool> tools, units::Share wanted,
                                                   Effort& effort);
/// As `measure_batch` (bench.h), the same.
[[nodiscard]] base::Result<Measured> measure_batch(const Recipe& recipe, units::Strength stock,
                                                   std::span<const Tool> tools, const Accuracy& accuracy,
                                                   Effort& effort);
/// What is told where the effort is spent.
[[nodiscard]] base::Error too_many_marks();

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

/// How many sequences a search may still try. Every answer is found within some ten thousand tries; tools
/// with very many very fine marks would take for ever.
class Effort {
  public:
    static constexpr long usual = 20'000'000;  ///< tries, well under a second (measured)
    explicit Effort(long most = usual) : left_(most) {}

    /// False: none is left.
    bool spend() { return left_ > 0 && left_-- > 0; }
    [[nodiscard]] bool is_spent() const { return left_ <= 0; }

  private:
    long left_;
};

/// Looks through all sequences of measures with at most two different tools, fewest measures first.
class MeasureSearch {
  public:
    /// Keeps a view of `tools` and of `effort`.
    MeasureSearch(units::Volume wanted, std::span<const Tool> tools, units::Share deviation_limit,
                  Effort& effort, int most_steps = 40)
        : wanted_(wanted),
          tools_(tools),
          deviation_limit_(deviation_limit),
          effort_(&effort),
          most_steps_(most_steps) {}

    /// None when no sequence of up to `most_steps` measures keeps deviation and reading error together within
    /// `error_limit`, or the effort is spent.
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
    [[nodiscard]] long least_of(const Tool& first, int times, const Tool& second, int other) const;
    [[nodiscard]] bool can_be_acceptable(units::Volume reading_error, units::Share error_limit) const;
    [[nodiscard]] bool is_acceptable(const Candidate& candidate, units::Share error_limit) const;
    [[nodiscard]] bool is_better(const Candidate& a, const Candidate& b) const;
    [[nodiscard]] units::Volume deviation(const Candidate& candidate) const;
    [[nodiscard]] Measurement write_out(const Candidate& candidate) const;

    units::Volume wanted_;
    std::span<const Tool> tools_;
    units::Share deviation_limit_;
    Effort* effort_;
    int most_steps_;
};

}  // namespace mitefall::mixing
