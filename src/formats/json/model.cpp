#include "formats/json/model.h"

#include "formats/json/model_methods.h"

namespace mitefall::formats {
namespace {

Json stages_part() {
    return {
        {"line",
         "Female mites only. egg -> larva -> protonymph-seeking -> protonymph-feeding -> deutonymph -> "
         "adult-seeking-1 -> adult-feeding-1 -> adult-laying-1 -> adult-seeking-2 -> ... -> adult-laying-3."},
        {"substages",
         "Every stage is a chain of equal substages, passed one after another at rate `advance` each; a "
         "newcomer starts in substage 0. Seeking stages have unfed_shape substages, all others "
         "erlang_shape (one whole number per draw)."},
        {"where",
         "Feeding stages are on the animal, all others in the nest. In a room only egg, larva, seeking and "
         "laying stages can be; seeking mites find no animal there. An egg laid in a room becomes a larva "
         "there, and the larva a seeking protonymph."},
        {"end_of_stage",
         "After its last substage a mite enters the next stage; a seeking mite starves instead; a "
         "laying female seeks her next meal with chance next_meal, else dies."},
        {"independence", "Mites do not affect one another; each is followed by itself."}};
}

Json rates_part() {
    return {
        {"day_and_night",
         "Every temperature law is evaluated at the day and at the night temperature and the two "
         "results are averaged. Rooms and enclosures follow the same laws."},
        {"development",
         "rate per day D(T) = 24 * (1/h20 + (1/h30 - 1/h20) * (T - 20) / 10), h20 and h30 in hours "
         "from `development`; never below 0. T is held at plateau_starts above it; above plateau_ends "
         "D is multiplied by max(0, (development_stops - T) / (development_stops - plateau_ends))."},
        {"developing_stages",
         "egg, larva, protonymph-feeding, deutonymph: advance = erlang_shape * mean of D over "
         "day and night; loss = advance * (max(s, 0.001)^(-1 / erlang_shape) - 1), so that the "
         "share s comes through the stage."},
        {"survival",
         "s of larva = larva_survival, of deutonymph = deutonymph_survival, of protonymph-feeding = 1, of "
         "egg = egg_survival_dry + x * (egg_survival_humid - egg_survival_dry) with "
         "x = (humidity - 50) / 35 held in 0..1, humidity in percent."},
        {"pace", "q10 law: pace(T, R) = unfed_life_q10^((min(T, plateau_ends) - R) / 10)."},
        {"seeking_stages",
         "life L = unfed_protonymph_life or unfed_adult_life times unfed_life_dry_factor^y with "
         "y = (85 - humidity) / 54 held in 0..1; advance = unfed_shape * pace(T, 25) / L; loss = 0."},
        {"adult_stages",
         "adult-feeding: advance = erlang_shape * pace(T, adult_reference_temperature) / "
         "adult_feeding_time; adult-laying: the same with laying_time; loss = 0 for both."},
        {"laying",
         "a laying female adds eggs (female ones only) at eggs_per_meal * daughters_per_egg * "
         "pace(T, adult_reference_temperature) / laying_time per day and stays as she is."},
        {"next_meal",
         "after meal m: adult_survival_per_cycle * (meals_per_life - m held in 0..1) for m = 1, 2; 0 "
         "after meal 3."},
        {"finding",
         "a seeking mite in an enclosure with at least one animal leaves its substage for substage 0 of "
         "the feeding stage at rate host_finding_protonymph or host_finding_adult per day, however many "
         "animals there are."}};
}

Json walking_part() {
    return {
        {"who", "Seeking and laying stages walk; they keep their stage and substage."},
        {"out",
         "from an enclosure into its room at rate leaving_rate * w per day, w = (enclosures of the room - 1) "
         "held between 1 and max(1, neighbours). From an enclosure that stands alone nothing leaves."},
        {"in",
         "from a room with enclosures at rate entering_rate per day into one of them, each with equal "
         "chance."},
        {"across", "from a room at rate room_crossing_rate per day into each adjoining room."}};
}

Json events_part() {
    return {
        {"order",
         "Events act at their instant, those of one instant in the order of the case: actions before "
         "checks."},
        {"reach", "on-animal: feeding stages; mobile-nest: all others except eggs; eggs: eggs."},
        {"kill", "each mite reached dies with chance `chance` * `part`."},
        {"residue",
         "mobile-nest mites of the enclosure die at rate level until damp_days are over, then at "
         "level * 2^(-days since / half_life). Of several on one paper the strongest counts at every moment; "
         "residue-gone ends them all; each counts as gone 30 half-lives after it began to fade."},
        {"meal_kill",
         "at once each feeding mite dies with chance c = `chance` * `part`; until `days` are over a seeking "
         "mite that finds an animal, each of them alike, dies instead of feeding with the chance of the "
         "strongest dose in force in it, where each dose is in an animal named with chance 1, else with "
         "chance `part`, by itself. Doses go where their animals go."},
        {"animals",
         "a kill or treatment of named animals: a feeding mite sits on each animal of the enclosure alike "
         "and outlives each kill on its own animal by itself."},
        {"move_animal", "each feeding mite goes along with chance 1 / animals there before the move."},
        {"animal_leaves", "each feeding mite goes with it, out of the model, with chance 1 / animals there."},
        {"contact",
         "each mite reached is carried to the same stage and substage elsewhere with chance `chance`."},
        {"climate", "from then on the new temperatures and humidity hold."},
        {"import", "mites of the stage appear as a Poisson stream of rate_per_day until `days` are over."},
        {"treatments",
         "of one place on one day act together, where the first stands: each method once on the place, at "
         "its "
         "strongest; of one method on one animal the strongest once; parts by one method at one strength add "
         "up to at most 1. New paper comes first, then what is done to the nest, then to animals."},
        {"treatment", effects_of_methods()},
        {"treatment_chances", chances_of_methods()},
        {"spray_strength",
         "of an ivermectin spray of c mg/L: p + w * (h - p), times min(1, c / published_strength_low), with "
         "h not below p, w = 0 "
         "up to S = strength_without_caution, else min(1, ln(c / S) / ln(home_strength / S)). (p, h): on the "
         "animal "
         "kill_spray_on_animal_published, _home; in the nest kill_spray_nest_published_*, "
         "kill_spray_nest_home_* by material; residue level damp_hazard_published, _home; residue "
         "half-life residual_half_life at any strength."}};
}

Json looking_part() {
    return {
        {"detection_per_mite",
         "chance that the usual look-over shows one given mite on the animal: "
         "d = 1 - (1 - detection_light)^(1 / detection_light_mites)."},
        {"check",
         "each feeding mite is seen with chance d (or the check's own `detection`), each adult seeking or "
         "laying with chance d * detection_nest_part (or the check's own `nest_part`), others never. The "
         "answer is given that nothing was seen: P(clear and clean) / P(clean) of each draw, and each draw "
         "counts by its P(clean)."},
        {"start_from_sighting",
         "one mite entered in stage adult-feeding-1, substage 0, days_since_entry before day 0. "
         "Its expected numbers by stage and substage are followed to the sighting and scaled so "
         "that the expected number seen is n. Seen on the animal: d * feeding mites; elsewhere: "
         "d * detection_nest_part * adult seeking and laying mites. The scaled "
         "numbers are means of independent Poisson numbers. Several sightings add up."},
        {"number_seen",
         "n = low * (high / low)^sighting_quantile with (low, high) = (1, 1), (2, 10), (11, 50), "
         "(51, 500) for \"1\", \"2-10\", \"11-50\", \"more\"."}};
}

Json answer_part() {
    return {
        {"question", "chance that no mite of any stage is alive in any place at the horizon."},
        {"backward_equation",
         "v = chance that a mite of a type has a living descendant, itself included, at the "
         "horizon; v = 1 there. Back in time -dv/dt = sum over moves of rate * (v_target - v) - "
         "(loss + hazard) * v + laying * v_egg * (1 - v); moves are substages, stages, walking and "
         "finding; v_target of starvation and of a last meal is 0; at an event v becomes the mixture of "
         "what the mite becomes."},
        {"known_start", "product of (1 - v)^count over the mites there at the start."},
        {"poisson_start", "exp(-sum of mean * v)."},
        {"import", "times exp(-integral of rate * v)."},
        {"distribution",
         "triangular on low, mode, high for every drawn parameter; quantile: with "
         "c = (mode - low) / (high - low), low + sqrt(u (high - low)(mode - low)) for u < c, else "
         "high - sqrt((1 - u)(high - low)(high - mode)); sighting_quantile is uniform on 0..1."},
        {"draws",
         "Sobol points (Joe and Kuo 2008 directions), one coordinate per drawn parameter in the order of "
         "`parameters` without erlang_shape and a last one for sighting_quantile, shifted modulo 1 by "
         "uniform "
         "numbers from the seed (Philox 4x32-10). erlang_shape: rounded triangular quantile at the "
         "middles of "
         "equal parts, one value per block of 8 draws. kill_spray_*_published and damp_hazard_published are "
         "drawn with the coordinates of their rows at home strength."},
        {"band",
         "mean over the draws; p10 and p90 are the values numbered 0.1 (n - 1) and 0.9 (n - 1), rounded, of "
         "n in order from 0 on, of weighted draws the smallest with that share of the weight at or below "
         "them; p10 is never above the mean, p90 never below it."}};
}

}  // namespace

Json model_json() {
    return {{"time", "Days from the start of the scenario; all rates are per day."},
            {"stages", stages_part()},
            {"rates", rates_part()},
            {"walking", walking_part()},
            {"events", events_part()},
            {"looking", looking_part()},
            {"answer", answer_part()}};
}

}  // namespace mitefall::formats
