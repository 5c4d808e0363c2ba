#include "safety/cautions.h"

#include "safety/gates.h"
#include "safety/methods.h"

namespace mitefall::safety {
namespace {

using evidence::Tables;
using records::Method;

class Cautions {
  public:
    explicit Cautions(const Tables& tables) : tables_(tables) {}

    void heed(Heed caution) { safety::heed(all_, tables_, std::move(caution)); }

    void of_whoever_treats() {
        heed(says::gloves_and_air());
        heed(says::label_and_law());
        heed(says::law_of_the_union());
    }

    void of_ivermectin_mix() {
        heed(says::plain_solution_only());
        heed(says::shake_before_use(tables_.strength("solubility_ivermectin").value));
        heed(says::leftovers_of_ivermectin());
        heed(says::eggs_survive());
    }

    void of_spray_on_animal() {
        heed(says::not_on_the_head());
        heed(says::dish_out_while_wet(tables_.time("water_out_max").value));
        of_ivermectin_mix();
    }

    void of_spray_on_bedding() {
        heed(says::dish_out_while_wet(tables_.time("water_out_max").value));
        heed(says::wet_bedding_and_skin());
        heed(says::paper_wet_at_most(tables_.time("damp_days").value));
        of_ivermectin_mix();
    }

    void of_permethrin() {
        const auto airing = tables_.time("pyrethroid_airing");
        heed(says::permethrin_not_on_animals());
        heed(says::dry_and_aired(airing.value, airing.low));
        heed(says::permethrin_and_others());
    }

    void of_soak() {
        const auto temperature = tables_.temperature("soak_temperature");
        heed(says::mites_climb_to_the_head());
        heed(says::soak_temperature(temperature.low, temperature.high));
        heed(says::soak_depth_and_time(tables_.time("soak_time").value));
        heed(says::stop_the_soak());
    }

    void of_head() {
        heed(says::head_by_two());
        heed(says::only_plain_lubricant());
        heed(says::leave_eye_caps());
    }

    void of_fresh_tub() {
        heed(says::nothing_comes_along());
        heed(says::tub_is_a_home());
        heed(says::heat_off_until_dry());
        heed(says::wash_hot(tables_.temperature("wash_temperature").value));
        heed(says::bag_the_bedding());
    }

    void of_oil() {
        heed(says::oil_is_a_home_remedy());
        heed(says::plain_oil_only());
    }

    void of_heat() {
        heed(says::heat_all_through(tables_.temperature("heat_objects_temperature").value,
                                    tables_.time("heat_objects_time").value));
        heed(says::fire());
    }

    void of_cold() {
        heed(says::cold_all_through(tables_.temperature("freeze_temperature").value,
                                    tables_.time("freeze_time").value));
    }

    void of_dust() {
        heed(says::dust_in_the_empty(tables_.time("dust_time").value));
        heed(says::dust_and_lungs());
    }

    void of_predators() {
        heed(says::predators_small_trials());
        heed(says::predators_not_with_acaricides(tables_.time("predator_wait").value));
    }

    [[nodiscard]] std::vector<Caution> take() { return std::move(all_); }

  private:
    const Tables& tables_;
    std::vector<Caution> all_;
};

}  // namespace

std::vector<Caution> cautions_for(Method method, const Tables& tables) {
    Cautions cautions(tables);
    switch (method) {
        case Method::spray_animal: cautions.of_spray_on_animal(); break;
        case Method::spray_bedding: cautions.of_spray_on_bedding(); break;
        case Method::soak: cautions.of_soak(); break;
        case Method::wipe: cautions.heed(says::mites_climb_to_the_head()); break;
        case Method::clear_head: cautions.of_head(); break;
        case Method::change_substrate: cautions.heed(says::bag_the_bedding()); break;
        case Method::fresh_tub: cautions.of_fresh_tub(); break;
        case Method::treat_room:
        case Method::permethrin_empty: cautions.of_permethrin(); break;
        case Method::fipronil_wipe: cautions.heed(says::not_on_the_head()); break;
        case Method::oil_wipe: cautions.of_oil(); break;
        case Method::soap_wash: cautions.heed(says::soap_is_a_home_remedy()); break;
        case Method::heat_objects: cautions.of_heat(); break;
        case Method::freeze_objects: cautions.of_cold(); break;
        case Method::desiccant_dust: cautions.of_dust(); break;
        case Method::predatory_mites: cautions.of_predators(); break;
        case Method::oral_afoxolaner:
        case Method::oral_fluralaner:
        case Method::injected_ivermectin: cautions.heed(says::as_directed_only()); break;
    }
    if (agent_of(method) != Agent::none) cautions.of_whoever_treats();
    return cautions.take();
}

GeneralCautions general_cautions(const Tables& tables) {
    GeneralCautions cautions;
    for (const records::MethodRow& row : records::method_rows)
        cautions.emplace(row.method, cautions_for(row.method, tables));
    return cautions;
}

}  // namespace mitefall::safety
