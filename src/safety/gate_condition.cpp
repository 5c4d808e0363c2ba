#include <algorithm>
#include <string_view>
#include <vector>

#include "safety/agent_words.h"
#include "safety/gates.h"
#include "safety/methods.h"

// Animals that are ill, young, gravid or have reacted to the agent before.
namespace mitefall::safety {
namespace {

using records::Condition;
using records::Method;

/// Whether what the keeper wrote may mean this agent: it names it, or names none of those known here.
bool may_mean(std::string_view written, Agent agent) {
    const std::vector<AgentWord> named = agent_words_in(written);
    return named.empty() || std::any_of(named.begin(), named.end(),
                                        [&](const AgentWord& known) { return known.agent == agent; });
}

bool bars_acaricide(const records::ConditionNoted& noted, Method method) {
    if (noted.condition == Condition::reacted) return may_mean(noted.agent, agent_of(method));
    // Floor and racks are treated, not the animal's enclosure, and nobody is in the room.
    return target_of(method) != Target::room;
}

/// Half an hour in water is too much for a weak animal, and one that breathes badly may drown: both are
/// recorded as sick.
bool bars_handling(Condition condition, Method method) {
    switch (condition) {
        case Condition::sick:
        case Condition::neurological:
        case Condition::gravid: return true;
        case Condition::thin: return method == Method::soak;
        case Condition::dehydrated:
        case Condition::neonate:
        case Condition::reacted: return false;
    }
    return true;
}

/// Oil and soap put more on the animal than water does.
bool bars_home_remedy(const records::ConditionNoted& noted) {
    return noted.condition != Condition::reacted || may_mean(noted.agent, Agent::none);
}

bool bars(const records::ConditionNoted& noted, Method method) {
    if (agent_of(method) != Agent::none) return bars_acaricide(noted, method);
    if (target_of(method) != Target::animal) return false;
    const bool is_home_remedy = method == Method::oil_wipe || method == Method::soap_wash;
    return is_home_remedy ? bars_home_remedy(noted) : bars_handling(noted.condition, method);
}

/// Nothing is done to an animal that has just reacted, not even with plain water.
bool has_just_reacted(const records::DatedValue<records::ConditionNoted>& noted, const Question& question) {
    const auto rest = question.with.tables.time("rest_after_reaction");
    return noted.value.condition == Condition::reacted &&
           days_apart(noted.day, question.request.day) < units::in_days(rest.value);
}

Against against(const records::DatedValue<records::ConditionNoted>& noted) {
    switch (noted.value.condition) {
        case Condition::sick: return says::sick(noted.day);
        case Condition::thin: return says::thin(noted.day);
        case Condition::dehydrated: return says::dehydrated(noted.day);
        case Condition::neonate: return says::neonate(noted.day);
        case Condition::gravid: return says::gravid(noted.day);
        case Condition::neurological: return says::neurological(noted.day);
        case Condition::reacted: break;
    }
    return says::reacted(noted.value.agent, noted.day);
}

}  // namespace

void check_condition(const Question& question, Findings& findings) {
    const Method method = question.request.method;
    for (const auto& noted : question.animal.conditions) {
        const bool is_barred = bars(noted.value, method);
        if (!is_barred && !(target_of(method) == Target::animal && has_just_reacted(noted, question)))
            continue;
        refuse(
            findings, question.with.tables,
            is_barred ? against(noted) : says::rests_after_reaction(noted.value.agent, noted.day),
            noted.value.condition == Condition::gravid ? says::gently_while_gravid() : says::vet_and_paper())
            .since = records::Dated{noted.day, noted.entry};
    }
}

void check_signs(const Question& question, Findings& findings) {
    const records::ConditionNoted as_if{{}, Condition::sick, true, {}, {}};
    if (!bars(as_if, question.request.method)) return;
    for (const auto& sign : question.animal.signs) {
        refuse(findings, question.with.tables, says::sign_present(term(sign.value), sign.day),
               says::vet_today())
            .since = records::Dated{sign.day, sign.entry};
    }
}

namespace {

/// Whether the state would bar it, if it were so.
bool would_bar(records::AskedState state, Method method) {
    switch (state) {
        case records::AskedState::shed: return touches_skin(method) && method != Method::soak;
        case records::AskedState::gravid: return bars({{}, Condition::gravid, true, {}, {}}, method);
        case records::AskedState::newborn: return bars({{}, Condition::neonate, true, {}, {}}, method);
    }
    return true;
}

}  // namespace

void check_unknown_states(const Question& question, Findings& findings) {
    for (const auto& open : question.animal.unknown) {
        if (!would_bar(open.value, question.request.method)) continue;
        refuse(findings, question.with.tables, says::state_not_known(term(open.value), open.day),
               says::tell_state())
            .since = records::Dated{open.day, open.entry};
    }
}

}  // namespace mitefall::safety
