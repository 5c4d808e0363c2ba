#pragma once

#include "questions/option.h"
#include "service/mixing.h"

namespace mitefall::questions {

/// The stock and the measuring tools: part of every question about a spray.
template <class O>
[[nodiscard]] std::vector<Option<O>> bench_of() {
    return {
        text<O>({"from", "--from"}, &O::from,
                "Bottle of stock on record (\"record stock\") that it is mixed from; in place of --stock"),
        text<O>(
            {"stock", "--stock"}, &O::stock,
            "Strength on the label of the ivermectin, like \"10 mg/mL\" or \"1 % w/v\" (default: 10 mg/mL, "
            "where no bottle is on record)"),
        text<O>({"stock_is", "--stock-is"}, &O::stock_is,
                "What is in the bottle: plain (ivermectin alone, a clear solution), pour-on, paste or "
                "combination (with another drug)"),
        text<O>({"expires", "--expires"}, &O::expires, "Last day of use of the stock"),
        texts<O>({"cup", "--cup"}, &O::cups, "A measuring cup: largest amount/marks, like \"30 mL/1 mL\""),
        texts<O>({"syringe", "--syringe"}, &O::syringes,
                 "A syringe in place of the usual ones: largest amount/marks, like \"10 mL/0.2 mL\""),
        texts<O>(
            {"spoon", "--spoon"}, &O::spoons,
            "A spoon of a measuring set, filled level: 1 or 1/2 US tbsp, 1, 1/2 or 1/4 US tsp, 5, 2.5 or "
            "1.25 mL, like \"1/2 US tsp\""),
        flag<O>({"us_tablespoons", "--us-tablespoons"}, &O::us_tablespoons, "US tablespoons are at hand"),
        flag<O>({"preserved", "--preserved"}, &O::preserved, "The mix has a preservative"),
        text<O>({"bottle", "--bottle"}, &O::bottle,
                "Most one batch may hold, like \"1 L\" or \"32 US fl oz\""),
        flag<O>({"us_spoons", "--us-spoons"}, &O::us_spoons, "US teaspoons are at hand"),
        flag<O>({"metric_spoons", "--metric-spoons"}, &O::metric_spoons, "5 mL teaspoons are at hand"),
        flag<O>({"no_syringes", "--no-syringes"}, &O::no_syringes,
                "No syringes (usual: 1, 3, 5, 10 and 20 mL)"),
        texts<O>({"package", "--package"}, &O::packages,
                 "A size the stock is sold in, with its price in your currency: \"50 mL=18.90 EUR\""),
    };
}

[[nodiscard]] inline Question<formats::BenchWords> shopping() {
    return {"shopping", "What is left to mix and buy for the adopted plan, and who takes how much",
            bench_of<formats::BenchWords>()};
}

/// A spray to be made or judged, and with what.
struct MixOptions : formats::BenchWords {
    std::string batch, target, made_with;
    bool added = false;
    bool stop_read = false;

    [[nodiscard]] service::MixQuestion question() const {
        return {*this, batch, target, made_with, stop_read, added};
    }
};

[[nodiscard]] inline Question<MixOptions> mix() {
    using O = MixOptions;
    return {
        "mix", "How to make a spray, or how strong a recipe is",
        together<O>(
            {text<O>({"batch", "BATCH"}, &O::batch, "Volume to make, like \"1 L\" or \"32 US fl oz\"")
                 .required(),
             text<O>({"target", "--target"}, &O::target, "Strength wanted, like \"10 mg/L\""),
             text<O>({"made_with", "--made-with"}, &O::made_with,
                     "Stock that went into the batch: how strong is it?"),
             flag<O>({"added", "--added"}, &O::added,
                     "With --made-with: added to BATCH of water, not filled up to it"),
             flag<O>({"stop_read", "--stop-read"}, &O::stop_read,
                     "I have read what a strength above everything published means: show how it is made")},
            bench_of<O>())};
}

/// A bottle that is mixed now, to be put on record.
struct BatchOptions : formats::BenchWords {
    std::string batch, volume, target;
    std::string units;  ///< its steps are written in; typed: those of the command line

    [[nodiscard]] service::MixQuestion question() const { return {*this, volume, target, {}, true, false}; }
};

[[nodiscard]] inline Question<BatchOptions> batch_make() {
    using O = BatchOptions;
    return {"batch make", "Put a bottle you mix now on record",
            together<O>(
                {text<O>({"batch", "BATCH"}, &O::batch, "Short name, like b-1").required(),
                 text<O>({"batch_volume", "VOLUME"}, &O::volume, "Volume to make, like \"1 L\"").required(),
                 text<O>({"target", "--target"}, &O::target, "Strength wanted, like \"10 mg/L\"").required(),
                 text<O>({"units", ""}, &O::units, "Units of its steps: metric, us or imperial")},
                bench_of<O>())};
}

}  // namespace mitefall::questions
