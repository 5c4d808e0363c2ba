#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <memory>
#include <sstream>

#include "cli/commands.h"
#include "cli/course.h"
#include "cli/input.h"
#include "formats/casefile/case_file.h"
#include "formats/json/course.h"
#include "formats/json/evidence.h"
#include "formats/json/forecast.h"
#include "formats/json/json.h"
#include "formats/json/parameters.h"
#include "formats/json/simulation.h"
#include "formats/text/course.h"
#include "formats/text/layout.h"
#include "formats/text/show.h"
#include "records/limits.h"
#include "service/case_forecast.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

struct ForecastOptions {
    std::string case_file, engine = "sweep", form = "degree-hours";
    std::size_t draws = 256;
    std::uint64_t seed = 1;
    std::uint32_t runs = 10'000;
    bool with_draws = false, course = false;

    [[nodiscard]] mites::Ensemble ensemble(const evidence::Tables& tables) const {
        const auto law = form == "log-linear" ? mites::DevelopmentForm::log_linear
                         : form == "gallinae" ? mites::DevelopmentForm::gallinae
                                              : mites::DevelopmentForm::degree_hours;
        return mites::draw_parameters(tables, service::whole_blocks(draws), seed, law);
    }

    void add_to(CLI::App& command) {
        command.add_option("--draws", draws, "Parameter draws, rounded up to a multiple of 8")
            ->check(CLI::Range(8, 65536))
            ->capture_default_str();
        command.add_option("--seed", seed, "Same seed, same answer")->capture_default_str();
        command.add_option("--development", form, "Law of development")
            ->check(CLI::IsMember({"degree-hours", "log-linear", "gallinae"}))
            ->capture_default_str();
    }
};

Result<void> answer_sweep(Context& context, const formats::CaseFile& given, bool with_course) {
    const auto swept = service::sweep_case(given, context.progress("Sweeping"));
    if (!swept) return fail(swept.error());
    const service::CaseAnswer& answer = *swept;
    std::string text =
        fmt::format("{}\nChance of clear after {:.0f} days: {}; at the most likely parameters {}.\n",
                    records::on_one_line(given.title), given.to - given.from,
                    formats::show_band(answer.ensemble.clear), units::show_chance(answer.clear_at_mode)) +
        (answer.ensemble.clean
             ? fmt::format("That is given that every check is clean, which has a chance of {}.\n",
                           formats::show_band(*answer.ensemble.clean))
             : "") +
        fmt::format("Mites at the start: about {} (from {} to {}).\n",
                    units::show_number(answer.ensemble.mites_now.mean, 2),
                    units::show_number(answer.ensemble.mites_now.p10, 2),
                    units::show_number(answer.ensemble.mites_now.p90, 2));
    std::optional<service::Course> course;
    if (with_course) course = service::course_of(given, context.progress("Counting"));
    if (course) text += formats::course_text(view_of(*course));
    context.answer("forecast", text, [&] {
        formats::Json json = formats::forecast_json(answer.ensemble, answer.clear_at_mode);
        if (course) json["course"] = formats::course_json(view_of(*course));
        return json;
    });
    return {};
}

Result<void> answer_simulation(Context& context, const formats::CaseFile& given,
                               const ForecastOptions& options) {
    const auto result = service::simulate_case(given, options.runs, options.seed);
    std::string text = fmt::format(
        "{}\nChance of clear after {:.0f} days, {} simulated outbreaks at the most likely parameters: {} "
        "(standard error {}).\n",
        records::on_one_line(given.title), given.to - given.from, options.runs,
        units::show_chance(result.clear.value),
        units::show_number(100 * result.clear.standard_error, 2) + " points");
    if (result.clean.value < 1)
        text += fmt::format("Given that every check is clean ({} of the outbreaks): {}.\n",
                            units::show_chance(result.clean.value),
                            units::show_chance(result.clear_given_clean.value));
    formats::Table table({"DAY", "MEAN MITES", "10 %", "MEDIAN", "90 %"});
    for (const simulator::CountBand& band : result.counts)
        table.add({units::show_number(band.time - given.from, 4), units::show_number(band.mean, 3),
                   units::show_number(band.p10, 3), units::show_number(band.p50, 3),
                   units::show_number(band.p90, 3)});
    context.answer("forecast", text + table.text(),
                   [&] { return formats::simulation_json(result, options.runs); });
    return {};
}

Result<void> answer_forecast(Context& context, const ForecastOptions& options) {
    const auto text = read_input(options.case_file);
    if (!text) return fail(text.error());
    const auto given = formats::read_case(*text, options.ensemble(context.knowledge().tables));
    if (!given) return fail(given.error());
    return options.engine == "sweep" ? answer_sweep(context, *given, options.course)
                                     : answer_simulation(context, *given, options);
}

void add_parameters(CLI::App& app, Context& context) {
    const auto o = std::make_shared<ForecastOptions>();
    CLI::App* const command =
        app.add_subcommand("parameters", "The parameters a forecast uses, complete enough to reproduce it");
    o->add_to(*command);
    command->add_flag("--with-draws", o->with_draws, "Every draw, too");
    context.on_chosen(*command, [&context, o]() -> Result<void> {
        const auto ensemble = o->ensemble(context.knowledge().tables);
        context.print_json("parameters", formats::parameters_json(ensemble, context.knowledge().tables,
                                                                  o->seed, o->with_draws));
        return {};
    });
}

void add_evidence(CLI::App& app, Context& context) {
    CLI::App* const command =
        app.add_subcommand("evidence", "Every number in use, its range, its tag and its source");
    context.on_chosen(*command, [&context]() -> Result<void> {
        formats::Table table({"NUMBER", "VALUE", "LOW", "HIGH", "UNIT", "TAG", "MEANING"});
        for (const auto& row : context.knowledge().tables.rows()) {
            table.add({std::string(row.cited.key), units::show_number(row.cited.value, 5),
                       units::show_number(row.cited.low, 5), units::show_number(row.cited.high, 5), row.unit,
                       std::string(evidence::to_text(row.cited.tag)), std::string(row.cited.meaning)});
        }
        context.answer("evidence",
                       table.text() +
                           "Tags: R read in its source, R2 read in a text that cites it, M from memory, C "
                           "computed, P common practice, A our assumption.\n",
                       [&] { return formats::evidence_json(context.knowledge().tables); });
        return {};
    });
}

}  // namespace

void add_forecast_commands(CLI::App& app, Context& context) {
    const auto o = std::make_shared<ForecastOptions>();
    CLI::App* const command = app.add_subcommand(
        "forecast", "The chance of clear of a case file (docs/case-file.md), by either engine");
    command->add_option("CASE", o->case_file, "The case file, or - for standard input")->required();
    command->add_option("--engine", o->engine, "sweep (exact) or simulator")
        ->check(CLI::IsMember({"sweep", "simulator"}))
        ->capture_default_str();
    command->add_option("--runs", o->runs, "Outbreaks to simulate")
        ->check(CLI::Range(1, 100'000'000))
        ->capture_default_str();
    command->add_flag("--course", o->course, "Mites to expect and the chance of clear, day by day (sweep)");
    o->add_to(*command);
    context.on_chosen(*command, [&context, o] { return answer_forecast(context, *o); });
    add_parameters(app, context);
    add_evidence(app, context);
}

}  // namespace mitefall::cli
