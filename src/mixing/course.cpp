#include "mixing/course.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "mixing/check_amounts.h"
#include "mixing/dose.h"
#include "units/text.h"
#include "units/whole_days.h"

namespace mitefall::mixing {
namespace {

using base::fail;
using base::invalid;
using base::Result;

using NeedByDay = std::map<units::Day, units::Volume>;

Result<void> add_damp_upkeep(const DampPaper& damp, const evidence::Tables& tables, NeedByDay& needs) {
    constexpr units::Days longest{366};
    if (auto fault = refuse_area(damp.area, "area of damp paper")) return fail(*fault);
    if (damp.last < damp.first || damp.last - damp.first > longest) {
        return fail(invalid("the damp days are not in order",
                            units::format_day(damp.first) + " to " + units::format_day(damp.last),
                            "from an earlier to a later day, at most a year", "correct the days"));
    }
    const units::Volume daily = tables.spray("redampen_per_area").value * damp.area;
    for (units::Day day = damp.first; day <= damp.last; day += units::Days(1)) {
        const bool is_sprayed =
            std::find(damp.sprayed.begin(), damp.sprayed.end(), day) != damp.sprayed.end();
        if (!is_sprayed) needs[day] += daily;
    }
    return {};
}

Result<NeedByDay> sum_needs(const CourseRequest& request, const evidence::Tables& tables) {
    NeedByDay needs;
    for (const SprayDay& spraying : request.sprayings) {
        const auto volume = spray_needed(spraying, tables);
        if (!volume) return fail(volume.error());
        needs[spraying.day] += *volume;
    }
    for (const DampPaper& damp : request.damp) {
        if (auto added = add_damp_upkeep(damp, tables, needs); !added) return fail(added.error());
    }
    std::erase_if(needs, [](const auto& need) { return !(need.second > units::Volume{}); });
    return needs;
}

Result<units::Share> spare_of(const CourseRequest& request, const evidence::Tables& tables) {
    const units::Share spare = request.spare.value_or(tables.part("spare").value);
    const double part = units::as_fraction(spare);
    if (part >= 0 && part <= 1) return spare;
    return fail(invalid("the spare is not possible", fmt::format("{}", part), "0 to 1 of the need",
                        "correct the spare"));
}

Result<Batch> make_batch(const CourseRequest& request, units::Day made_on, units::Day last_day,
                         units::Volume volume, const evidence::Tables& tables) {
    const auto recipe = mix(request.stock, volume, request.target, made_on);
    if (!recipe) return fail(recipe.error());
    const auto drops = wetting_drops(volume, tables);
    if (!drops) return fail(drops.error());
    return Batch{made_on, last_day, *recipe, *drops};
}

Result<std::optional<units::Volume>> bottle_of(const CourseRequest& request) {
    if (!request.bottle) return std::nullopt;
    if (auto fault = refuse_volume(*request.bottle, "volume of the bottle")) return fail(*fault);
    return request.bottle;
}

/// Takes the needs of as many days as one bottle may serve: within its discard date and, where there is a
/// limit, its size. Always at least one day.
units::Volume take_needs(NeedByDay::const_iterator& need, const NeedByDay& needs, units::Day last_day,
                         std::optional<units::Volume> most) {
    units::Volume volume;
    const auto first = need;
    for (; need != needs.end() && need->first <= last_day; ++need) {
        if (most && need != first && volume + need->second > *most) break;
        volume += need->second;
    }
    return volume;
}

/// One batch, or several alike when it does not fit a bottle.
Result<void> add_batches(const CourseRequest& request, units::Day made_on, units::Volume volume,
                         const evidence::Tables& tables, std::vector<Batch>& batches) {
    constexpr double most_bottles = 10000;
    constexpr double rounding = 1e-9;
    const double bottles = request.bottle ? std::ceil(volume / *request.bottle - rounding) : 1;
    if (!(bottles <= most_bottles)) {
        return fail(invalid("more bottles than anybody mixes on a day", units::show(*request.bottle, {}),
                            fmt::format("{} bottles", most_bottles), "use a larger bottle"));
    }
    const double number = std::max(1.0, bottles);
    const units::Day last_day = discard_by(made_on, request.preserved, request.stock.expires, tables);
    auto batch = make_batch(request, made_on, last_day, volume / number, tables);
    if (!batch) return fail(batch.error());
    for (double i = 0; i < number; ++i) batches.push_back(*batch);
    return {};
}

Result<std::vector<Batch>> plan_batches(const CourseRequest& request, const NeedByDay& needs,
                                        const evidence::Tables& tables) {
    const auto spare = spare_of(request, tables);
    if (!spare) return fail(spare.error());
    const auto bottle = bottle_of(request);
    if (!bottle) return fail(bottle.error());
    const double with_spare = 1 + units::as_fraction(*spare);
    std::optional<units::Volume> most;
    if (*bottle) most = **bottle / with_spare;
    std::vector<Batch> batches;
    for (auto need = needs.begin(); need != needs.end();) {
        const units::Day made_on = need->first;
        if (auto usable = check_stock(request.stock, made_on); !usable) return fail(usable.error());
        const units::Day last_day = discard_by(made_on, request.preserved, request.stock.expires, tables);
        const units::Volume volume = take_needs(need, needs, last_day, most);
        if (auto added = add_batches(request, made_on, volume * with_spare, tables, batches); !added)
            return fail(added.error());
    }
    return batches;
}

std::size_t most_animals_on_a_day(const CourseRequest& request) {
    std::map<units::Day, std::size_t> animals;
    std::size_t most = 0;
    for (const SprayDay& spraying : request.sprayings) {
        most = std::max(most, animals[spraying.day] += spraying.animals.size());
    }
    return most;
}

Result<void> add_purchase(const CourseRequest& request, CourseTotals& totals) {
    if (request.packages.empty()) return {};
    const auto purchase = choose_packages(totals.stock, request.packages);
    if (!purchase) return fail(purchase.error());
    totals.purchase = *purchase;
    const auto animals = static_cast<long long>(most_animals_on_a_day(request));
    if (!purchase->cost || animals == 0) return {};
    const auto share = purchase->cost->split(animals);
    if (!share) return fail(share.error());
    totals.cost_per_animal = *share;
    return {};
}

}  // namespace

units::Day discard_by(units::Day made_on, bool preserved, std::optional<units::Day> stock_expires,
                      const evidence::Tables& tables) {
    const auto limit = preserved ? tables.time("discard_preserved") : tables.time("discard_unpreserved");
    const units::Day by_age = made_on + units::at_most_days(limit.value);
    return stock_expires ? std::min(by_age, *stock_expires) : by_age;
}

Result<int> wetting_drops(units::Volume spray, const evidence::Tables& tables) {
    if (auto fault = refuse_volume(spray, "volume of spray")) return fail(*fault);
    const double drops =
        units::as_number(tables.number("wetting_drops_per_litre").value) * units::in_litres(spray);
    constexpr double most = 1e6;
    if (!(drops <= most)) {
        return fail(
            invalid("more spray than anybody mixes", units::show(spray, {}), "a million drops of soap"));
    }
    return std::max(1, static_cast<int>(std::lround(drops)));
}

Result<units::Volume> spray_needed(const SprayDay& spraying, const evidence::Tables& tables) {
    if (auto fault = refuse_area(spraying.bedding, "floor area to spray")) return fail(*fault);
    units::Volume volume = tables.spray("spray_per_area").value * spraying.bedding;
    for (const units::Mass mass : spraying.animals) {
        const auto mist = mist_volume(mass, tables);
        if (!mist) return fail(mist.error());
        volume += mist->likely;
    }
    return volume;
}

Result<CourseTotals> plan_mixing(const CourseRequest& request, const evidence::Tables& tables) {
    const auto needs = sum_needs(request, tables);
    if (!needs) return fail(needs.error());
    if (needs->empty()) {
        return fail(invalid("there is nothing to spray in this course", "",
                            "at least one animal or floor area", "choose what to spray"));
    }
    auto batches = plan_batches(request, *needs, tables);
    if (!batches) return fail(batches.error());
    CourseTotals totals;
    for (const auto& [day, volume] : *needs) totals.needs.push_back({day, volume});
    totals.batches = std::move(*batches);
    for (const Batch& batch : totals.batches) {
        totals.spray += batch.recipe.total;
        totals.stock += batch.recipe.stock;
    }
    if (auto bought = add_purchase(request, totals); !bought) return fail(bought.error());
    return totals;
}

}  // namespace mitefall::mixing
