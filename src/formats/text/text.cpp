#include "formats/text/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <span>

#include "formats/late.h"
#include "formats/text/bench.h"
#include "formats/text/layout.h"
#include "plan/questions.h"
#include "plan/reach.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using records::Collection;
using records::Method;

std::string animal_name(const Collection& collection, const records::AnimalId& id) {
    const auto found = collection.animals.find(id);
    return found == collection.animals.end() || found->second.name.empty() ? id.text() : found->second.name;
}

std::string room_name(const Collection& collection, const records::RoomId& id) {
    const auto found = collection.rooms.find(id);
    return found == collection.rooms.end() || found->second.name.empty() ? id.text() : found->second.name;
}

std::string source_note(const std::string& source, evidence::Tag tag) {
    return source.empty() ? fmt::format("[{}: {}]", evidence::to_text(tag), evidence::explain(tag))
                          : fmt::format("[{}: {}]", evidence::to_text(tag), source);
}

}  // namespace

std::string show_band(const base::Band& band) {
    return fmt::format("{} (range {} to {})", units::show_chance(band.mean), units::show_chance(band.p10),
                       units::show_chance(band.p90));
}

std::string collection_text(const Collection& collection, units::Display display) {
    std::string text =
        fmt::format("{}: {} rooms, {} enclosures, {} animals\n", units::format_day(collection.day),
                    collection.rooms.size(), collection.enclosures.size(), collection.animals.size());
    if (collection.rooms.empty()) {
        return text +
               "Nothing is on record yet. Begin with \"record room\", then \"record enclosure\" and \"record "
               "arrival\".\n";
    }
    Table table({"ANIMAL", "KIND", "ENCLOSURE", "ROOM", "WEIGHT", "STATE"});
    for (const auto& [id, animal] : collection.animals) {
        std::string state;
        if (animal.quarantine) state += "quarantine ";
        if (animal.shed && animal.shed->value == records::ShedState::cloudy) state += "cloudy ";
        for (const auto& condition : animal.conditions)
            state += std::string(records::to_text(condition.value.condition)) + " ";
        table.add({id.text(), animal.taxon.empty() ? "kind unknown" : animal.taxon, animal.enclosure.text(),
                   room_name(collection, collection.enclosures.at(animal.enclosure).room),
                   animal.weight ? units::show(animal.weight->value, display) : "not weighed", state});
    }
    return text + table.text();
}

