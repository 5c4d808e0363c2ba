#include "formats/text/worklist.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/cautions.h"
#include "formats/text/late.h"
#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "formats/text/tasks.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using records::Collection;

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

/// Whoever was looked at today, or reacted.
std::string signs_question(const Collection& collection) {
    std::vector<std::string> asked;
    for (const auto& [id, animal] : collection.animals) {
        if (collection.asks_for_signs(animal)) asked.push_back(animal_name(collection, id));
    }
    if (asked.empty()) return {};
    return wrap(fmt::format("Looked at today: {}. Any sign that means a veterinarian today?", join(asked)),
                "  ? ", "    ") +
           wrap("none of them: \"record signs ANIMAL none\"", "      ", "        ") +
           wrap("\"record signs ANIMAL SIGN ...\" with: " + records::list_texts<records::Sign>(), "      ",
                "        ");
}

std::string questions_text(const worklist::Worklist& list, const Collection& collection) {
    std::string text = signs_question(collection);
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

std::string notes_text(const worklist::Worklist& list) {
    std::string text;
    for (const worklist::Note& note : list.notes) text += wrap(words::say(note.what), "  ! ", "    ");
    return text;
}

/// Where one is to be rung.
std::string vet_line(const worklist::Worklist& list, const Collection& collection) {
    const bool is_rung = std::any_of(list.tasks.begin(), list.tasks.end(), [](const worklist::Task& task) {
        return task.kind == worklist::TaskKind::vet && task.state == worklist::TaskState::open;
    });
    return is_rung ? wrap(veterinarian_text(collection), "  ! ", "    ") : std::string();
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

std::string first_of_all_text(const worklist::Worklist& list, const Collection& collection) {
    std::string text;
    for (const worklist::Task& task : list.tasks) {
        if (task.kind != worklist::TaskKind::vet) continue;
        if (text.empty()) text = heading("First of all");
        text += wrap(toned(Tone::grave, words::say(task.what)), "  ! ", "    ");
    }
    if (!text.empty()) text += wrap(veterinarian_text(collection), "  ", "    ");
    return text;
}

std::string worklist_text(const worklist::Worklist& list, const Collection& collection,
                          units::Display display, bool details) {
    const std::string late = late_text(list.late, collection);
    std::string text = heading("Work for " + units::format_day_short(list.day));
    if (list.tasks.empty()) {
        text += questions_text(list, collection) + notes_text(list) + "Nothing to do today.";
        return late + text +
               (list.next_day ? " Next: " + units::format_day_short(*list.next_day) + ".\n" : "\n");
    }
    text = late + worklist_cautions(list, details) + text + questions_text(list, collection) +
           notes_text(list) + vet_line(list, collection) + tasks_text(list, collection, display, details) +
           passed_over_text(list, collection);
    text += "\nTick with \"done KEY\", pass over with \"skip KEY --because REASON\".";
    if (has_open_check(list))
        text +=
            " A check is answered: \"done KEY --found none\", or \"done KEY --found 2-10 --where "
            "on-animal\".";
    if (list.next_day) text += " Next work: " + units::format_day_short(*list.next_day) + ".";
    return text + "\n";
}

}  // namespace mitefall::formats
