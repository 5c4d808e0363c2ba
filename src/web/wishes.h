#pragma once

#include "base/result.h"
#include "formats/bench_words.h"
#include "formats/json.h"
#include "service/keeper.h"
#include "service/mixing.h"
#include "units/text.h"
#include "web/message.h"

// What a page asks for, read from JSON or from a query. Unknown keys and wrong kinds of value are errors that
// name the key.
namespace mitefall::web {

/// Reads the members of one JSON object. The first fault stays; every key must be read before `finish`.
class Members {
  public:
    explicit Members(const formats::Json& object);

    [[nodiscard]] std::string text(std::string_view key, std::string otherwise = "");
    [[nodiscard]] double number(std::string_view key, double otherwise, double low, double high);
    [[nodiscard]] int whole(std::string_view key, int otherwise, int low, int high);
    [[nodiscard]] bool flag(std::string_view key, bool otherwise);
    [[nodiscard]] std::vector<std::string> texts(std::string_view key);
    /// Null where it is missing.
    [[nodiscard]] formats::Json any(std::string_view key);

    /// Error invalid_input: the first fault, or a key nobody asked for.
    [[nodiscard]] base::Result<void> finish() const;

  private:
    const formats::Json* find(std::string_view key);
    void fault(std::string_view key, const std::string& what, const std::string& value,
               const std::string& limit);

    const formats::Json& object_;
    std::vector<std::string> asked_;
    std::optional<base::Error> fault_;
};

/// {"horizon_days", "target", "only", "days", "prefer", "strength"}; `draws` and `seed` are the usual ones.
[[nodiscard]] base::Result<service::PlanOptions> read_plan_options(const formats::Json& options);

/// {"rounds", "every_days", "by"}
[[nodiscard]] base::Result<service::ClearanceOptions> read_clearance_options(Members& members);

/// Keys of the contract: stock, stock_is, expires, syringe, cup, bottle, package, preserved, us_spoons,
/// metric_spoons, us_tablespoons, no_syringes.
[[nodiscard]] formats::BenchWords read_bench_words(const Fields& fields);
[[nodiscard]] formats::BenchWords read_bench_words(Members& members);

/// The bench, and batch, target, made_with, added.
[[nodiscard]] service::MixQuestion read_mix_question(const Fields& fields);

/// "metric", "us" or "imperial"; metric for anything else.
[[nodiscard]] units::Display read_display(const std::string& units);

}  // namespace mitefall::web