namespace {

/// The path without its first step, which is the sighting every path begins with.
std::string path_text(const exposure::Exposed& row) {
    std::string text;
    for (std::size_t i = 1; i < row.path.size(); ++i) text += (i > 1 ? "; then " : "") + row.path[i].text;
    return row.sighted || row.path.size() < 2 ? row.text : text;
}

/// Enclosures reached only by walking from one and the same enclosure, at the same chance, are told in one
/// line.
struct WalkedGroup {
    const exposure::Exposed* example;
    std::vector<std::string> enclosures;
};

bool is_walked(const exposure::Exposed& row) {
    return row.path.size() >= 2 && (row.path.back().kind == exposure::StepKind::same_room ||
                                    row.path.back().kind == exposure::StepKind::adjoining_room);
}

bool tell_alike(const exposure::Exposed& a, const exposure::Exposed& b) {
    return a.path.size() == b.path.size() && a.path.back().from == b.path.back().from &&
           a.path.back().to_room == b.path.back().to_room &&
           units::show_chance(a.chance) == units::show_chance(b.chance);
}

std::string join(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

std::string walked_text(const WalkedGroup& group, const Collection& collection) {
    const exposure::Step& last = group.example->path.back();
    std::string before;
    for (std::size_t i = 1; i + 1 < group.example->path.size(); ++i)
        before += group.example->path[i].text + "; then ";
    return fmt::format("{}on foot from {} to any enclosure of {}", before, last.from.text(),
                       room_name(collection, last.to_room));
}

}  // namespace

std::string exposure_text(const exposure::Tracing& tracing, const Collection& collection) {
    std::string text = heading("Who is exposed");
    std::size_t without = 0;
    std::vector<WalkedGroup> groups;
    Table table({"CHANCE", "ENCLOSURE", "ROOM", "WHY"});
    const auto add_groups = [&] {
        for (const WalkedGroup& group : groups) {
            const std::string names = group.enclosures.size() > 6
                                          ? fmt::format("{} enclosures", group.enclosures.size())
                                          : join(group.enclosures);
            table.add({units::show_chance(group.example->chance), names,
                       room_name(collection, group.example->path.back().to_room),
                       walked_text(group, collection)});
        }
        groups.clear();
    };
    for (const exposure::Exposed& row : tracing.exposed) {
        if (!(row.chance > 0)) {
            ++without;
        } else if (is_walked(row)) {
            if (!groups.empty() && !tell_alike(*groups.back().example, row)) add_groups();
            if (groups.empty()) groups.push_back({&row, {}});
            groups.back().enclosures.push_back(row.enclosure.text());
        } else {
            add_groups();
            table.add({row.sighted ? "seen" : units::show_chance(row.chance), row.enclosure.text(),
                       room_name(collection, collection.enclosures.at(row.enclosure).room), path_text(row)});
        }
    }
    add_groups();
    text += table.text();
    if (without > 0)
        text += fmt::format("{} more enclosures: no contact on record in {} days. That is not proof.\n",
                            without, (tracing.to - tracing.from).count());
    if (!tracing.arrivals.empty()) {
        text += "\nWho may have brought them:\n";
        for (const exposure::Arrival& arrival : tracing.arrivals) text += wrap(arrival.text, "  - ", "    ");
    }
    if (tracing.to < collection.day)
        text += fmt::format(
            "\nThe last sighting is longer ago than contacts are traced. This is what it reached up to {}.\n",
            units::format_day(tracing.to));
    return text +
           "\nTonight: nothing leaves an exposed enclosure for another; tools and hides stay where they "
           "are.\n";
}

namespace {

using ByMethod = std::map<Method, const safety::Verdict*>;

std::string_view short_name(safety::Ruling ruling) {
    switch (ruling) {
        case safety::Ruling::allowed: return "allowed";
        case safety::Ruling::bedding_only: return "bedding only";
        case safety::Ruling::wait_until: return "wait";
        case safety::Ruling::ask_vet: return "ask a vet";
        case safety::Ruling::never: return "never";
    }
    return "never";
}

std::string ruling_cell(const safety::Verdict& verdict) {
    const std::string text = verdict.until ? "until " + units::format_day_short(*verdict.until)
                                           : std::string(short_name(verdict.ruling));
    switch (verdict.ruling) {
        case safety::Ruling::never: return toned(Tone::grave, text);
        case safety::Ruling::ask_vet: return toned(Tone::caution, text);
        case safety::Ruling::wait_until:
        case safety::Ruling::bedding_only:
        case safety::Ruling::allowed: break;
    }
    return text;
}

/// One animal: its cells, and its rulings from the most severe to the mildest.
struct VerdictRow {
    std::string name;
    std::vector<std::string> cells;
    std::vector<safety::Ruling> rulings;
};

std::vector<VerdictRow> verdict_rows(const std::map<records::AnimalId, ByMethod>& by_animal,
                                     const Collection& collection, std::span<const Method> columns) {
    std::vector<VerdictRow> rows;
    for (const auto& [animal, verdicts] : by_animal) {
        VerdictRow& row = rows.emplace_back();
        row.name = animal_name(collection, animal);
        for (const Method method : columns) {
            const auto found = verdicts.find(method);
            row.cells.push_back(found == verdicts.end() ? "-" : ruling_cell(*found->second));
            if (found != verdicts.end()) row.rulings.push_back(found->second->ruling);
        }
        std::sort(row.rulings.rbegin(), row.rulings.rend());
    }
    std::stable_sort(rows.begin(), rows.end(),
                     [](const auto& a, const auto& b) { return a.rulings > b.rulings; });
    return rows;
}

/// "15 others, all alike: ...": those with the mildest rulings, in one paragraph.
std::string crowd_text(std::span<const VerdictRow> crowd, std::span<const Method> columns) {
    std::vector<std::pair<std::string, std::string>> by_cell;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const std::string& cell = crowd.front().cells[c];
        auto found =
            std::find_if(by_cell.begin(), by_cell.end(), [&](const auto& one) { return one.first == cell; });
        if (found == by_cell.end()) found = by_cell.insert(by_cell.end(), {cell, ""});
        found->second += (found->second.empty() ? "" : ", ") + std::string(records::to_text(columns[c]));
    }
    std::string text = fmt::format("{} others, all alike", crowd.size());
    for (const auto& [cell, methods] : by_cell) text += fmt::format("; {}: {}", cell, methods);
    std::vector<std::string> names;
    for (const VerdictRow& row : crowd) names.push_back(row.name);
    return wrap(text + ". They are " + join(names) + ".", "", "  ");
}

constexpr std::size_t least_crowd = 3;  // fewer have a row each

std::string verdict_table(const std::map<records::AnimalId, ByMethod>& by_animal,
                          const Collection& collection, std::span<const Method> columns, bool every_animal) {
    const std::vector<VerdictRow> rows = verdict_rows(by_animal, collection, columns);
    auto crowd = rows.end();
    while (!every_animal && crowd != rows.begin() && std::prev(crowd)->cells == rows.back().cells) --crowd;
    if (static_cast<std::size_t>(rows.end() - crowd) < least_crowd) crowd = rows.end();
    std::vector<std::string> head{"ANIMAL"};
    for (const Method method : columns) head.emplace_back(records::to_text(method));
    Table table(head);
    for (auto row = rows.begin(); row != crowd; ++row) {
        std::vector<std::string> cells{row->name};
        cells.insert(cells.end(), row->cells.begin(), row->cells.end());
        table.add(cells);
    }
    return (crowd == rows.begin() ? "" : table.text()) +
           (crowd == rows.end() ? "" : crowd_text({crowd, rows.end()}, columns));
}

std::vector<Method> methods_on(records::Shelf shelf) {
    std::vector<Method> methods;
    for (const records::MethodRow& row : records::method_rows) {
        if (row.shelf == shelf) methods.push_back(row.method);
    }
    return methods;
}

std::string why_text(const safety::Verdict& verdict, const Collection& collection) {
    std::string text = fmt::format("{}, {}: {}\n", animal_name(collection, verdict.animal),
                                   records::describe(verdict.method), safety::describe(verdict.ruling));
    for (const safety::Reason& reason : verdict.reasons) {
        const std::string remedy =
            reason.remedy.empty() ? "" : "What to do: " + words::say(reason.remedy) + ". ";
        text += wrap(words::say(reason.what) + ". " + remedy + source_note(reason.source, reason.tag), "  - ",
                     "    ");
    }
    return text;
}

}  // namespace

