#include "cli/context.h"

#include <fmt/format.h>

#include "formats/json/damage.h"
#include "formats/json/json.h"
#include "formats/text/damage.h"

namespace mitefall::cli {

int exit_code_of(base::ErrorKind kind) {
    switch (kind) {
        case base::ErrorKind::invalid_input: return 3;
        case base::ErrorKind::not_found: return 4;
        case base::ErrorKind::already_exists: return 5;
        case base::ErrorKind::conflict: return 6;
        case base::ErrorKind::refused: return 7;
        case base::ErrorKind::unsupported: return 8;
        case base::ErrorKind::damaged: return 9;
        case base::ErrorKind::system: return 10;
    }
    return 1;
}

void Context::add_shared_options(CLI::App& app) {
    app.add_option("-f,--file", file_, "Collection file")->envname("MITEFALL_FILE")->capture_default_str();
    app.add_flag("--json", json_, "Answer as JSON (schemas in docs/schemas)");
    app.add_option("--units", units_, "Units shown")
        ->check(CLI::IsMember({"metric", "us", "imperial"}))
        ->capture_default_str();
    app.add_flag("--fahrenheit", fahrenheit_, "Show temperatures in F");
    app.add_flag("--details", details_, "All rows and reasons, where an answer is shown short");
    app.add_option("--today", today_, "Take this day for today (year-month-day)");
}

base::Result<void> Context::settle() {
    auto knowledge = service::Knowledge::load();
    if (!knowledge) return base::fail(knowledge.error());
    knowledge_ = std::make_shared<service::Knowledge>(std::move(*knowledge));
    display_.system = units_ == "us"         ? units::UnitSystem::us
                      : units_ == "imperial" ? units::UnitSystem::imperial
                                             : units::UnitSystem::metric;
    display_.scale = fahrenheit_ ? units::TemperatureScale::fahrenheit : units::TemperatureScale::celsius;
    if (today_.empty()) return {};
    const auto day = units::parse_day(today_);
    if (!day) return base::fail(day.error());
    surroundings_.now.today = *day;
    return {};
}

std::function<service::Now()> Context::clock() const {
    return [clock = surroundings_.clock, now = surroundings_.now, fixed = !today_.empty()] {
        service::Now moment = clock ? clock() : now;
        if (fixed) moment.today = now.today;
        return moment;
    };
}

void Context::on_chosen(CLI::App& app, std::function<base::Result<void>()> command) {
    app.callback([this, &app, command = std::move(command)] {
        if (const auto ready = settle(); !ready) return report(ready.error(), app.get_name());
        if (const auto done = command(); !done) report(done.error(), app.get_name());
    });
}

base::Result<service::Keeper> Context::open() const {
    auto keeper = service::Keeper::open(file_, *knowledge_);
    if (!keeper) return keeper;
    auto damage = keeper->damage();
    if (!damage) return base::fail(damage.error());
    damage_ = std::move(*damage);
    if (!json_) tell(formats::damage_text(damage_));
    return keeper;
}

base::Result<std::shared_ptr<const service::Situation>> Context::situation() const {
    const auto keeper = open();
    if (!keeper) return base::fail(keeper.error());
    return keeper->situation(now().today);
}

void Context::tell(const std::string& text) const {
    err() << formats::lay_out(text, surroundings_.terminal) << std::flush;
}

void Context::print_json(std::string_view command, formats::Json result) const {
    formats::Json json = formats::envelope(command, std::move(result));
    if (!damage_.empty()) json["damage"] = formats::damage_json(damage_);
    out() << formats::write_json(json);
}

void Context::flush() const { out() << std::flush; }

void Context::say(const std::string& text) const {
    if (!json_) out() << formats::lay_out(text, surroundings_.terminal);
}

void Context::answer(std::string_view command, const std::string& text,
                     const std::function<formats::Json()>& json) const {
    if (json_)
        print_json(command, json());
    else
        say(text);
}

std::function<bool(double)> Context::progress(std::string label) const {
    if (!surroundings_.err_is_terminal || json_) return {};
    return [this, label = std::move(label), shown = -1](double share) mutable {
        const int percent = static_cast<int>(share * 100);
        if (percent != shown)
            err() << fmt::format("\r{} {:3} %{}", label, percent, percent == 100 ? "\n" : "") << std::flush;
        shown = percent;
        return true;
    };
}

Context::Said Context::ask(const std::string& question) const {
    if (surroundings_.answers == nullptr || json_) return Said::nobody;
    tell(question + " [y/N] ");
    std::string line;
    std::getline(*surroundings_.answers, line);
    return line == "y" || line == "Y" || line == "yes" ? Said::yes : Said::no;
}

void Context::report(const base::Error& error, std::string_view command) {
    if (json_) {
        formats::Json json = formats::error_envelope(command, error);
        if (!damage_.empty()) json["damage"] = formats::damage_json(damage_);
        out() << formats::write_json(json);
    }
    tell(formats::wrap(error.message(), "mitefall: ", "  "));
    exit_code_ = exit_code_of(error.kind);
}

}  // namespace mitefall::cli
