#include "formats/json/course.h"

#include <algorithm>

#include "formats/json/parts.h"

namespace mitefall::formats {
namespace {

using forecast::CountBands;

Json counts_json(const std::vector<double>& times, const std::vector<CountBands>& counts, double day_zero) {
    Json rows = Json::array();
    for (std::size_t t = 0; t < times.size(); ++t) {
        rows.push_back({{"day", number(times[t] - day_zero)},
                        {"all", band_json(counts[t].all)},
                        {"on_animals", band_json(counts[t].on_animals)},
                        {"in_nest", band_json(counts[t].in_nest)},
                        {"eggs", band_json(counts[t].eggs)}});
    }
    return rows;
}

bool is_told(const std::vector<CountBands>& counts) {
    return std::any_of(counts.begin(), counts.end(),
                       [](const CountBands& at) { return at.all.mean >= worth_telling; });
}

}  // namespace

Json course_json(const CourseView& view) {
    Json json{{"counts", counts_json(view.counts.times, view.counts.collection, view.day_zero)}};
    json["places"] = Json::array();
    for (std::size_t place = 0; place < view.places.size(); ++place) {
        const auto& counts = view.counts.places[place];
        if (!is_told(counts)) continue;
        json["places"].push_back({{"place", view.places[place]},
                                  {"counts", counts_json(view.counts.times, counts, view.day_zero)}});
    }
    json["clear_by_day"] = Json::array();
    for (std::size_t t = 0; t < view.clear_times.size(); ++t) {
        json["clear_by_day"].push_back(
            {{"day", number(view.clear_times[t] - view.day_zero)}, {"clear", band_json(view.clear[t])}});
    }
    return json;
}

}  // namespace mitefall::formats