std::string verdicts_text(const std::vector<safety::Verdict>& verdicts, const Collection& collection,
                          VerdictDetail detail) {
    std::map<records::AnimalId, ByMethod> by_animal;
    for (const safety::Verdict& verdict : verdicts) by_animal[verdict.animal][verdict.method] = &verdict;
    std::string text = heading("What each animal can be given");
    const auto table = [&](records::Shelf shelf) {
        return verdict_table(by_animal, collection, methods_on(shelf), detail.every_animal);
    };
    text += table(records::Shelf::usual);
    if (detail.every_method) {
        text += heading("Without acaricides") + table(records::Shelf::home);
        text += heading("Only with a veterinarian") + table(records::Shelf::veterinary);
    } else {
        text += "Oil, soap, heat, cold, dust, predatory mites, prescription drugs: \"verdicts --all\".\n";
    }
    if (!detail.reasons) return text + "The reasons: \"verdicts --reasons\".\n";
    text += heading("Why");
    std::vector<const safety::Verdict*> told;
    for (const safety::Verdict& verdict : verdicts) {
        const bool is_shown =
            detail.every_method || records::row_of(verdict.method).shelf == records::Shelf::usual;
        if (is_shown && !verdict.reasons.empty()) told.push_back(&verdict);
    }
    std::stable_sort(told.begin(), told.end(), [](auto a, auto b) { return a->ruling > b->ruling; });
    for (const safety::Verdict* const verdict : told) text += why_text(*verdict, collection);
    return text;
}

