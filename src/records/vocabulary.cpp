#include "records/vocabulary.h"

#include <span>

#include "base/contract.h"

namespace mitefall::records {
namespace {

[[noreturn]] void refuse_value(std::string_view what) {
    throw base::ContractViolation("contract broken: no such " + std::string(what));
}

constexpr Material materials[] = {Material::sealed, Material::porous};
constexpr Substrate substrates[] = {Substrate::paper, Substrate::loose, Substrate::none};
constexpr ShedState shed_states[] = {ShedState::cloudy, ShedState::shed, ShedState::clear};
constexpr Condition conditions[] = {Condition::sick,    Condition::thin,   Condition::dehydrated,
                                    Condition::neonate, Condition::gravid, Condition::neurological,
                                    Condition::reacted};
constexpr SeenCount seen_counts[] = {SeenCount::none, SeenCount::one, SeenCount::few, SeenCount::many,
                                     SeenCount::masses};
constexpr SeenWhere seen_wheres[] = {SeenWhere::on_animal, SeenWhere::in_water, SeenWhere::on_hands,
                                     SeenWhere::on_paper};
constexpr CheckMethod check_methods[] = {CheckMethod::look_over, CheckMethod::soak, CheckMethod::wipe,
                                         CheckMethod::paper_trap};
constexpr Method methods[] = {Method::spray_animal,
                              Method::spray_bedding,
                              Method::soak,
                              Method::wipe,
                              Method::change_substrate,
                              Method::treat_room,
                              Method::permethrin_empty,
                              Method::fipronil_wipe,
                              Method::oral_afoxolaner,
                              Method::oral_fluralaner,
                              Method::injected_ivermectin,
                              Method::oil_wipe,
                              Method::soap_wash,
                              Method::heat_objects,
                              Method::freeze_objects,
                              Method::desiccant_dust,
                              Method::predatory_mites};

template <class E>
std::span<const E> values_of();
template <>
std::span<const Material> values_of() {
    return materials;
}
template <>
std::span<const Substrate> values_of() {
    return substrates;
}
template <>
std::span<const ShedState> values_of() {
    return shed_states;
}
template <>
std::span<const Condition> values_of() {
    return conditions;
}
template <>
std::span<const SeenCount> values_of() {
    return seen_counts;
}
template <>
std::span<const SeenWhere> values_of() {
    return seen_wheres;
}
template <>
std::span<const CheckMethod> values_of() {
    return check_methods;
}
template <>
std::span<const Method> values_of() {
    return methods;
}

}  // namespace

std::string_view to_text(Material value) {
    switch (value) {
        case Material::sealed: return "sealed";
        case Material::porous: return "porous";
    }
    refuse_value("material");
}

std::string_view to_text(Substrate value) {
    switch (value) {
        case Substrate::paper: return "paper";
        case Substrate::loose: return "loose";
        case Substrate::none: return "none";
    }
    refuse_value("substrate");
}

std::string_view to_text(ShedState value) {
    switch (value) {
        case ShedState::cloudy: return "cloudy";
        case ShedState::shed: return "shed";
        case ShedState::clear: return "clear";
    }
    refuse_value("shed state");
}

std::string_view to_text(Condition value) {
    switch (value) {
        case Condition::sick: return "sick";
        case Condition::thin: return "thin";
        case Condition::dehydrated: return "dehydrated";
        case Condition::neonate: return "neonate";
        case Condition::gravid: return "gravid";
        case Condition::neurological: return "neurological";
        case Condition::reacted: return "reacted";
    }
    refuse_value("condition");
}

std::string_view to_text(SeenCount value) {
    switch (value) {
        case SeenCount::none: return "none";
        case SeenCount::one: return "1";
        case SeenCount::few: return "2-10";
        case SeenCount::many: return "11-50";
        case SeenCount::masses: return "more";
    }
    refuse_value("count of mites");
}

std::string_view to_text(SeenWhere value) {
    switch (value) {
        case SeenWhere::on_animal: return "on-animal";
        case SeenWhere::in_water: return "in-water";
        case SeenWhere::on_hands: return "on-hands";
        case SeenWhere::on_paper: return "on-paper";
    }
    refuse_value("place of a sighting");
}

std::string_view to_text(CheckMethod value) {
    switch (value) {
        case CheckMethod::look_over: return "look-over";
        case CheckMethod::soak: return "soak";
        case CheckMethod::wipe: return "wipe";
        case CheckMethod::paper_trap: return "paper-trap";
    }
    refuse_value("way to check");
}

std::string_view to_text(Method value) {
    switch (value) {
        case Method::spray_animal: return "spray-animal";
        case Method::spray_bedding: return "spray-bedding";
        case Method::soak: return "soak";
        case Method::wipe: return "wipe";
        case Method::change_substrate: return "change-substrate";
        case Method::treat_room: return "treat-room";
        case Method::permethrin_empty: return "permethrin-empty";
        case Method::fipronil_wipe: return "fipronil-wipe";
        case Method::oral_afoxolaner: return "oral-afoxolaner";
        case Method::oral_fluralaner: return "oral-fluralaner";
        case Method::injected_ivermectin: return "injected-ivermectin";
        case Method::oil_wipe: return "oil-wipe";
        case Method::soap_wash: return "soap-wash";
        case Method::heat_objects: return "heat-objects";
        case Method::freeze_objects: return "freeze-objects";
        case Method::desiccant_dust: return "desiccant-dust";
        case Method::predatory_mites: return "predatory-mites";
    }
    refuse_value("method");
}

std::string_view describe(Method value) {
    switch (value) {
        case Method::spray_animal: return "ivermectin spray on the animal";
        case Method::spray_bedding: return "ivermectin spray on the bedding and walls";
        case Method::soak: return "30 minutes' soak in lukewarm water";
        case Method::wipe: return "wiping down with a damp cloth";
        case Method::change_substrate: return "change of substrate to paper";
        case Method::treat_room: return "permethrin on floor, racks and walls of the room";
        case Method::permethrin_empty: return "permethrin on the emptied enclosure";
        case Method::fipronil_wipe: return "fipronil wiped on the animal";
        case Method::oral_afoxolaner: return "afoxolaner by mouth";
        case Method::oral_fluralaner: return "fluralaner by mouth";
        case Method::injected_ivermectin: return "ivermectin by injection";
        case Method::oil_wipe: return "plain oil wiped on the animal";
        case Method::soap_wash: return "wash with mild soap";
        case Method::heat_objects: return "dry heat for the emptied enclosure and its objects";
        case Method::freeze_objects: return "freezer for hides, bowls and other objects";
        case Method::desiccant_dust: return "drying dust in the emptied enclosure";
        case Method::predatory_mites: return "predatory mites in the substrate";
    }
    refuse_value("method");
}

template <class E>
std::optional<E> from_text(std::string_view text) {
    for (const E value : values_of<E>()) {
        if (to_text(value) == text) return value;
    }
    return std::nullopt;
}

template <class E>
std::string list_texts() {
    std::string list;
    for (const E value : values_of<E>()) {
        if (!list.empty()) list += ", ";
        list += to_text(value);
    }
    return list;
}

template std::optional<Material> from_text(std::string_view);
template std::optional<Substrate> from_text(std::string_view);
template std::optional<ShedState> from_text(std::string_view);
template std::optional<Condition> from_text(std::string_view);
template std::optional<SeenCount> from_text(std::string_view);
template std::optional<SeenWhere> from_text(std::string_view);
template std::optional<CheckMethod> from_text(std::string_view);
template std::optional<Method> from_text(std::string_view);
template std::string list_texts<Material>();
template std::string list_texts<Substrate>();
template std::string list_texts<ShedState>();
template std::string list_texts<Condition>();
template std::string list_texts<SeenCount>();
template std::string list_texts<SeenWhere>();
template std::string list_texts<CheckMethod>();
template std::string list_texts<Method>();

}  // namespace mitefall::records
