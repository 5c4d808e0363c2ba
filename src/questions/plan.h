#pragma once

#include <algorithm>

#include "questions/draws.h"

namespace mitefall::questions {

/// What every chance of a course is scored by.
[[nodiscard]] inline std::vector<Option<service::PlanOptions>> scoring() {
    using O = service::PlanOptions;
    return together<O>(
        together<O>({number<O>({"horizon_days", "--horizon"}, &O::horizon_days, {1, 365},
                               "Days from now at which nothing may be alive")
                         .in("days")},
                    draws_of<O>()),
        {number<O>({"target", "--target"}, &O::target, {0.01, 0.99999}, "Chance of clear wanted, in percent")
             .in_percent()});
}

/// Some days of the week; all of them where none is said.
[[nodiscard]] inline Option<service::PlanOptions> days_of_the_week() {
    using O = service::PlanOptions;
    static const std::vector<std::string> days{"sun", "mon", "tue", "wed", "thu", "fri", "sat"};
    const auto read = [](O& into, const Value& said) -> base::Result<void> {
        const auto& names = std::get<std::vector<std::string>>(said);
        if (names.empty()) return {};
        into.limits.free_days.reset();
        for (std::size_t d = 0; d < days.size(); ++d)
            into.limits.free_days.set(d, std::find(names.begin(), names.end(), days[d]) != names.end());
        return {};
    };
    auto option =
        read_by<O>({"days", "--days"}, Type::names, "Days of the week on which you can do a round: sat,sun",
                   std::vector<std::string>(), read);
    option.choices = days;
    return option;
}

[[nodiscard]] inline Option<service::PlanOptions> preference() {
    using O = service::PlanOptions;
    const std::vector<std::pair<std::string, plan::Prefer>> all{
        {"burden", plan::Prefer::burden}, {"work", plan::Prefer::work}, {"cost", plan::Prefer::cost}};
    return choice<O>({"prefer", "--prefer"}, &O::prefer, all,
                     "Of the plans that reach the target, the one with the least burden on the animals, the "
                     "least work or the least spray to pay for");
}

[[nodiscard]] inline Option<service::PlanOptions> only_these() {
    const auto only = [](service::PlanOptions& into, const Value& said) -> base::Result<void> {
        for (const std::string& enclosure : std::get<std::vector<std::string>>(said))
            into.limits.only.insert(records::EnclosureId(enclosure));
        return {};
    };
    return read_by<service::PlanOptions>({"only", "--only"}, Type::names,
                                         "Treat these enclosures, or all of these rooms, and nothing else",
                                         std::vector<std::string>(), only);
}

[[nodiscard]] inline Option<service::PlanOptions> spare_tubs() {
    using O = service::PlanOptions;
    const auto read = [](O& into, const Value& said) -> base::Result<void> {
        into.limits.spare_tubs = static_cast<int>(std::get<std::uint64_t>(said));
        return {};
    };
    auto option = read_by<O>({"spare_tubs", "--spare-tubs"}, Type::whole,
                             "Clean plain tubs at hand in each round: as many animals go into one, where it "
                             "helps most",
                             std::uint64_t{0}, read);
    option.limits = Limits{0, 1000};
    return option;
}

[[nodiscard]] inline Option<service::PlanOptions> clear_heads() {
    using O = service::PlanOptions;
    const auto read = [](O& into, const Value& said) -> base::Result<void> {
        into.limits.clear_heads = std::get<bool>(said);
        return {};
    };
    return read_by<O>({"clear_heads", "--clear-heads"}, Type::flag,
                      "You are ready to go over heads and eyes after each round: used where it is worth it",
                      false, read);
}

[[nodiscard]] inline Option<service::PlanOptions> without_spray() {
    using O = service::PlanOptions;
    const auto read = [](O& into, const Value& said) -> base::Result<void> {
        into.limits.without_spray = std::get<bool>(said);
        return {};
    };
    return read_by<O>({"without_spray", "--without-spray"}, Type::flag,
                      "No spray is at hand: soaks, paper, clean tubs and heads alone", false, read);
}

[[nodiscard]] inline Question<service::PlanOptions> plan() {
    using O = service::PlanOptions;
    Question<O> question{"plan", "Plans worth choosing between, with the chance that each clears every mite",
                         scoring()};
    question.options.push_back(
        flag<O>({"prevent", "--prevent"}, &O::prevent,
                "No mite was seen: what a look and what a treatment would be worth, for a new animal "
                "(--only ENCLOSURE) or after contact with the outside"));
    question.options.push_back(only_these());
    question.options.push_back(days_of_the_week());
    question.options.push_back(preference());
    question.options.push_back(spare_tubs());
    question.options.push_back(clear_heads());
    question.options.push_back(without_spray());
    question.options.push_back(
        strength<O>({"strength", "--strength"}, &O::strength,
                    "Strength of the ivermectin spray (default: 10 mg/L, the strongest published)"));
    return question;
}

[[nodiscard]] inline Question<service::PlanOptions> rescore() {
    return {"rescore", "The chance that what is left of the adopted plan clears every mite", scoring()};
}

[[nodiscard]] inline Question<service::PlanOptions> late() {
    return {"late", "What is late, and the chance if it is done today or the rest of the course is moved",
            scoring()};
}

[[nodiscard]] inline Question<service::PlanOptions> matters() {
    return {"matters", "Which assumptions the chance of clear depends on most, and what to find out",
            scoring()};
}

/// As `plan`: what is permitted then is searched for the same wishes.
[[nodiscard]] inline Question<service::PlanOptions> what_helps() {
    Question<service::PlanOptions> question = plan();
    question.name = "what-helps";
    question.help = "What stands in the way of a better chance, and how many points each change would bring";
    return question;
}

/// A course to be counted day by day: of a finished plan job, or the adopted one.
struct CourseOf {
    std::string job;
    std::string plan = "recommended";
};

/// The plan of a finished job, or the adopted one.
template <class O>
[[nodiscard]] std::vector<Option<O>> plan_asked_about() {
    return {text<O>({"job", ""}, &O::job, "A finished plan job; without one, the adopted plan"),
            text<O>({"plan", ""}, &O::plan, "recommended, or the number of an alternative counted from 0")};
}

[[nodiscard]] inline Question<CourseOf> course() {
    using O = CourseOf;
    return {"course", "How many mites to expect day by day, and the chance of clear, under a plan",
            plan_asked_about<O>()};
}

/// Of a plan of a finished job.
[[nodiscard]] inline Question<CourseOf> each_round() {
    using O = CourseOf;
    auto options = plan_asked_about<O>();
    options.front().help = "A finished plan job";
    return {"each-round", "What each round of a plan buys: its chance with fewer rounds and with more",
            std::move(options)};
}

/// Facts that are not on record.
struct ConsequenceOf {
    std::string facts;  ///< as JSON
};

[[nodiscard]] inline Question<ConsequenceOf> consequence() {
    using O = ConsequenceOf;
    auto facts = text<O>({"facts", ""}, &O::facts, "Facts as `record` takes them");
    facts.type = Type::facts;
    return {"consequence", "The chances before, and with facts that are not on record", {facts}};
}

}  // namespace mitefall::questions