namespace {

/// The ways worth choosing between, and what each round buys.
std::string other_ways_text(const plan::PlanChoice& choice) {
    std::string text =
        "\nOther ways, each with a better chance or lighter than all others tried (chances on fewer draws, "
        "some points off):\n";
    for (const plan::FrontierCourse& one : choice.frontier) {
        text += fmt::format("  {:>7}  {} spraying{}, {} tasks: {}\n", units::show_chance(one.clear.mean),
                            one.burden.on_animal, one.burden.on_animal == 1 ? "" : "s", one.burden.tasks,
                            plan::describe(one.course, one.rounds, one.does));
    }
    text += "\nWhat each round buys, all else as recommended:\n";
    const base::Band* before = &choice.untreated;
    for (const plan::Rung& rung : choice.ladder) {
        text += fmt::format("  {} round{}  {}  {:+.1f} points\n", rung.rounds, rung.rounds == 1 ? " " : "s",
                            show_band(rung.clear), 100 * (rung.clear.mean - before->mean));
        before = &rung.clear;
    }
    return text;
}

template <class Items, class Name>
std::string joined(const Items& items, Name name) {
    std::string text;
    for (const auto& item : items) text += (text.empty() ? "" : ", ") + name(item);
    return text;
}

/// Which rooms a plan treats as a whole, and who at risk stands outside it.
std::string reach_text(const plan::Schedule& schedule, const plan::Setting& setting) {
    const Collection& collection = setting.with.collection;
    const plan::Reach reach = plan::reach_of(schedule.assignment, setting);
    std::string text = "\n";
    if (!reach.whole_rooms.empty())
        text +=
            wrap(fmt::format("Every enclosure is in the plan of: {}.",
                             joined(reach.whole_rooms,
                                    [&](const records::RoomId& id) { return room_name(collection, id); })),
                 "", "  ");
    const auto outside_name = [&](const plan::Outside& one) {
        const std::string who =
            joined(one.animals, [&](const auto& id) { return animal_name(collection, id); });
        const auto& enclosure = collection.enclosures.at(one.enclosure);
        return (enclosure.name.empty() ? one.enclosure.text() : enclosure.name) +
               (who.empty() ? "" : " (" + who + ")");
    };
    if (!reach.outside.empty())
        text += wrap(fmt::format("At risk and not in the plan, nothing is done there: {}.",
                                 joined(reach.outside, outside_name)),
                     "", "  ");
    for (const plan::ShedQuestion& question : plan::open_questions(schedule.assignment, setting)) {
        if (question.would_change.empty()) continue;
        text += wrap(
            fmt::format("{} has been cloudy since {}. The plan changes with the answer: {}.",
                        animal_name(collection, question.animal), units::format_day_short(question.since),
                        joined(question.would_change,
                               [&](records::ShedState state) {
                                   return fmt::format("\"record shed {} {}\"", question.animal.text(),
                                                      records::to_text(state));
                               })),
            "", "  ");
    }
    return text;
}

/// What was to be done and is permitted nowhere.
std::string refused_text(const plan::Schedule& schedule) {
    constexpr std::size_t told = 3;
    const auto refused = plan::refused_in(schedule);
    if (refused.empty()) return {};
    std::string text = "The safety check permits none of this in the recommended plan:\n";
    for (const plan::Refused& one : refused) {
        const std::size_t number = std::min(one.reasons.size(), told);
        for (const safety::Reason& why : std::span(one.reasons).first(number))
            text += wrap(fmt::format("{}: {}.", records::describe(one.method), words::say_with_remedy(why)),
                         "  ", "    ");
        if (number < one.reasons.size())
            text += fmt::format("  and {} more reasons; --json has them all\n", one.reasons.size() - number);
    }
    return text + "\n";
}

}  // namespace

