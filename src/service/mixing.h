#pragma once

#include <string>

#include "formats/bench_words.h"
#include "service/keeper.h"
#include "worklist/mix_sheet.h"

namespace mitefall::service {

/// A spray to be made, or one that was made already, as a keeper writes it down.
struct MixQuestion {
    formats::BenchWords bench;
    std::string batch;       ///< volume, like "1 L"
    std::string target;      ///< strength wanted; empty if `made_with` is given
    std::string made_with;   ///< stock that went into the batch: how strong is it?
    bool stop_read = false;  ///< what a strength above everything published means has been read
    bool added = false;      ///< with `made_with`: added to `batch` of water, not filled up to it
};

/// The bench as it is told. `today`: the collection with its bottles of stock; nullptr: there is none. A
/// bottle that is named gives strength and last day, and is a plain solution. Where there are bottles on
/// record and neither one of them nor a strength is told, that is asked: which bottle is never guessed.
/// Errors name the option of the command line.
[[nodiscard]] base::Result<worklist::Bench> bench_of(const formats::BenchWords& words,
                                                     const records::Collection* today,
                                                     const evidence::Tables& tables);
/// The same for a list that is only looked at: with bottles on record and none chosen the usual stock.
[[nodiscard]] base::Result<worklist::Bench> bench_to_show(const formats::BenchWords& words,
                                                          const records::Collection* today,
                                                          const evidence::Tables& tables);

struct MixAnswer {
    worklist::Bench bench;
    worklist::MixSheet sheet;  ///< without animals
    units::Volume batch;
    units::Volume made_with;  ///< zero for a spray to be made
};

/// Refused: stronger than anything that is permitted to anybody.
[[nodiscard]] base::Error beyond_practice(units::Strength strength, const evidence::Tables& tables);

/// A recipe is given only for a stock that is said to be a plain solution; a recipe already followed is
/// judged without that. Errors name the option of the command line.
[[nodiscard]] base::Result<MixAnswer> answer_mix(const MixQuestion& question,
                                                 const records::Collection* today, const Knowledge& knowledge,
                                                 const Now& now);

/// What a misting leaves on each animal of the collection, judged by the strongest the mix may be. The steps
/// of one that may be above everything published are held back until that has been read: it is said in the
/// question, or on record for somebody. Without a collection only the question counts.
void put_beside_collection(worklist::MixSheet& sheet, const MixQuestion& question,
                           const Situation* situation);

}  // namespace mitefall::service
