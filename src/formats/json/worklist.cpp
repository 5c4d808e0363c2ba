#include "formats/json/worklist.h"

#include <set>
#include <string>

#include "formats/json/late.h"
#include "formats/json/parts.h"
#include "formats/json/statement.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

Json entry_or_null(records::FactId entry) { return entry == 0 ? Json(nullptr) : Json(entry); }

Json task_json(const worklist::Task& task) {
    return {{"key", task.key},
            {"kind", worklist::to_text(task.kind)},
            {"day", date(task.day)},
            {"planned", date(task.planned)},
            {"room", name(task.room)},
            {"enclosure", name(task.enclosure)},
            {"animals", names(task.animals)},
            {"danger", worklist::to_text(task.danger)},
            {"rule", task.what.id},
            {"args", arguments_json(task.what)},
            {"text", words::say(task.what)},
            {"method", task.treatment ? Json(records::to_text(task.treatment->method())) : Json(nullptr)},
            {"thing", task.thing ? name(task.thing->id) : Json(nullptr)},
            {"amount_ml", task.amount ? millilitres_json(*task.amount) : Json(nullptr)},
            {"strength_mg_per_l", strength_or_null(task.strength)},
            {"agent", text_or_null(task.agent)},
            {"overdue", task.overdue},
            {"state", worklist::to_text(task.state)},
            {"skipped_because", text_or_null(task.skipped_because)},
            {"entry", entry_or_null(task.entry)},
            {"cautions", list(task.cautions, caution_json)},
            {"steps", list(task.steps, [](const statement::Statement& step) { return step.id; })}};
}

/// Each step of the day's tasks once.
Json steps_json(const std::vector<worklist::Task>& tasks) {
    Json steps = Json::array();
    std::set<std::string> told;
    for (const worklist::Task& task : tasks) {
        for (const statement::Statement& step : task.steps) {
            if (told.insert(std::string(step.id)).second)
                steps.push_back({{"id", step.id}, {"text", words::say(step)}});
        }
    }
    return steps;
}

Json passed_over_json(const worklist::PassedOver& passed) {
    return {{"enclosure", name(passed.enclosure)},
            {"animal", name(passed.animal)},
            {"method", records::to_text(passed.method)},
            {"reason", words::say_with_remedy(passed.why)},
            {"why", why_json(passed.why)}};
}

/// What may be answered: the states a shed may be recorded with.
Json shed_question_json(const worklist::ShedQuestion& question) {
    return {{"about", "shed"},
            {"animal", name(question.animal)},
            {"enclosure", name(question.enclosure)},
            {"since", date(question.since)}};
}

Json note_json(const worklist::Note& note) {
    return {{"rule", note.what.id},
            {"args", arguments_json(note.what)},
            {"text", words::say(note.what)},
            {"animals", names(note.animals)}};
}

}  // namespace

Json worklist_json(const worklist::Worklist& list_of_day) {
    return {{"day", date(list_of_day.day)},
            {"next_day", date(list_of_day.next_day)},
            {"entry", list_of_day.entry},
            {"questions", list(list_of_day.questions, shed_question_json)},
            {"notes", list(list_of_day.notes, note_json)},
            {"late", late_json(list_of_day.late)},
            {"tasks", list(list_of_day.tasks, task_json)},
            {"passed_over", list(list_of_day.passed_over, passed_over_json)},
            {"cautions", list(list_of_day.cautions, caution_json)},
            {"steps", steps_json(list_of_day.tasks)}};
}

}  // namespace mitefall::formats