std::string plan_text(const plan::PlanChoice& choice, const plan::Setting& setting, const plan::Goal& goal,
                      units::Display display, bool details) {
    std::string text = heading("Plans");
    text += fmt::format(
        "Chance that no mite of any stage is alive {:.0f} days from now. The range leaves out the worst and "
        "the best tenth of what is not known. If nothing is done: {}.\n\n",
        goal.horizon_days, show_band(choice.untreated));
    Table table(
        {"", "PLAN", "CHANCE OF CLEAR", "RANGE", "SPRAYINGS ON ANIMALS", "MOST ON ONE", "TASKS", "SPRAY"});
    const auto row = [&](const std::string& label, const plan::ScoredPlan& plan) {
        const plan::Burden& burden = plan.schedule.burden;
        table.add({label, plan::describe(plan.course, plan.schedule.assignment.rounds, plan.schedule.does),
                   units::show_chance(plan.clear.mean),
                   units::show_chance(plan.clear.p10) + " to " + units::show_chance(plan.clear.p90),
                   std::to_string(burden.on_animal), std::to_string(burden.most_on_one_animal),
                   std::to_string(burden.tasks), units::show(burden.spray, display)});
    };
    row("RECOMMENDED", choice.recommended);
    for (std::size_t i = 0; i < choice.alternatives.size(); ++i) {
        const bool lighter = choice.alternatives[i].schedule.burden < choice.recommended.schedule.burden;
        row(fmt::format("{} ({})", i + 1, lighter ? "lighter" : "stronger"), choice.alternatives[i]);
    }
    text += refused_text(choice.recommended.schedule);
    text += table.text();
    if (!choice.meets_target) {
        text += fmt::format(
            "\nNo plan inside the safety limits reaches {} at the low end of the range. Recommended is the "
            "one with the best low end (the best mean, where that is nothing); ask a veterinarian about "
            "prescription drugs, and count on checking for longer.\n",
            units::show_chance(goal.target));
    }
    text +=
        details ? other_ways_text(choice) : "\nOther ways, and what each round buys: \"plan --details\".\n";
    text += fmt::format("\nRounds of the recommended plan:");
    const bool soaks = choice.recommended.course.choices.soak_animals;
    const Method meant = soaks ? Method::soak : Method::spray_animal;
    std::string own_dates;
    for (const plan::Round& round : choice.recommended.schedule.rounds) {
        if (!round.own_date) text += fmt::format("  {}", units::format_day_short(round.day));
        for (const plan::ScheduledTreatment& waiting : round.treatments) {
            if (!round.own_date || waiting.treatment.method() != meant) continue;
            own_dates +=
                fmt::format("{}{} on {}", own_dates.empty() ? "" : ", ",
                            animal_name(setting.with.collection, waiting.treatment.animals().front()),
                            units::format_day_short(round.day));
        }
    }
    if (!own_dates.empty())
        text += fmt::format("\nOn days of their own, because they must wait: {}.", own_dates);
    text += reach_text(choice.recommended.schedule, setting);
    text += fmt::format(
        "\nSpray at {}. {} courses were tried; every treatment in them is one the safety check permits.\n",
        units::show(setting.strength), choice.courses_tried);
    std::set<std::string> passed;
    for (const plan::LeftOut& left_out : choice.recommended.schedule.left_out) {
        if (left_out.method == meant) passed.insert(animal_name(setting.with.collection, left_out.animal));
    }
    if (!passed.empty()) {
        std::string names;
        for (const std::string& name : passed) names += (names.empty() ? "" : ", ") + name;
        text += wrap(fmt::format("Not {} in at least one round, with a gentler method instead where one "
                                 "is permitted: {}.",
                                 soaks ? "soaked" : "sprayed", names),
                     "", "");
    }
    return text;
}

