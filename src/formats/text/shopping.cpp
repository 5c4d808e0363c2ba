#include "formats/text/shopping.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/bench.h"
#include "formats/text/layout.h"
#include "formats/text/shares.h"

namespace mitefall::formats {
namespace {

bool are_alike(const mixing::Batch& a, const mixing::Batch& b) {
    return a.made_on == b.made_on && a.recipe.total == b.recipe.total && a.recipe.stock == b.recipe.stock;
}

/// One batch or several bottles alike, made on the same day.
std::string batch_text(const worklist::BatchSheet& sheet, std::size_t bottles, const std::string& stock,
                       units::Display display, bool exact) {
    const mixing::Batch& batch = sheet.batch;
    std::string text = fmt::format("Batch of {}{}: {}{}, {} drops of mild dish soap; use until {}\n",
                                   units::format_day_short(batch.made_on),
                                   bottles > 1 ? fmt::format(", {} bottles", bottles) : "",
                                   bottles > 1 ? "each " : "", units::show(batch.recipe.total, display),
                                   batch.wetting_drops, units::format_day_short(batch.discard_by));
    text += sheet.measured ? steps_text(*sheet.measured, stock, batch.recipe.total, display)
                           : "  " + sheet.cannot_measure + "\n";
    return exact ? text + "  " + unrounded_text(batch.recipe) : text;
}

std::string batches_text(const std::vector<worklist::BatchSheet>& batches, const std::string& stock,
                         units::Display display, bool exact) {
    std::string text;
    for (auto first = batches.begin(); first != batches.end();) {
        const auto next = std::find_if_not(
            first, batches.end(), [&](const auto& other) { return are_alike(first->batch, other.batch); });
        text += batch_text(*first, static_cast<std::size_t>(next - first), stock, display, exact);
        first = next;
    }
    return text;
}

/// With no more figures than the measuring of the batches leaves, errors added up.
std::string show_all_stock(const worklist::Shopping& shopping, units::Display display) {
    units::Volume error;
    for (const worklist::BatchSheet& sheet : shopping.batches) {
        if (!sheet.measured || sheet.measured->first) return units::show(shopping.totals.stock, display);
        error += (sheet.measured->measurement.high - sheet.measured->measurement.low) / 2;
    }
    return show_within(shopping.totals.stock, error);
}

std::string supply_text(const worklist::Supply& supply) {
    using worklist::SupplyKind;
    switch (supply.what) {
        case SupplyKind::gloves: return fmt::format("gloves, {} pairs", supply.count);
        case SupplyKind::paper:
            return fmt::format("paper for {} floors, {:.1f} m2", supply.count,
                               units::in_square_centimetres(supply.area) / 10000);
        case SupplyKind::bags: return fmt::format("bags to tie, {}", supply.count);
        case SupplyKind::clean_tubs: return fmt::format("clean plain tubs, {}", supply.count);
        case SupplyKind::soak_tub: return "a tub to soak in";
        case SupplyKind::cloths: return fmt::format("cloths, {}", supply.count);
        case SupplyKind::cotton_buds: return fmt::format("cotton buds, at least {}", supply.count);
        case SupplyKind::spray_bottle: return "a spray bottle";
        case SupplyKind::syringe: return "a measuring syringe";
    }
    return {};
}

std::string supplies_text(const std::vector<worklist::Supply>& supplies) {
    std::vector<std::string> all;
    for (const worklist::Supply& supply : supplies) all.push_back(supply_text(supply));
    return fmt::format("Beside the drug: {}.\n", fmt::join(all, "; "));
}

}  // namespace

std::string shopping_text(const worklist::Shopping& shopping, const worklist::Bench& bench,
                          units::Display display, bool exact) {
    std::string text = heading("What to mix and buy") + supplies_text(shopping.supplies);
    if (shopping.batches.empty()) return text + "Nothing is sprayed: there is nothing to mix.\n";
    text += fmt::format(
        "Stock: ivermectin {}, a plain solution with no other drug in it. Check the label: if it says "
        "anything "
        "else, give the strength with --stock and what it is with --stock-is.\n",
        show_bottle(bench));
    text += batches_text(shopping.batches, show_bottle(bench), display, exact);
    text += fmt::format("In all: {} of spray from {} of stock.\n",
                        units::show(shopping.totals.spray, display), show_all_stock(shopping, display));
    if (exact)
        text += fmt::format("Unrounded: {} mL of spray from {} mL of stock.\n",
                            show_share(shopping.totals.spray, true), show_share(shopping.totals.stock, true));
    if (shopping.totals.purchase) {
        const mixing::Purchase& purchase = *shopping.totals.purchase;
        text += fmt::format("Buy {} x {}{}\n", purchase.number, units::show(purchase.package.volume, display),
                            purchase.cost ? ": " + mixing::show(*purchase.cost) : "");
        if (shopping.totals.cost_per_animal)
            text += fmt::format("That is {} for each animal sprayed.\n",
                                mixing::show(*shopping.totals.cost_per_animal));
    }
    text +=
        "Shake before every use: ivermectin hardly dissolves in water. Keep dark. Never down the drain, on "
        "soil or into water.\n";
    return text;
}

}  // namespace mitefall::formats
