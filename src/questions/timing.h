#pragma once

#include "questions/plan.h"
#include "service/why_days.h"

namespace mitefall::questions {

struct WhyDaysOf : service::WhyDaysOptions, CourseOf {};

[[nodiscard]] inline Option<WhyDaysOf> days_of_rounds() {
    const auto read = [](WhyDaysOf& into, const Value& said) -> base::Result<void> {
        for (const std::string& day : std::get<std::vector<std::string>>(said)) {
            const auto parsed = units::parse_day(day);
            if (!parsed) return base::fail(parsed.error());
            into.days.push_back(*parsed);
        }
        return {};
    };
    return read_by<WhyDaysOf>({"rounds", "--rounds"}, Type::days,
                              "Other days for the rounds still to come, all of them, in order: "
                              "2026-11-29,2026-12-06. Nothing is recorded",
                              std::vector<std::string>(), read);
}

[[nodiscard]] inline Question<WhyDaysOf> why_days() {
    using O = WhyDaysOf;
    return {"why-days",
            "Why a course has these days: what each round catches, what passes under it, and what other days "
            "would do",
            together<O>(plan_asked_about<O>(),
                        together<O>({days_of_rounds(),
                                     text<O>({"enclosure", "--enclosure"}, &O::enclosure,
                                             "An enclosure of the course (default: the warmest and the "
                                             "coldest that is lived in)")},
                                    draws_of<O>()))};
}

struct ProcedureOf : CourseOf {
    std::size_t draws = service::usual_draws;
    std::uint64_t seed = 1;
    std::function<bool(double)> progress;
};

[[nodiscard]] inline Question<ProcedureOf> procedure() {
    using O = ProcedureOf;
    return {"procedure", "Treat, look, and treat again on a find: the chance that the whole of it ends clear",
            together<O>(plan_asked_about<O>(), draws_of<O>())};
}

}  // namespace mitefall::questions
