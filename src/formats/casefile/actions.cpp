#include "formats/casefile/actions.h"

#include <algorithm>

#include "formats/casefile/parameters.h"

namespace mitefall::formats {
namespace {

using mites::Reach;
using mites::Stage;
using records::Method;
using scenario::Amount;
using scenario::Happening;
using scenario::PlaceIndex;

constexpr Range days_range{0, 3650, false, false};
constexpr Range strength_range{0, 1e6, true, false};        // mg/L; 1e6 is the pure substance
constexpr Range level_range{0, 100, false, false};          // per day
constexpr Range half_life_range{0.05, 1000, false, false};  // days
constexpr Range import_range{0, 1e6, false, false};         // mites per day
constexpr int most_animals = 10'000;
constexpr Range animal_range{1, most_animals, false, true};
constexpr Range seen_range{0, 0.999, false, false};  // as for detection_light

constexpr std::string_view action_list =
    "treatment, kill, residue, residue-gone, meal-kill, move-animal, animal-joins, animal-leaves, contact, "
    "climate, import";

}  // namespace

Stage read_stage(Fields& fields, bool in_room) {
    const std::string text = fields.text("stage");
    const auto stage = base::from_text<mites::Stage>(text);
    if (!stage) {
        fields.refuse("stage", "there is no such stage", text.substr(0, 60), base::list_texts<Stage>());
        return Stage::egg;
    }
    if (in_room && !mites::lives_in_room(mites::activity_of(*stage))) {
        fields.refuse("stage", "no such stage lives in a room", text,
                      "egg, larva, or a stage that seeks or lays");
    }
    return *stage;
}

void CaseSteps::read_actions(const Json& array, const std::string& pointer) {
    for_elements(array, pointer, fault_,
                 [&](const Json& object, const std::string& at) { read_action(object, at); });
}

void CaseSteps::read_checks(const Json& array, const std::string& pointer) {
    for_elements(array, pointer, fault_,
                 [&](const Json& object, const std::string& at) { read_check(object, at); });
}

void CaseSteps::begin(Fields& fields, const std::string& pointer) {
    time_ = clock_.from + fields.number("day", {0, clock_.horizon_days, false, false});
    pointer_ = pointer;
}

void CaseSteps::add(decltype(CaseStep::what) what) { steps_.push_back({time_, std::move(what), pointer_}); }

void CaseSteps::read_action(const Json& object, const std::string& pointer) {
    Fields fields(object, pointer, fault_);
    begin(fields, pointer);
    const std::string action = fields.text("action");
    if (!read_known(fields, action)) {
        fields.refuse("action", "there is no such action", action.substr(0, 60), std::string(action_list));
    }
    fields.finish();
}

bool CaseSteps::read_known(Fields& fields, std::string_view action) {
    if (action == "treatment")
        read_treatment(fields);
    else if (action == "kill")
        read_kill(fields);
    else if (action == "residue")
        read_residue(fields);
    else if (action == "residue-gone")
        add(Happening(scenario::ResidueGone{enclosure(fields)}));
    else if (action == "meal-kill")
        read_meal_kill(fields);
    else if (action == "move-animal")
        read_move(fields);
    else if (action == "animal-joins")
        add(Happening(scenario::AnimalJoins{enclosure(fields)}));
    else if (action == "animal-leaves")
        read_leave(fields);
    else if (action == "contact")
        read_contact(fields);
    else if (action == "climate")
        add(Happening(
            scenario::ClimateChange{places_.find(fields, "place", PlaceNeed::any), read_climate(fields)}));
    else if (action == "import")
        read_import(fields);
    else
        return false;
    return true;
}

void CaseSteps::read_treatment(Fields& fields) {
    scenario::Action action;
    action.method = fields.word("method", Method::change_substrate);
    const records::MethodRow& method = records::row_of(action.method);
    action.place = places_.find(
        fields, "place", method.target == records::Target::room ? PlaceNeed::room : PlaceNeed::enclosure);
    action.time = time_;
    if (method.is_spray) {
        action.strength = units::milligrams_per_litre(fields.number("strength_mg_per_l", strength_range));
    }
    AnimalNumbers animals;
    if (method.target == records::Target::animal) {
        action.part = fields.number_or("part", 1, share_range);
        animals = read_animals(fields);
    }
    if (method.paper == records::Paper::sprayed)
        action.damp_until = time_ + fields.number_or("damp_days", 0, days_range);
    add(CaseTreatment{action, std::move(animals)});
}

void CaseSteps::read_kill(Fields& fields) {
    scenario::Kill kill;
    kill.place = places_.find(fields, "place", PlaceNeed::any);
    kill.reach = read_reach(fields);
    kill.chance = read_amount(fields, "chance", ParameterKind::share, share_range);
    kill.part = fields.number_or("part", 1, share_range);
    AnimalNumbers animals = read_animals(fields);
    if (animals.empty()) return add(Happening(kill));
    if (kill.reach != Reach::on_animal)
        fields.refuse("animals", "animals can be named for mites on them only",
                      std::string(mites::to_text(kill.reach)), "reach on-animal");
    add(CaseDab{kill.place, {kill.chance, 1}, std::move(animals), std::nullopt});
}

void CaseSteps::read_residue(Fields& fields) {
    scenario::Residue residue;
    residue.place = enclosure(fields);
    residue.level = read_amount(fields, "level_per_day", ParameterKind::rate, level_range);
    residue.half_life = read_amount(fields, "half_life_days", ParameterKind::time, half_life_range);
    residue.damp_until = time_ + fields.number_or("damp_days", 0, days_range);
    add(Happening(residue));
}

void CaseSteps::read_meal_kill(Fields& fields) {
    CaseDab kill;
    kill.place = enclosure(fields);
    kill.dab.chance = read_amount(fields, "chance", ParameterKind::share, share_range);
    kill.dab.part = fields.number_or("part", 1, share_range);
    kill.animals = read_animals(fields);
    kill.days = fields.number("days", days_range);
    add(std::move(kill));
}

/// Not together with a part of them.
AnimalNumbers CaseSteps::read_animals(Fields& fields) const {
    AnimalNumbers numbers;
    const Json* const list = fields.find("animals");
    if (list == nullptr) return numbers;
    if (fields.find("part") != nullptr)
        fields.refuse("animals", "both some animals and a part of them are named", "animals and part", "one");
    for_elements(*list, fields.pointer("animals"), fault_, [&](const Json& value, const std::string& at) {
        const bool good = value.is_number_integer() && value >= 1 && value <= most_animals;
        if (!good) {
            fault_.note(
                base::invalid("no number of an animal", shown(value), "1, 2, 3 ... in order of coming",
                              "number the animals of the enclosure"),
                at);
            return;
        }
        numbers.push_back(value.get<int>());
    });
    if (list->is_array() && list->empty())
        fields.refuse("animals", "nobody is named", "[]", "at least one animal, or leave the key out");
    return numbers;
}

PlaceIndex CaseSteps::other_enclosure(Fields& fields, PlaceIndex from) const {
    const PlaceIndex to = places_.find(fields, "to", PlaceNeed::enclosure);
    if (to == from)
        fields.refuse("to", "from and to are the same place", fields.text("to").substr(0, 60), "two places");
    return to;
}

void CaseSteps::read_move(Fields& fields) {
    const PlaceIndex from = places_.find(fields, "from", PlaceNeed::enclosure);
    const PlaceIndex to = other_enclosure(fields, from);
    add(CaseMove{from, to, static_cast<int>(fields.number_or("animal", 0, animal_range))});
}

void CaseSteps::read_leave(Fields& fields) {
    const PlaceIndex from = enclosure(fields);
    add(CaseMove{from, scenario::nowhere, static_cast<int>(fields.number_or("animal", 0, animal_range))});
}

void CaseSteps::read_contact(Fields& fields) {
    scenario::Contact contact;
    contact.from = places_.find(fields, "from", PlaceNeed::enclosure);
    contact.to = other_enclosure(fields, contact.from);
    contact.reach = read_reach(fields);
    contact.chance = read_amount(fields, "chance", ParameterKind::share, share_range);
    add(Happening(contact));
}

void CaseSteps::read_import(Fields& fields) {
    scenario::Import import;
    import.place = places_.find(fields, "place", PlaceNeed::any);
    import.stage = read_stage(fields, places_.is_room(import.place));
    import.rate = read_amount(fields, "rate_per_day", ParameterKind::rate, import_range);
    import.until = time_ + fields.number("days", days_range);
    add(Happening(import));
}

void CaseSteps::read_check(const Json& object, const std::string& pointer) {
    Fields fields(object, pointer, fault_);
    begin(fields, pointer);
    scenario::CleanCheck check;
    check.place = enclosure(fields);
    check.of_light = fields.find("detection") == nullptr;
    check.detection = check.of_light ? Amount::drawn(&mites::MiteParameters::detection_light)
                                     : read_amount(fields, "detection", ParameterKind::share, seen_range);
    check.nest_part = fields.find("nest_part") == nullptr
                          ? Amount::drawn(&mites::MiteParameters::detection_nest_part)
                          : read_amount(fields, "nest_part", ParameterKind::share, share_range);
    add(Happening(check));
    fields.finish();
}

Reach CaseSteps::read_reach(Fields& fields) const {
    const std::string text = fields.text("reach");
    for (const Reach reach : {Reach::on_animal, Reach::mobile_nest, Reach::eggs}) {
        if (mites::to_text(reach) == text) return reach;
    }
    fields.refuse("reach", "there is no such choice", text.substr(0, 60), "on-animal, mobile-nest, eggs");
    return Reach::on_animal;
}

}  // namespace mitefall::formats
