#pragma once

#include <optional>
#include <string>

#include "formats/bench_words.h"
#include "mixing/bench.h"
#include "mixing/compare.h"
#include "mixing/round_batch.h"
#include "units/text.h"

// The mixing bench in words: amounts as the marks of the tool in hand show them, never closer.
namespace mitefall::formats {

/// "2 x 19 mL with the 30 mL cup", "8 level US teaspoons".
[[nodiscard]] std::string measure_phrase(const mixing::Measure& measure);

/// All measures of one amount, "then" between them.
[[nodiscard]] std::string measurement_phrase(const mixing::Measurement& measurement);

/// "iver-2, 18.7 mg/mL"; of a bottle that is not on record its strength alone.
[[nodiscard]] std::string show_bottle(const records::StockId& from, units::Strength stock);
[[nodiscard]] inline std::string show_bottle(const worklist::Bench& bench) {
    return show_bottle(bench.from, bench.stock.strength);
}

/// What to do, one line for each step; `stock` is the bottle it is measured from as `show_bottle` tells it,
/// `total` the volume of the batch.
[[nodiscard]] std::string steps_text(const mixing::Measured& measured, const std::string& stock,
                                     units::Volume total, units::Display display);

/// A round amount in place of an awkward one: in how many measures, and what is left over until when. What it
/// takes of the stock is not told beside the steps of another amount.
[[nodiscard]] std::string round_text(const mixing::RoundBatch& round, units::Day good_until,
                                     units::Display display);

/// A volume with no more figures than an error of `error` leaves: "39 mL" for 39.43 mL known to 4 mL.
[[nodiscard]] std::string show_within(units::Volume volume, units::Volume error);

/// An amount of stock with the figures its measuring leaves; as computed where it was not measured or is too
/// strong to be measured as it is.
[[nodiscard]] std::string show_stock(units::Volume stock, const std::optional<mixing::Measured>& measured);

/// A recipe as computed, to twelve figures, in mL and mg/L, whatever units are shown elsewhere.
[[nodiscard]] std::string unrounded_text(const mixing::Recipe& recipe);

/// "20 times the strongest published spray (10 mg/L)".
[[nodiscard]] std::string comparison_sentence(units::Strength strength, const mixing::Comparison& comparison);

/// The strength on a scale from 1 to 1,000 mg/L beside the published range, three lines.
[[nodiscard]] std::string strength_picture(const mixing::MeasuredStrength& strength,
                                           const mixing::Comparison& comparison);

}  // namespace mitefall::formats