namespace {

bool are_alike(const mixing::Batch& a, const mixing::Batch& b) {
    return a.made_on == b.made_on && a.recipe.total == b.recipe.total && a.recipe.stock == b.recipe.stock;
}

/// One batch or several bottles alike, made on the same day.
std::string batch_text(const worklist::BatchSheet& sheet, std::size_t bottles, units::Display display,
                       bool exact) {
    const mixing::Batch& batch = sheet.batch;
    std::string text = fmt::format("Batch of {}{}: {}{}, {} drops of mild dish soap; use until {}\n",
                                   units::format_day_short(batch.made_on),
                                   bottles > 1 ? fmt::format(", {} bottles", bottles) : "",
                                   bottles > 1 ? "each " : "", units::show(batch.recipe.total, display),
                                   batch.wetting_drops, units::format_day_short(batch.discard_by));
    text += sheet.measured ? steps_text(*sheet.measured, batch.recipe.total, display)
                           : "  " + sheet.cannot_measure + "\n";
    return exact ? text + "  " + unrounded_text(batch.recipe) : text;
}

std::string batches_text(const std::vector<worklist::BatchSheet>& batches, units::Display display,
                         bool exact) {
    std::string text;
    for (auto first = batches.begin(); first != batches.end();) {
        const auto next = std::find_if_not(
            first, batches.end(), [&](const auto& other) { return are_alike(first->batch, other.batch); });
        text += batch_text(*first, static_cast<std::size_t>(next - first), display, exact);
        first = next;
    }
    return text;
}

constexpr int figures_of_a_share = 2;
constexpr int figures_unrounded = 12;

std::string show_share(units::Volume volume, bool exact) {
    return units::show_number(units::in_millilitres(volume), exact ? figures_unrounded : figures_of_a_share);
}

std::string animals_text(const worklist::Shopping& shopping, bool exact) {
    if (shopping.animals.empty()) return {};
    Table table({"ANIMAL", "EACH TIME", "RANGE", "TIMES"});
    for (const worklist::AnimalNeed& need : shopping.animals) {
        table.add(
            {need.animal.text(), show_share(need.each.likely, exact) + " mL",
             fmt::format("{} to {} mL", show_share(need.each.low, exact), show_share(need.each.high, exact)),
             std::to_string(need.times)});
    }
    return table.text();
}

/// With no more figures than the measuring of the batches leaves, errors added up.
std::string show_all_stock(const worklist::Shopping& shopping, units::Display display) {
    units::Volume error;
    for (const worklist::BatchSheet& sheet : shopping.batches) {
        if (!sheet.measured || sheet.measured->first) return units::show(shopping.totals.stock, display);
        error += (sheet.measured->measurement.high - sheet.measured->measurement.low) / 2;
    }
    return show_within(shopping.totals.stock, error);
}

std::string enclosures_text(const worklist::Shopping& shopping, bool exact) {
    if (shopping.enclosures.empty()) return {};
    Table table({"ENCLOSURE", "EACH SPRAYING", "SPRAYINGS", "DAMP AGAIN", "DAYS"});
    for (const worklist::EnclosureNeed& need : shopping.enclosures) {
        table.add({need.enclosure.text(), show_share(need.each, exact) + " mL",
                   std::to_string(need.sprayings), show_share(need.upkeep, exact) + " mL a day",
                   std::to_string(need.damp_days)});
    }
    return table.text();
}

}  // namespace

std::string shares_text(const worklist::Shopping& shopping, bool exact) {
    return heading("Spray for each animal and enclosure, without spare") + animals_text(shopping, exact) +
           "\n" + enclosures_text(shopping, exact);
}

