#include "service/worklist.h"

#include "service/adopted.h"

namespace mitefall::service {
namespace {

/// What is late as of each day in question is judged as things stood then.
worklist::Late late_of(const Situation& situation, const plan::Setting& setting,
                       const worklist::Worklist& list) {
    std::vector<std::unique_ptr<safety::Case>> cases;
    std::map<units::Day, const safety::Case*> then;
    for (const units::Day day : worklist::days_in_question(situation.collection())) {
        cases.push_back(std::make_unique<safety::Case>(safety::prepare(
            situation.collection_then(day), situation.knowledge().tables, situation.knowledge().taxa)));
        then[day] = cases.back().get();
    }
    return worklist::late_on(setting, list, then);
}

Result<worklist::Worklist> make_tasks(const Situation& situation) {
    const auto& tracing = situation.tracing();
    if (!tracing && tracing.error().kind != base::ErrorKind::not_found) return fail(tracing.error());
    auto list = worklist::make_worklist(situation.setting_of_work());
    const bool says_nothing =
        list.tasks.empty() && list.questions.empty() && list.notes.empty() && !list.next_day;
    if (!situation.collection().plan && says_nothing) return fail(no_plan());
    list.entry = situation.entry();
    return list;
}

Result<worklist::Worklist> add_late(const Situation& situation, Result<worklist::Worklist> list) {
    if (list) list->late = late_of(situation, situation.setting_of_work(), *list);
    return list;
}

}  // namespace

const Situation::Work& tasks_of(const Situation& situation) {
    return situation.tasks([&] { return make_tasks(situation); });
}

const Situation::Work& work_of(const Situation& situation) {
    return situation.work([&] { return add_late(situation, tasks_of(situation)); });
}

Result<worklist::Worklist> worklist_of(const Situation& situation) { return work_of(situation); }

Result<worklist::Overview> overview_of(const Situation& situation) {
    const auto& tracing = situation.tracing();
    if (!tracing && tracing.error().kind != base::ErrorKind::not_found) return fail(tracing.error());
    const auto& list = work_of(situation);
    if (!list && list.error().kind != base::ErrorKind::not_found) return fail(list.error());
    return worklist::look_over(situation.journal(), situation.collection(),
                               tracing ? *tracing : exposure::Tracing{}, list ? *list : worklist::Worklist{},
                               exposed_from);
}

std::vector<worklist::WorkAhead> next_work_of(const Situation& situation, const worklist::Overview& today) {
    if (!today.next_day || today.due > 0) return {};
    const auto& then = tasks_of(situation.on_next(*today.next_day));
    return then ? worklist::sum_up(*then) : std::vector<worklist::WorkAhead>{};
}

}  // namespace mitefall::service
