#include "service/case_forecast.h"

namespace mitefall::service {

base::Result<CaseAnswer> sweep_case(const formats::CaseFile& given,
                                    const std::function<bool(double)>& progress) {
    forecast::ForecastRequest request = formats::request_of(given);
    request.only_mode = true;
    CaseAnswer answer;
    answer.clear_at_mode = forecast::forecast_clear(request)->clear_at_mode;
    request.only_mode = false;
    request.progress = progress;
    answer.ensemble = *forecast::forecast_clear(request);
    if (!answer.ensemble.checks_can_be_clean) {
        return base::fail({base::ErrorKind::unsupported, "the checks cannot have found nothing",
                           "less than 1e-300 for these mites", "a chance that can be told from 0",
                           "give fewer mites, fewer checks, or a smaller \"detection\"", "/checks"});
    }
    return answer;
}

simulator::SimulationResult simulate_case(const formats::CaseFile& given, std::uint32_t runs,
                                          std::uint64_t seed) {
    simulator::SimulationRequest request;
    request.scenario = &given.scenario;
    request.fixed = given.ensemble.fixed;
    request.draw = given.ensemble.mode;
    request.from = given.from;
    request.to = given.to;
    request.runs = runs;
    request.seed = seed;
    if (const auto* const known = std::get_if<forecast::KnownStart>(&given.start)) {
        request.start = *known;
    } else {
        request.start = forecast::expected_start(given.scenario, request.fixed, request.draw,
                                                 std::get<forecast::SightedStart>(given.start), given.from);
        request.numbers = simulator::StartingNumbers::poisson_means;
    }
    for (double time = given.from; time <= given.to; time += 1) request.report_times.push_back(time);
    return simulator::simulate(request);
}

}  // namespace mitefall::service
