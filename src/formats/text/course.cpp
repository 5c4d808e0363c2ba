#include "formats/text/course.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.h"
#include "formats/text/layout.h"
#include "units/text.h"

namespace mitefall::formats {
namespace {

using base::Band;
using forecast::CountBands;

constexpr std::size_t places_told = 6;

std::string show_count(double count) {
    return count < worth_telling / 10 ? "0" : units::show_number(count, 2);
}

std::string show_counts(const Band& band) {
    return fmt::format("{} ({} to {})", show_count(band.mean), show_count(band.p10), show_count(band.p90));
}

/// "sighted about 40, tub-2 about 3": where most are on the first day.
std::string places_text(const CourseView& view) {
    std::vector<std::size_t> order;
    for (std::size_t place = 0; place < view.places.size(); ++place) {
        if (view.counts.places[place].front().all.mean >= worth_telling) order.push_back(place);
    }
    const auto mites = [&](std::size_t place) { return view.counts.places[place].front().all.mean; };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return mites(a) > mites(b); });
    std::string text;
    for (std::size_t i = 0; i < std::min(order.size(), places_told); ++i)
        text += (i > 0 ? ", " : "") +
                fmt::format("{} about {}", view.places[order[i]], show_count(mites(order[i])));
    if (order.size() > places_told) text += fmt::format(", {} more places less", order.size() - places_told);
    return text.empty() ? "Nowhere is a hundredth of a mite expected on the first day."
                        : "On the first day: " + text + ".";
}

}  // namespace

std::string course_text(const CourseView& view) {
    std::string text = heading("What to expect, day by day");
    Table table(
        {"DAY", "CLEAR BY THEN", "RANGE", "MITES EXPECTED (RANGE)", "ON ANIMALS", "IN NESTS", "EGGS"});
    const auto& times = view.counts.times;
    for (std::size_t t = 0; t < view.clear_times.size(); ++t) {
        const auto found = std::find(times.begin(), times.end(), view.clear_times[t]);
        base::expects(found != times.end(), "counts for every day of the curve");
        const CountBands& at = view.counts.collection[static_cast<std::size_t>(found - times.begin())];
        const Band& clear = view.clear[t];
        table.add({units::show_number(view.clear_times[t] - view.day_zero, 4), units::show_chance(clear.mean),
                   units::show_chance(clear.p10) + " to " + units::show_chance(clear.p90),
                   show_counts(at.all), show_count(at.on_animals.mean), show_count(at.in_nest.mean),
                   show_count(at.eggs.mean)});
    }
    return text + table.text() +
           wrap(
               "Female mites on average over what is not known, before that day's work; chance in single "
               "births and deaths comes on top. A small average can be a small chance of many.",
               "", "") +
           wrap(places_text(view), "", "");
}

}  // namespace mitefall::formats
