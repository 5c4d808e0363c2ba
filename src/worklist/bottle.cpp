#include "worklist/bottle.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace mitefall::worklist {
namespace {

std::optional<mixing::Money> per_litre(const mixing::Money& price, units::Volume volume) {
    const double minor =
        std::ceil(static_cast<double>(price.minor_units()) / units::in_litres(volume) - 1e-9);
    constexpr double most = 1e15;
    if (!(minor >= 0) || minor > most) return std::nullopt;
    const auto money = mixing::Money::make(static_cast<long long>(minor), price.currency());
    return money ? std::optional(*money) : std::nullopt;
}

ReadyToUse ready_from(const mixing::Label& label, const safety::Reckoned& reckoned) {
    ReadyToUse ready;
    ready.strength = std::min(reckoned.strength, reckoned.used_at);
    ready.parts = reckoned.strength / ready.strength;
    if (label.pack) ready.volume = *label.pack * ready.parts;
    if (label.price && ready.volume) ready.price_per_litre = per_litre(*label.price, *ready.volume);
    return ready;
}

}  // namespace

Bottle make_bottle(mixing::Label label, safety::LabelRuling ruling) {
    Bottle bottle{std::move(label), std::move(ruling), std::nullopt, std::nullopt};
    if (bottle.ruling.reckoned && bottle.ruling.usable != safety::Usable::nothing)
        bottle.ready = ready_from(bottle.label, *bottle.ruling.reckoned);
    return bottle;
}

bool is_for_the_course(const Bottle& bottle) {
    return bottle.ruling.usable == safety::Usable::animal_once_thinned && bottle.ruling.reckoned.has_value();
}

Bench course_bench(const Bottle& bottle) {
    Bench bench;
    bench.stock.strength = bottle.ruling.reckoned->strength;
    bench.stock_is = mixing::StockForm::plain;
    bench.tools = mixing::usual_syringes();
    if (bottle.label.pack) bench.packages.push_back({*bottle.label.pack, bottle.label.price});
    return bench;
}

}  // namespace mitefall::worklist
