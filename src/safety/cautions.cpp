#include "safety/cautions.h"

#include <fmt/format.h>

#include "safety/gates.h"
#include "safety/methods.h"
#include "units/text.h"

namespace mitefall::safety {
namespace {

using evidence::Tables;
using evidence::Tag;
using records::Method;

using Cautions = std::vector<Caution>;

void warn_keeper(const Tables& tables, Cautions& cautions) {
    cautions.push_back(
        caution("Wear gloves, air the room, keep away from food; whoever is pregnant or has asthma "
                "stays out; wash the clothes afterwards",
                practice()));
    cautions.push_back(
        caution("This does not replace a veterinarian; the product's label and the law of your country "
                "come first (US: 21 CFR part 530)",
                published(tables, "extra-label-us", Tag::memory)));
    cautions.push_back(
        caution("In the European Union animals may be given medicines off the label only as Regulation "
                "(EU) 2019/6 allows",
                published(tables, "extra-label-eu", Tag::memory)));
}

void warn_of_ivermectin_mix(const Tables& tables, Cautions& cautions) {
    cautions.push_back(
        caution("Only from a plain solution of ivermectin alone: never a pour-on, a paste or a combination "
                "with other drugs",
                practice()));
    const auto solubility = tables.strength("solubility_ivermectin");
    cautions.push_back(
        caution(fmt::format("Only about {} dissolves, the rest floats: shake before every use, keep dark",
                            units::show(solubility.value)),
                basis_of(solubility)));
    cautions.push_back(
        caution("Leftover mix never goes to drain, soil or water: ivermectin kills water fleas near "
                "6 ng/L. Take it to a pharmacy or hazardous-waste point",
                published(tables, "daphnia-ivermectin", Tag::memory)));
    cautions.push_back(
        caution("Eggs survive it: the mites that hatch later need the next round", practice()));
}

void warn_of_water_dish(const Tables& tables, Cautions& cautions) {
    const auto longest = tables.time("water_out_max");
    cautions.push_back(caution(
        fmt::format("Nothing is sprayed or wetted with the water dish in: take it out first, put it back as "
                    "soon as all is dry, never leave it out longer than {}, and offer a drink outside the "
                    "enclosure meanwhile; look for wrinkled skin and sunken eyes",
                    days_text(longest)),
        basis_of(longest)));
}

void warn_of_wet_bedding(const Tables& tables, Cautions& cautions) {
    const auto longest = tables.time("damp_days");
    cautions.push_back(
        caution("Wet bedding inflames the skin: look at the belly scales before every wetting; at the first "
                "blister or redness stop, lay dry paper and ask a veterinarian",
                published(tables, "veterinary-handbook", Tag::memory)));
    cautions.push_back(
        caution(fmt::format("Paper is wet with spray on at most {} of one course", days_text(longest)),
                basis_of(longest)));
}

void warn_of_head(Cautions& cautions) {
    cautions.push_back(
        caution("Never spray head, eyes, mouth or vent: mist lightly from the neck back and spread it by "
                "hand; never soak the animal in the mix",
                practice()));
}

void warn_of_permethrin(const Tables& tables, Cautions& cautions) {
    const auto airing = tables.time("pyrethroid_airing");
    cautions.push_back(
        caution("Never on the animal: pyrethroids have killed reptiles, and cool animals bear far less "
                "(green anoles: LC50 77.6 mg/L at 20 C, above 300 mg/L at 35 C)",
                published(tables, "talent-2005", Tag::memory)));
    cautions.push_back(
        caution(fmt::format("Dry and aired for {} hours ({} at least) before an animal returns",
                            units::show_number(units::in_hours(airing.value), 3),
                            units::show_number(units::in_hours(airing.low), 3)),
                basis_of(airing)));
    cautions.push_back(
        caution("Cats, fish, amphibians and invertebrates anywhere in the house must not come near it; "
                "leftovers never go to drain, soil or water",
                published(tables, "veterinary-handbook", Tag::memory)));
}

void warn_of_soak(const Tables& tables, Cautions& cautions) {
    const auto temperature = tables.temperature("soak_temperature");
    const auto time = tables.time("soak_time");
    cautions.push_back(caution(
        fmt::format(
            "Plain water of {} to {} by a thermometer, before the animal goes in and every ten minutes",
            units::show_number(units::in_celsius(temperature.low), 3), units::show(temperature.high, {})),
        basis_of(temperature)));
    cautions.push_back(caution(
        fmt::format("No deeper than the animal is thick, with something to rest its chin on above the "
                    "water; {} minutes at most, never left alone, fresh water for each animal",
                    units::show_number(units::in_hours(time.value) * 60, 3)),
        basis_of(time)));
    cautions.push_back(
        caution("Stop at once if it gapes, bubbles at the nose, rolls, goes limp or cannot hold its head up: "
                "out, dry and warm, and ask a veterinarian. Thin, weak or badly breathing animals are not "
                "soaked without one",
                published(tables, "veterinary-handbook", Tag::memory)));
}

void warn_of_mites_on_head(Method method, const Tables& tables, Cautions& cautions) {
    cautions.push_back(caution("The mites climb to the head: look at eyes, chin and heat pits afterwards",
                               our_assumption()));
    if (method == Method::soak) warn_of_soak(tables, cautions);
}

void warn_of_prescription(const Tables& tables, Cautions& cautions) {
    cautions.push_back(
        caution("Only as a veterinarian directed for this very animal; no dose is worked out here",
                published(tables, "extra-label-us", Tag::memory)));
}

void warn_of_substrate(Cautions& cautions) {
    cautions.push_back(
        caution("Tie the old bedding into a bag inside the room and take it out of the house at once: "
                "eggs and mites are in it",
                practice()));
}

void warn_of_oil(Cautions& cautions) {
    cautions.push_back(
        caution("Home remedy with little behind it: it smothers some mites, leaves eggs and "
                "those in the enclosure, and makes the skin shed badly",
                practice()));
    cautions.push_back(
        caution("Plain food oil only, a thin film, never on nostrils, mouth, eyes or vent; "
                "wipe off what is left and keep the animal warm",
                practice()));
}

void warn_of_soap(Cautions& cautions) {
    cautions.push_back(
        caution("Home remedy with little behind it: a drop of mild, unscented soap in lukewarm "
                "water, rinsed off at once, never on the head, not more than once a week",
                practice()));
}

void warn_of_heat(const Tables& tables, Cautions& cautions) {
    const auto temperature = tables.temperature("heat_objects_temperature");
    const auto time = tables.time("heat_objects_time");
    cautions.push_back(caution(
        fmt::format("No animal near it. {} all through for {} hours; measure inside the thickest "
                    "piece; cooled down and dry before the animal returns",
                    units::show(temperature.value, {}), units::show_number(units::in_hours(time.value), 3)),
        basis_of(temperature)));
    cautions.push_back(
        caution("Fire: stay with it, nothing that melts, no open flame, no steam on cables", practice()));
}

void warn_of_cold(const Tables& tables, Cautions& cautions) {
    const auto temperature = tables.temperature("freeze_temperature");
    const auto time = tables.time("freeze_time");
    cautions.push_back(
        caution(fmt::format("Objects only, in a closed bag, at {} for {} once frozen through; a related mite "
                            "outlived 5 days at -15 C",
                            units::show(temperature.value, {}), days_text(time)),
                basis_of(time)));
}

void warn_of_dust(const Tables& tables, Cautions& cautions) {
    const auto time = tables.time("dust_time");
    cautions.push_back(
        caution(fmt::format("Only in the emptied enclosure and along the walls of the room, for about {} "
                            "hours, then wiped and vacuumed out; never on an animal or where one lies",
                            units::show_number(units::in_hours(time.value), 3)),
                basis_of(time)));
    cautions.push_back(
        caution("The dust harms lungs, yours and theirs: wear a mask, take every animal out of "
                "the air of it; it kills invertebrates",
                practice()));
}

void warn_of_predators(const Tables& tables, Cautions& cautions) {
    const auto distance = tables.time("predator_wait");
    cautions.push_back(
        caution("Small trials only; they eat eggs and young mites in the substrate, not the "
                "mites on the animal, and do not end an outbreak alone",
                published(tables, "veterinary-handbook", Tag::memory)));
    cautions.push_back(caution("Not together with acaricides or dust: " + days_text(distance) +
                                   " after the last of them at the earliest",
                               basis_of(distance)));
}

}  // namespace

std::vector<Caution> cautions_for(Method method, const Tables& tables) {
    Cautions cautions;
    switch (method) {
        case Method::spray_animal:
            warn_of_head(cautions);
            warn_of_water_dish(tables, cautions);
            warn_of_ivermectin_mix(tables, cautions);
            break;
        case Method::spray_bedding:
            warn_of_water_dish(tables, cautions);
            warn_of_wet_bedding(tables, cautions);
            warn_of_ivermectin_mix(tables, cautions);
            break;
        case Method::soak:
        case Method::wipe: warn_of_mites_on_head(method, tables, cautions); break;
        case Method::change_substrate: warn_of_substrate(cautions); break;
        case Method::treat_room:
        case Method::permethrin_empty: warn_of_permethrin(tables, cautions); break;
        case Method::fipronil_wipe: warn_of_head(cautions); break;
        case Method::oil_wipe: warn_of_oil(cautions); break;
        case Method::soap_wash: warn_of_soap(cautions); break;
        case Method::heat_objects: warn_of_heat(tables, cautions); break;
        case Method::freeze_objects: warn_of_cold(tables, cautions); break;
        case Method::desiccant_dust: warn_of_dust(tables, cautions); break;
        case Method::predatory_mites: warn_of_predators(tables, cautions); break;
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin: warn_of_prescription(tables, cautions); break;
    }
    if (agent_of(method) != Agent::none) warn_keeper(tables, cautions);
    return cautions;
}

}  // namespace mitefall::safety