std::string shopping_text(const worklist::Shopping& shopping, const worklist::Bench& bench,
                          units::Display display, bool exact) {
    std::string text = heading("What to mix and buy");
    text += fmt::format(
        "Stock: ivermectin {}, a plain solution with no other drug in it. Check the label: if it says "
        "anything "
        "else, give the strength with --stock and what it is with --stock-is.\n",
        fmt::format("{} mg/mL",
                    units::show_number(units::in_milligrams_per_millilitre(bench.stock.strength), 4)));
    text += batches_text(shopping.batches, display, exact);
    text += fmt::format("In all: {} of spray from {} of stock.\n",
                        units::show(shopping.totals.spray, display), show_all_stock(shopping, display));
    if (exact)
        text += fmt::format("Unrounded: {} mL of spray from {} mL of stock.\n",
                            show_share(shopping.totals.spray, true), show_share(shopping.totals.stock, true));
    if (shopping.totals.purchase) {
        const mixing::Purchase& purchase = *shopping.totals.purchase;
        text += fmt::format("Buy {} x {}{}\n", purchase.number, units::show(purchase.package.volume, display),
                            purchase.cost ? ": " + mixing::show(*purchase.cost) : "");
        if (shopping.totals.cost_per_animal)
            text += fmt::format("That is {} for each animal sprayed.\n",
                                mixing::show(*shopping.totals.cost_per_animal));
    }
    text +=
        "Shake before every use: ivermectin hardly dissolves in water. Keep dark. Never down the drain, on "
        "soil or into water.\n";
    return text;
}

std::string cautions_text(const std::vector<safety::Caution>& cautions) {
    std::string text;
    for (const safety::Caution& caution : cautions)
        text +=
            wrap(words::say(caution.what) + " " + source_note(caution.source, caution.tag), "  ! ", "    ");
    return text;
}

namespace {

/// What is not done today, one line for each reason: whom it concerns and what is not done.
std::string passed_over_text(const worklist::Worklist& list, const Collection& collection) {
    if (list.passed_over.empty()) return {};
    std::vector<std::pair<std::string, std::vector<std::string>>> by_reason;
    for (const worklist::PassedOver& over : list.passed_over) {
        const std::string who =
            over.animal.empty() ? over.enclosure.text() : animal_name(collection, over.animal);
        const std::string reason = words::say_with_remedy(over.why);
        auto found = std::find_if(by_reason.begin(), by_reason.end(),
                                  [&](const auto& row) { return row.first == reason; });
        if (found == by_reason.end()) found = by_reason.insert(by_reason.end(), {reason, {}});
        found->second.push_back(fmt::format("{} ({})", who, records::to_text(over.method)));
    }
    std::string text = heading("Not done today, and why");
    for (const auto& [reason, whom] : by_reason) text += wrap(join(whom) + ": " + reason, "  - ", "    ");
    return text;
}

bool has_open_check(const worklist::Worklist& list) {
    return std::any_of(list.tasks.begin(), list.tasks.end(), [](const worklist::Task& task) {
        return task.kind == worklist::TaskKind::check && task.state == worklist::TaskState::open;
    });
}

}  // namespace

