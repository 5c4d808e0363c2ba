#include <array>

#include "formats/json_parts.h"

namespace mitefall::formats {
namespace {

using records::to_text;

/// In the order of records::Fact.
constexpr std::array<std::string_view, std::variant_size_v<records::Fact>> kinds{
    "room-added",      "enclosure-added", "animal-arrived",
    "bystander-noted", "animal-moved",    "animal-left",
    "handled",         "item-shared",     "weighed",
    "shed-seen",       "condition-noted", "sighted",
    "checked",         "treated",         "substrate-changed",
    "water-moved",     "vet-direction",   "strength-acknowledged",
    "plan-adopted",    "task-done",       "task-skipped",
    "withdrawn",       "room-treated",    "quarantine-ended",
    "batch-made",      "batch-discarded"};

Json fields(const records::RoomAdded& f) {
    Json json{{"room", name(f.room)}, {"name", f.name}};
    put_climate(json, f.climate);
    json["adjoining"] = names(f.adjoining);
    json["floor_cm2"] = number(units::in_square_centimetres(f.floor));
    return json;
}

Json fields(const records::EnclosureAdded& f) {
    Json json{{"enclosure", name(f.enclosure)},
              {"name", f.name},
              {"room", name(f.room)},
              {"material", to_text(f.material)},
              {"substrate", to_text(f.substrate)}};
    put_climate(json, f.climate);
    json["floor_cm2"] = number(units::in_square_centimetres(f.floor));
    return json;
}

Json fields(const records::AnimalArrived& f) {
    return {{"animal", name(f.animal)},       {"name", f.name},
            {"taxon", text_or_null(f.taxon)}, {"origin", text_or_null(f.origin)},
            {"enclosure", name(f.enclosure)}, {"quarantine", f.quarantine}};
}

Json fields(const records::BystanderNoted& f) {
    return {{"name", f.name}, {"taxon", text_or_null(f.taxon)}, {"room", name(f.room)}};
}

/// Only of what was warned of.
template <class Going>
Json with_knowing(Json json, const Going& f) {
    if (!f.knowing) return json;
    json["knowing"] = true;
    if (!f.knowing_reason.empty()) json["knowing_reason"] = f.knowing_reason;
    return json;
}

Json fields(const records::AnimalMoved& f) {
    return with_knowing({{"animal", name(f.animal)}, {"to", name(f.to)}}, f);
}

Json fields(const records::AnimalLeft& f) {
    return with_knowing({{"animal", name(f.animal)}, {"reason", f.reason}}, f);
}

Json fields(const records::Handled& f) {
    return {{"animals", names(f.animals)}, {"shared_bag", f.shared_bag}};
}

Json fields(const records::ItemShared& f) {
    return {{"item", f.item}, {"from", name(f.from)}, {"to", name(f.to)}};
}

Json fields(const records::Weighed& f) {
    return {{"animal", name(f.animal)}, {"mass_g", number(units::in_grams(f.mass))}};
}

Json fields(const records::ShedSeen& f) { return {{"animal", name(f.animal)}, {"state", to_text(f.state)}}; }

Json fields(const records::ConditionNoted& f) {
    return {{"animal", name(f.animal)},
            {"condition", to_text(f.condition)},
            {"present", f.present},
            {"agent", text_or_null(f.agent)},
            {"note", text_or_null(f.note)}};
}

Json fields(const records::Sighted& f) {
    return {{"enclosure", name(f.enclosure)}, {"count", to_text(f.count)}, {"where", to_text(f.where)}};
}

Json fields(const records::Checked& f) {
    return {{"enclosure", name(f.enclosure)},
            {"method", to_text(f.method)},
            {"count", to_text(f.count)},
            {"where", f.where ? Json(to_text(*f.where)) : Json(nullptr)}};
}

Json fields(const records::Treated& f) {
    return {{"enclosure", name(f.enclosure)},
            {"animals", names(f.animals)},
            {"method", to_text(f.method)},
            {"strength_mg_per_l", strength_or_null(f.strength)}};
}

Json fields(const records::SubstrateChanged& f) {
    return {{"enclosure", name(f.enclosure)}, {"to", to_text(f.to)}};
}

Json fields(const records::WaterMoved& f) { return {{"enclosure", name(f.enclosure)}, {"out", f.out}}; }

Json fields(const records::VetDirection& f) {
    return {{"animal", name(f.animal)},
            {"method", to_text(f.method)},
            {"who", f.who},
            {"text", f.text},
            {"up_to_mg_per_l", strength_or_null(f.strength)},
            {"treatments", f.treatments > 0 ? Json(f.treatments) : Json(nullptr)}};
}

Json fields(const records::StrengthAcknowledged& f) {
    return {{"strength_mg_per_l", strength_or_null(f.strength)}, {"animal", text_or_null(f.animal.text())}};
}

Json fields(const records::PlanAdopted& f) {
    Json json{{"rounds", dates(f.rounds)}, {"enclosures", names(f.enclosures)},
              {"rooms", names(f.rooms)},   {"change_substrate", f.change_substrate},
              {"keep_damp", f.keep_damp},  {"strength_mg_per_l", strength_or_null(f.strength)}};
    json["soak_animals"] = f.soak_animals;
    json["scope"] = text_or_null(f.terms.scope);
    json["treatments"] = f.terms.are_known() ? list(f.terms.treatments, course_treatment_json) : Json();
    json["left_out"] = f.terms.are_known() ? list(f.terms.left_out, course_refusal_json) : Json();
    json["continues"] = f.continues;
    json["moved"] = list(f.moved, moved_round_json);
    return json;
}

Json fields(const records::TaskDone& f) { return {{"task", f.task}}; }

Json fields(const records::TaskSkipped& f) { return {{"task", f.task}, {"reason", f.reason}}; }

Json fields(const records::Withdrawn& f) { return {{"reason", f.reason}}; }

Json fields(const records::RoomTreated& f) {
    return {{"room", name(f.room)}, {"strength_mg_per_l", strength_or_null(f.strength)}};
}

Json fields(const records::QuarantineEnded& f) {
    return {{"animal", name(f.animal)}, {"reason", text_or_null(f.reason)}};
}

Json fields(const records::BatchMade& f) {
    return {{"batch", name(f.batch)},
            {"agent", f.agent},
            {"stock_strength_mg_per_l", strength_or_null(f.stock_strength)},
            {"stock_ml", millilitres_json(f.stock)},
            {"total_ml", millilitres_json(f.total)},
            {"strength_mg_per_l", strength_or_null(f.strength)},
            {"low_mg_per_l", strength_or_null(f.low)},
            {"high_mg_per_l", strength_or_null(f.high)},
            {"discard_by", date(f.discard_by)},
            {"steps", text_or_null(f.steps)}};
}

Json fields(const records::BatchDiscarded& f) {
    return {{"batch", name(f.batch)}, {"how", text_or_null(f.how)}};
}

Json entry_json(const records::Entry& entry) {
    return {{"id", entry.id},
            {"day", date(entry.day)},
            {"recorded_at", entry.recorded_at},
            {"kind", kind_of(entry.fact)},
            {"corrects", entry.corrects ? Json(*entry.corrects) : Json(nullptr)},
            {"fact", fact_json(entry.fact)}};
}

}  // namespace

std::string_view kind_of(const records::Fact& fact) { return kinds.at(fact.index()); }

Json fact_json(const records::Fact& fact) {
    return std::visit([](const auto& one) { return fields(one); }, fact);
}

Json journal_json(const std::vector<records::Entry>& journal) {
    return {{"entries", list(journal, entry_json)}};
}

}  // namespace mitefall::formats
