#include "service/mixing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <vector>

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

/// Those to mix from.
std::vector<const records::StockKept*> bottles_of(const records::Collection& today) {
    std::vector<const records::StockKept*> bottles;
    for (const auto& [id, stock] : today.stocks) {
        if (!stock.gone) bottles.push_back(&stock.kept.value);
    }
    return bottles;
}

const records::StockKept* find_bottle(const records::Collection& today, const std::string& name) {
    const auto bottles = bottles_of(today);
    const auto found = std::find_if(bottles.begin(), bottles.end(), [&](const records::StockKept* stock) {
        return stock->stock.text() == name;
    });
    return found == bottles.end() ? nullptr : *found;
}

/// "iver-1 (10 mg/mL), iver-2 (18.7 mg/mL)"
std::string names_of(const records::Collection& today) {
    std::string names;
    for (const records::StockKept* const stock : bottles_of(today))
        names += fmt::format("{}{} ({})", names.empty() ? "" : ", ", stock->stock.text(),
                             formats::show_on_label(stock->strength));
    return names;
}

base::Error about_bottle(base::Error error) {
    error.where = "--from";
    return error;
}

base::Error which_bottle(const records::Collection& today) {
    return about_bottle(
        base::invalid("it is not told which bottle it is mixed from", "", names_of(today),
                      "look at the name on the bottle and choose it, or tell the strength on the "
                      "label of another (--stock)"));
}

base::Error bottle_or_strength(const formats::BenchWords& words) {
    return about_bottle(base::invalid("a bottle on record has its strength: not another beside it",
                                      words.from + ", " + words.stock, "",
                                      "tell the bottle (--from) or the strength (--stock)"));
}

base::Error no_such_bottle(const std::string& name, const records::Collection* today) {
    const std::string known = today == nullptr ? std::string() : names_of(*today);
    return about_bottle({base::ErrorKind::not_found,
                         "there is no bottle of stock of that name to mix from",
                         name,
                         known.empty() ? "none is on record" : known,
                         "choose one of these, or put yours on record",
                         {}});
}

}  // namespace

Result<worklist::Bench> bench_of(const formats::BenchWords& words, const records::Collection* today,
                                 const evidence::Tables& tables) {
    const bool is_told = !words.from.empty() || !words.stock.empty();
    if (!is_told && today != nullptr && !bottles_of(*today).empty()) return fail(which_bottle(*today));
    return bench_to_show(words, today, tables);
}

Result<worklist::Bench> bench_to_show(const formats::BenchWords& words, const records::Collection* today,
                                      const evidence::Tables& tables) {
    if (!words.from.empty() && !words.stock.empty()) return fail(bottle_or_strength(words));
    auto bench = formats::read_bench(words, tables);
    if (!bench || words.from.empty()) return bench;
    const auto* const stock = today == nullptr ? nullptr : find_bottle(*today, words.from);
    if (stock == nullptr) return fail(no_such_bottle(words.from, today));
    bench->from = stock->stock;
    bench->stock = {stock->strength, stock->expires};
    bench->stock_is = mixing::StockForm::plain;
    return bench;
}

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

Result<MixAnswer> answer_mix(const MixQuestion& question, const records::Collection* today,
                             const Knowledge& knowledge, const Now& now) {
    if (question.target.empty() == question.made_with.empty()) {
        return fail(base::invalid("a mix needs a strength or a recipe, and not both", "", "",
                                  "give the strength you want, 10 mg/L, or what went in, 8 US tsp"));
    }
    auto bench = bench_of(question.bench, today, knowledge.tables);
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
