#include "service/mixing.h"

#include <algorithm>
#include <cctype>

#include "mixing/stock_form.h"
#include "safety/acknowledged.h"
#include "service/verdicts.h"
#include "units/text.h"

namespace mitefall::service {
namespace {

using formats::for_option;

/// Half of the last digit: a syringe was read as closely as that.
units::Volume half_of_last_digit(const std::string& text, units::Volume volume) {
    const auto number_end = text.find_first_not_of(" 0123456789.");
    const std::string number = text.substr(0, number_end);
    const auto point = number.find('.');
    double half = 0.5;
    for (std::size_t i = point; point != std::string::npos && i + 1 < number.size(); ++i) {
        if (std::isdigit(static_cast<unsigned char>(number[i + 1])) != 0) half /= 10;
    }
    const auto value =
        units::parse_number(number.substr(number.find_first_not_of(' '), number.find_last_not_of(' ') + 1));
    return value && *value > 0 ? volume * (half / *value) : units::Volume{};
}

/// How far the stock may be off as it was written: a spoon or a jug by its own error, else half of the last
/// digit.
units::Volume error_of_stock(const std::string& text, units::Volume volume, const evidence::Tables& tables) {
    switch (units::measure_named_in(text)) {
        case units::NamedMeasure::spoon: return volume * units::as_fraction(tables.part("spoon_error").value);
        case units::NamedMeasure::vessel:
            return volume * units::as_fraction(tables.part("filled_vessel_error").value);
        case units::NamedMeasure::none: break;
    }
    return half_of_last_digit(text, volume);
}

/// How far the whole may be off. "1 quart" and "1 L" are a vessel filled to its line, not anything between
/// half and one and a half of it; who writes more digits has measured more closely.
units::Volume error_of_whole(const std::string& text, units::Volume volume, const evidence::Tables& tables) {
    const units::Volume filled = volume * units::as_fraction(tables.part("filled_vessel_error").value);
    if (units::measure_named_in(text) != units::NamedMeasure::none)
        return error_of_stock(text, volume, tables);
    return std::min(filled, half_of_last_digit(text, volume));
}

Result<worklist::MixSheet> mix_to_target(const MixQuestion& question, const MixAnswer& answer,
                                         const Knowledge& knowledge, const Now& now) {
    if (answer.bench.bottle && answer.batch > *answer.bench.bottle) {
        return fail(base::invalid("the bottle is smaller than the batch", question.batch,
                                  units::show(*answer.bench.bottle, {}),
                                  "make several bottles, each of what it holds"));
    }
    const auto target = for_option("--target", units::parse_strength(question.target));
    if (!target) return fail(target.error());
    if (safety::is_beyond_practice(*target, knowledge.tables))
        return fail(beyond_practice(*target, knowledge.tables));
    if (answer.bench.stock_is == mixing::StockForm::not_told) return fail(mixing::ask_stock_form());
    auto sheet = worklist::make_mix_sheet(answer.bench, answer.batch, *target, now.today, knowledge.tables);
    if (sheet)
        worklist::propose_round(*sheet, answer.bench, units::system_written_in(question.batch),
                                knowledge.tables);
    return sheet;
}

Result<worklist::MixSheet> judge(const MixQuestion& question, const MixAnswer& answer,
                                 const Knowledge& knowledge, const Now& now) {
    const worklist::FollowedRecipe recipe{
        answer.made_with, error_of_stock(question.made_with, answer.made_with, knowledge.tables),
        question.added ? answer.batch + answer.made_with : answer.batch,
        error_of_whole(question.batch, answer.batch, knowledge.tables)};
    return worklist::judge_recipe(answer.bench, recipe, now.today, knowledge.tables);
}

}  // namespace

base::Error beyond_practice(units::Strength strength, const evidence::Tables& tables) {
    const auto ceiling = tables.strength("highest_spray_strength");
    return {
        base::ErrorKind::refused,
        units::show(strength) + " is beyond any practice known: it is permitted for nobody",
        {},
        "at most " + units::show(ceiling.value) + " (" + std::string(evidence::explain(ceiling.tag)) + ")",
        "mix at most " + units::show(tables.strength("strength_without_caution").value),
        {}};
}

Result<MixAnswer> answer_mix(const MixQuestion& question, const Knowledge& knowledge, const Now& now) {
    if (question.target.empty() == question.made_with.empty()) {
        return fail(base::invalid("a mix needs a strength or a recipe, and not both", "", "",
                                  "give the strength you want, 10 mg/L, or what went in, 8 US tsp"));
    }
    auto bench = formats::read_bench(question.bench, knowledge.tables);
    if (!bench) return fail(bench.error());
    const auto batch = for_option("BATCH", units::parse_volume(question.batch));
    if (!batch) return fail(batch.error());
    MixAnswer answer{std::move(*bench), {}, *batch, {}};
    if (!question.made_with.empty()) {
        const auto stock = for_option("--made-with", units::parse_volume(question.made_with));
        if (!stock) return fail(stock.error());
        answer.made_with = *stock;
    }
    auto sheet = question.made_with.empty() ? mix_to_target(question, answer, knowledge, now)
                                            : judge(question, answer, knowledge, now);
    if (!sheet) return fail(sheet.error());
    answer.sheet = std::move(*sheet);
    return answer;
}

void put_beside_collection(worklist::MixSheet& sheet, const MixQuestion& question,
                           const Situation* situation) {
    const units::Strength judged = sheet.comparison.judged;
    bool is_read = question.stop_read || sheet.comparison.standing != mixing::Standing::above;
    if (situation != nullptr) {
        sheet.animals = mists_of(*situation, judged);
        is_read = is_read || safety::may_be_made(situation->collection(), judged, situation->today(),
                                                 situation->knowledge().tables);
    }
    if (!is_read && question.made_with.empty()) worklist::hold_back_steps(sheet);
}

}  // namespace mitefall::service
