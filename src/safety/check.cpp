#include "safety/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/contract.h"
#include "safety/gates.h"
#include "safety/methods.h"

namespace mitefall::safety {
namespace {

using records::Method;

const records::Enclosure& enclosure_of(const records::Collection& collection, const records::Animal& animal) {
    const auto found = collection.enclosures.find(animal.enclosure);
    if (found == collection.enclosures.end()) {
        base::expects(false,
                      fmt::format("animal \"{}\" lives in an enclosure of the collection", animal.id.text()));
    }
    return found->second;
}

std::span<const Application> proposed_for(const records::AnimalId& animal, const CourseSoFar& course) {
    const auto found = course.find(animal);
    return found == course.end() ? std::span<const Application>{}
                                 : std::span<const Application>(found->second);
}

Findings ask_all_gates(const Question& question) {
    Findings findings;
    const Request& request = question.request;
    check_record(question.with, findings);
    check_taxon(question, findings);
    check_weight(question, findings);
    check_shed(question, findings);
    check_condition(question, findings);
    check_meals(question, findings);
    check_signs(question, findings);
    check_unknown_states(question, findings);
    check_deaths(question, findings);
    check_strength(question.with, request, &question.animal, findings);
    check_prescription(question, findings);
    check_fipronil(question, findings);
    check_repeats(question, findings);
    check_two_agents(question, findings);
    check_injection(question, findings);
    check_oil(question, findings);
    check_predators(question, findings);
    check_water(question, findings);
    check_damp_paper(question, findings);
    check_tub(question, findings);
    check_eggs(question.with, question.home, request.method, findings);
    check_air(question.with, question.home.room, request.method, question.animal.id, findings);
    check_housemates(question, findings);
    check_room_is_empty(question, findings);
    return findings;
}

/// The day from which every reason to wait has passed, if all of them name one.
std::optional<units::Day> latest_wait(const std::vector<Reason>& reasons) {
    std::optional<units::Day> latest;
    for (const Reason& reason : reasons) {
        if (reason.ruling != Ruling::wait_until) continue;
        if (!reason.until) return std::nullopt;
        latest = std::max(latest.value_or(*reason.until), *reason.until);
    }
    return latest;
}

void sort_by_severity(std::vector<Reason>& reasons) {
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const Reason& a, const Reason& b) { return a.ruling > b.ruling; });
}

/// The first day on which nothing asks to wait any more; none if that is not known. A wait may end in
/// another.
std::optional<units::Day> settle_wait(const Question& question, std::optional<units::Day> until) {
    constexpr int most_waits = 100;
    for (int i = 0; until && i < most_waits; ++i) {
        Request later = question.request;
        later.day = *until;
        const Question then{question.with, question.animal,   question.home, question.taxon,
                            later,         question.proposed, question.told};
        const std::vector<Reason> reasons = ask_all_gates(then).reasons;
        const bool waits = std::any_of(reasons.begin(), reasons.end(), [](const Reason& reason) {
            return reason.ruling == Ruling::wait_until;
        });
        if (!waits) return until;
        until = latest_wait(reasons);
    }
    return std::nullopt;
}

Verdict sum_up(const Question& question, Findings findings) {
    sort_by_severity(findings.reasons);
    Verdict verdict;
    verdict.animal = question.animal.id;
    verdict.method = question.request.method;
    verdict.ruling = findings.reasons.empty() ? Ruling::allowed : findings.reasons.front().ruling;
    if (verdict.ruling == Ruling::wait_until) {
        verdict.until = settle_wait(question, latest_wait(findings.reasons));
    }
    verdict.reasons = std::move(findings.reasons);
    verdict.cautions = std::move(findings.cautions);
    return verdict;
}

units::Strength strength_for(Method method, units::Strength spray, const evidence::Tables& tables) {
    if (is_ivermectin_spray(method)) return spray;
    return agent_of(method) == Agent::pyrethroid ? tables.strength("permethrin_strength").value
                                                 : units::Strength{};
}

}  // namespace

Case::Case(const records::Collection& of, const evidence::Tables& figures, Survey who)
    : collection(of),
      tables(figures),
      survey(std::move(who)),
      wet(wet_limits(figures)),
      cautions(std::make_shared<const GeneralCautions>(general_cautions(figures))) {}

Case prepare(const records::Collection& collection, const evidence::Tables& tables,
             const evidence::Taxa& taxa) {
    return {collection, tables, survey(collection, taxa)};
}

Verdict judge_apart(const Case& with, const records::Animal& animal, const Request& request,
                    const CourseSoFar& course) {
    const auto taxon = with.survey.taxa.find(animal.id);
    base::expects(taxon != with.survey.taxa.end(), "the animal judged is one of the collection");
    const std::span<const Application> proposed = proposed_for(animal.id, course);
    const std::vector<Told> told = told_about(with, animal, proposed);
    const records::Enclosure& home = enclosure_of(with.collection, animal);
    const Question question{with, animal, home, taxon->second, request, proposed, told};
    Findings findings = ask_all_gates(question);
    apply_direction(question, findings);
    return sum_up(question, std::move(findings));
}

Verdict judge(const Case& with, const records::Animal& animal, const Request& request,
              const CourseSoFar& course) {
    Verdict verdict = judge_apart(with, animal, request, course);
    const std::vector<Caution>& general = with.cautions->at(request.method);
    verdict.cautions.insert(verdict.cautions.end(), general.begin(), general.end());
    return verdict;
}

Verdict judge(const records::Collection& collection, const records::Animal& animal, Method method,
              units::Strength strength, units::Day day, const evidence::Tables& tables,
              const evidence::Taxa& taxa, const CourseSoFar& course) {
    return judge(prepare(collection, tables, taxa), animal, {method, strength, day}, course);
}

std::vector<Verdict> judge_all(const records::Collection& collection, units::Strength spray, units::Day day,
                               const evidence::Tables& tables, const evidence::Taxa& taxa,
                               const CourseSoFar& course) {
    const Case with = prepare(collection, tables, taxa);
    std::vector<Verdict> verdicts;
    for (const auto& [id, animal] : collection.animals) {
        for (const records::MethodRow& row : records::method_rows) {
            verdicts.push_back(
                judge(with, animal, {row.method, strength_for(row.method, spray, tables), day}, course));
        }
    }
    return verdicts;
}

std::vector<Reason> judge_empty(const Case& with, const records::Enclosure& enclosure,
                                const Request& request) {
    Findings findings;
    check_record(with, findings);
    check_strength(with, request, nullptr, findings);
    check_air(with, enclosure.room, request.method, {}, findings);
    check_predators_in(with, enclosure, request, {}, findings);
    check_tub_for(with, enclosure, request.method, findings);
    check_eggs(with, enclosure, request.method, findings);
    sort_by_severity(findings.reasons);
    return findings.reasons;
}

}  // namespace mitefall::safety
