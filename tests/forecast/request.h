#pragma once

#include "forecast/forecast.h"

namespace mitefall::forecast {

/// A question about known mites from day 0 to day `to`. What it asks of must outlive it.
inline ForecastRequest request_of(const scenario::Scenario& scenario, const mites::Ensemble& ensemble,
                                  const KnownStart& start, double to) {
    ForecastRequest request;
    request.scenario = &scenario;
    request.ensemble = &ensemble;
    request.start = start;
    request.to = to;
    return request;
}

}  // namespace mitefall::forecast