namespace {

std::string questions_text(const worklist::Worklist& list, const Collection& collection) {
    std::string text;
    for (const worklist::ShedQuestion& question : list.questions) {
        text += wrap(
            fmt::format("{} has been cloudy since {}. Has it shed?", animal_name(collection, question.animal),
                        units::format_day_short(question.since)),
            "  ? ", "    ");
        for (const char* const answer :
             {"shed: \"record shed {} shed --on DAY\"", "still cloudy: \"record shed {} cloudy\"",
              "no longer cloudy, no shed seen: \"record shed {} clear\""})
            text += wrap(fmt::format(fmt::runtime(answer), question.animal.text()), "      ", "        ");
    }
    return text;
}

std::string enclosure_name(const Collection& collection, const records::EnclosureId& id) {
    const auto found = collection.enclosures.find(id);
    return found == collection.enclosures.end() || found->second.name.empty() ? id.text()
                                                                              : found->second.name;
}

/// "Tub A 01: Ada"
std::string who_is_in(const Collection& collection, const records::EnclosureId& id) {
    std::vector<std::string> animals;
    for (const auto& [animal, state] : collection.animals) {
        if (state.enclosure == id) animals.push_back(animal_name(collection, animal));
    }
    return enclosure_name(collection, id) + (animals.empty() ? "" : ": " + join(animals));
}

char mark_of(worklist::TaskState state) {
    switch (state) {
        case worklist::TaskState::open: return ' ';
        case worklist::TaskState::done: return 'x';
        case worklist::TaskState::skipped: return '/';
    }
    return ' ';
}

std::string task_line(const worklist::Task& task, units::Display display) {
    std::string line = words::say(task.what);
    if (task.amount) line += fmt::format(", about {}", units::show(*task.amount, display));
    if (!task.agent.empty())
        line += fmt::format("{} {} {}", task.amount ? " of" : ",", task.agent, units::show(task.strength));
    if (task.planned < task.day)
        line += toned(Tone::caution,
                      fmt::format(" (late: planned for {})", units::format_day_short(task.planned)));
    if (!task.skipped_because.empty()) line += " (skipped: " + task.skipped_because + ")";
    return line;
}

/// Rooms, and in them enclosures, in the order of the work.
std::string tasks_text(const worklist::Worklist& list, const Collection& collection, units::Display display) {
    std::string text;
    records::RoomId room;
    records::EnclosureId enclosure;
    int number = 0;
    for (const worklist::Task& task : list.tasks) {
        if (task.kind == worklist::TaskKind::hygiene) {
            text += wrap("== " + words::say(task.what) + " ==", "      ", "         ");
            enclosure = {};
            continue;
        }
        if (task.room != room && !task.room.empty()) {
            room = task.room;
            text += wrap(toned(Tone::good, room_name(collection, room)), "  ", "  ");
        }
        if (task.enclosure != enclosure && !task.enclosure.empty())
            text += wrap(who_is_in(collection, task.enclosure), "    ", "      ");
        enclosure = task.enclosure;
        text += wrap(task_line(task, display), fmt::format("{:3} [{}] ", ++number, mark_of(task.state)),
                     "        ");
        text += wrap(toned(Tone::quiet, task.key), "        ", "        ");
    }
    return text;
}

/// Those somebody published or practises before what we assume.
std::string worklist_cautions(const worklist::Worklist& list, bool details) {
    constexpr std::size_t told = 6;
    if (list.cautions.empty()) return {};
    std::vector<safety::Caution> cautions = list.cautions;
    std::stable_partition(cautions.begin(), cautions.end(),
                          [](const safety::Caution& one) { return one.tag != evidence::Tag::assumption; });
    const std::size_t number = cautions.size();
    if (!details && number > told + 1) cautions.resize(told);
    std::string text = heading("Read this first") + cautions_text(cautions);
    if (cautions.size() < number)
        text += fmt::format("  and {} more: \"today --details\".\n", number - cautions.size());
    return text;
}

}  // namespace

std::string worklist_text(const worklist::Worklist& list, const Collection& collection,
                          units::Display display, bool details) {
    const std::string late = late_text(list.late, collection);
    std::string text = heading("Work for " + units::format_day_short(list.day));
    if (list.tasks.empty()) {
        text += questions_text(list, collection) + "Nothing to do today.";
        return late + text +
               (list.next_day ? " Next: " + units::format_day_short(*list.next_day) + ".\n" : "\n");
    }
    text = late + worklist_cautions(list, details) + text + questions_text(list, collection) +
           tasks_text(list, collection, display) + passed_over_text(list, collection);
    text += "\nTick with \"done KEY\", pass over with \"skip KEY --because REASON\".";
    if (has_open_check(list))
        text +=
            " A check is answered: \"done KEY --found none\", or \"done KEY --found 2-10 --where "
            "on-animal\".";
    if (list.next_day) text += " Next work: " + units::format_day_short(*list.next_day) + ".";
    return text + "\n";
}

}  // namespace mitefall::formats
