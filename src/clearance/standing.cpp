#include "clearance/standing.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.h"

namespace mitefall::clearance {
namespace {

using branching::Question;
using forecast::ForecastRequest;
using scenario::Event;
using scenario::Scenario;

/// ln P(clear | clean) is the difference of two sweeps: these tolerances leave a risk, be it 1e-8 a mite,
/// right to half a hundredth of itself (tested; docs/decisions/0064).
constexpr branching::Tolerance fine{1e-5, 1e-11};
/// A risk is off by up to 5e-7 (tested; docs/decisions/0078): of risks and checks like these not to be seen.
constexpr branching::Tolerance quick = branching::for_show;
constexpr double plain_risk = 1e-3;
constexpr double plain_clean = 1e-2;
constexpr std::size_t tries_in_vain = 3;  // in a row, and nobody tries the quick way any more

constexpr std::array detection_keys{"detection_light", "detection_nest_part", "detection_light_soak",
                                    "detection_light_wipe", "detection_paper_trap"};

const evidence::Cited<double>& row_of(const evidence::Tables& tables, std::string_view key) {
    const auto found = std::find_if(tables.rows().begin(), tables.rows().end(),
                                    [&](const auto& row) { return row.cited.key == key; });
    base::expects(found != tables.rows().end(), "the evidence has every chance to see a mite");
    return found->cited;
}

/// ln P(a | b) from ln P(a and b) and ln P(b), free of the rounding that would lift a chance above 1. Where b
/// cannot be, a draw counts for nothing whatever its chance.
double given(double log_both, double log_condition) {
    if (std::isinf(log_condition)) return log_condition;
    const double log_chance = log_both - log_condition;
    return log_chance > 0 ? 0 : log_chance;
}

/// P(every check clean), over the draws.
double chance_of_clean(const Draws& draws) {
    double chance = 0;
    for (std::size_t i = 0; i < draws.prior.size(); ++i)
        chance += draws.prior[i] * std::exp(draws.log_clean[i]);
    return chance;
}

bool is_plain(const Draws& draws) {
    return chance_of_clean(draws) >= plain_clean && sureness_of(draws).risk.mean >= plain_risk;
}

}  // namespace

Enquiry::Enquiry(const Standing& standing, Progress progress, std::size_t expected)
    : standing_(standing),
      progress_(std::move(progress)),
      expected_(std::max<std::size_t>(1, expected)),
      blocks_(standing.blocks),
      tolerance_(fine) {
    base::expects(standing.scenario != nullptr && standing.ensemble != nullptr,
                  "a standing has a scenario and draws");
    base::expects(standing.from <= standing.today, "the last sighting is not after today");
}

ForecastRequest Enquiry::request_for(const Scenario& scenario, double to) const {
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = standing_.ensemble;
    request.start = standing_.start;
    request.from = standing_.from;
    request.to = to;
    request.blocks = blocks_;
    request.tolerance = tolerance_;
    return request;
}

std::vector<double> Enquiry::ask(ForecastRequest request, Question question) {
    if (progress_) {
        request.progress = [this](double share) {
            const double done = static_cast<double>(done_) + (is_counted_ ? share : 0);
            return progress_(std::min(1.0, done / static_cast<double>(expected_)));
        };
    }
    auto chances = cancelled_ ? std::nullopt : forecast::log_chances(request, question);
    if (is_counted_) ++done_;
    if (!chances) {
        cancelled_ = true;
        return {};
    }
    return std::move(*chances);
}

std::vector<double> Enquiry::log_clean(const Scenario& scenario, double to) {
    const ForecastRequest request = request_for(scenario, to);
    if (has_checks(scenario, standing_.from, to)) return ask(request, Question::any_check_fails);
    return std::vector<double>(forecast::draw_weights(request).size(), 0.0);
}

std::optional<Draws> Enquiry::draws_at(const Scenario& scenario, double to,
                                       const std::vector<scenario::PlaceIndex>& counted,
                                       const std::vector<double>& known) {
    ForecastRequest request = request_for(scenario, to);
    Draws draws;
    draws.log_clean = known.empty() ? log_clean(scenario, to) : known;
    draws.prior = forecast::draw_weights(request);
    request.counted = counted;
    draws.log_clear = ask(request, Question::no_survivor);
    if (cancelled_) return std::nullopt;
    for (std::size_t i = 0; i < draws.log_clear.size(); ++i)
        draws.log_clear[i] = given(draws.log_clear[i], draws.log_clean[i]);
    return draws;
}

std::optional<Draws> Enquiry::draws_by(branching::Tolerance tolerance, const Scenario& scenario, double to,
                                       const std::vector<scenario::PlaceIndex>& counted,
                                       std::vector<double>& known) {
    tolerance_ = tolerance;
    auto draws = draws_at(scenario, to, counted, known);
    tolerance_ = fine;
    if (draws) known = draws->log_clean;
    return draws;
}

std::optional<Draws> Enquiry::draws_to_tell(const Scenario& scenario, double to,
                                            const std::vector<scenario::PlaceIndex>& counted,
                                            KnownClean* known) {
    KnownClean of_this;
    KnownClean& clean = known == nullptr ? of_this : *known;
    if (too_fine_ < tries_in_vain) {
        auto draws = draws_by(quick, scenario, to, counted, clean.quick);
        const bool is_enough = !draws || is_plain(*draws);
        too_fine_ = is_enough ? 0 : too_fine_ + 1;
        if (is_enough) return draws;
        is_counted_ = false;
    }
    auto draws = draws_by(fine, scenario, to, counted, clean.fine);
    is_counted_ = true;
    return draws;
}

Scenario with_events(const Scenario& scenario, std::vector<Event> added) {
    Scenario both = scenario;
    both.events.insert(both.events.end(), added.begin(), added.end());
    std::stable_sort(both.events.begin(), both.events.end(),
                     [](const Event& a, const Event& b) { return a.time < b.time; });
    return both;
}

bool has_checks(const Scenario& scenario, double from, double to) {
    return std::any_of(scenario.events.begin(), scenario.events.end(), [&](const Event& event) {
        return event.time >= from && event.time <= to &&
               std::holds_alternative<scenario::CleanCheck>(event.what);
    });
}

mites::Ensemble with_detection_at(mites::Ensemble ensemble, const evidence::Tables& tables,
                                  DetectionEnd end) {
    for (const char* const key : detection_keys) {
        const auto& row = row_of(tables, key);
        const double value = end == DetectionEnd::low ? row.low : row.high;
        const mites::ParameterMember member = mites::find_parameter(key);
        ensemble.mode.*member = value;
        for (mites::MiteParameters& draw : ensemble.draws) draw.*member = value;
    }
    return ensemble;
}

}  // namespace mitefall::clearance
