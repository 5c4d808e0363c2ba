#include "mixing/dilution.h"

#include "mixing/check_amounts.h"
#include "units/text.h"

namespace mitefall::mixing {

using base::fail;
using base::invalid;
using base::Result;

Result<Recipe> mix(units::Strength stock, units::Volume batch, units::Strength target) {
    if (auto fault = refuse_strength(stock, "strength of the stock")) return fail(*fault);
    if (auto fault = refuse_volume(batch, "volume of the batch")) return fail(*fault);
    if (auto fault = refuse_strength(target, "target strength")) return fail(*fault);
    if (target > stock) {
        return fail(invalid("the target is stronger than the stock", units::show(target),
                            "the stock has " + units::show(stock),
                            "lower the target or use a stronger stock"));
    }
    const units::Volume stock_volume = batch * (target / stock);
    return Recipe{stock_volume, batch - stock_volume, batch, target};
}

Result<Recipe> mix(const Stock& stock, units::Volume batch, units::Strength target, units::Day mixed_on) {
    if (auto usable = check_stock(stock, mixed_on); !usable) return fail(usable.error());
    return mix(stock.strength, batch, target);
}

Result<units::Strength> strength_of(units::Strength stock, units::Volume stock_volume, units::Volume total) {
    if (auto fault = refuse_strength(stock, "strength of the stock")) return fail(*fault);
    if (auto fault = refuse_volume(stock_volume, "volume of stock")) return fail(*fault);
    if (auto fault = refuse_volume(total, "volume of the bottle")) return fail(*fault);
    if (stock_volume > total) {
        return fail(invalid("the bottle is smaller than the stock it must hold", units::show(total, {}),
                            units::show(stock_volume, {}) + " of stock",
                            "take a larger bottle or less stock"));
    }
    return stock * (stock_volume / total);
}

Result<void> check_stock(const Stock& stock, units::Day day) {
    if (auto fault = refuse_strength(stock.strength, "strength of the stock")) return fail(*fault);
    if (stock.expires && day > *stock.expires) {
        return fail(invalid("the stock has expired", units::format_day(day),
                            "last day of use on its label: " + units::format_day(*stock.expires),
                            "buy fresh stock; take the old one to a pharmacy or hazardous-waste point"));
    }
    return {};
}

}  // namespace mitefall::mixing
