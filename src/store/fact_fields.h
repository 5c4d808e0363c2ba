#pragma once

#include "records/facts.h"

// The fields of each fact, named once for writing and for reading. A key is part of the file format and ends
// in its unit where it has one. An archive writes or fills `field(key, value)`. A key that came after the
// first files is a `later_field(key, value)`: it is written only if it differs from the value the fact has
// without it, which is what files without it mean.
namespace mitefall::store {

template <class Archive>
void list_fields(Archive& archive, records::Climate& climate) {
    archive.field("day_c", climate.day);
    archive.field("night_c", climate.night);
    archive.field("humidity_percent", climate.humidity);
}

template <class Archive>
void list_fields(Archive& archive, records::RoomAdded& fact) {
    archive.field("room", fact.room);
    archive.field("name", fact.name);
    list_fields(archive, fact.climate);
    archive.field("adjoining", fact.adjoining);
    archive.field("floor_cm2", fact.floor);
}

template <class Archive>
void list_fields(Archive& archive, records::EnclosureAdded& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("name", fact.name);
    archive.field("room", fact.room);
    archive.field("material", fact.material);
    archive.field("substrate", fact.substrate);
    list_fields(archive, fact.climate);
    archive.field("floor_cm2", fact.floor);
}

template <class Archive>
void list_fields(Archive& archive, records::AnimalArrived& fact) {
    archive.field("animal", fact.animal);
    archive.field("name", fact.name);
    archive.field("taxon", fact.taxon);
    archive.field("origin", fact.origin);
    archive.field("enclosure", fact.enclosure);
    archive.field("quarantine", fact.quarantine);
}

template <class Archive>
void list_fields(Archive& archive, records::BystanderNoted& fact) {
    archive.field("name", fact.name);
    archive.field("taxon", fact.taxon);
    archive.field("room", fact.room);
}

template <class Archive>
void list_fields(Archive& archive, records::AnimalMoved& fact) {
    archive.field("animal", fact.animal);
    archive.field("to", fact.to);
    archive.later_field("knowing", fact.knowing);
    archive.later_field("knowing_reason", fact.knowing_reason);
}

template <class Archive>
void list_fields(Archive& archive, records::AnimalLeft& fact) {
    archive.field("animal", fact.animal);
    archive.field("reason", fact.reason);
    archive.later_field("knowing", fact.knowing);
    archive.later_field("knowing_reason", fact.knowing_reason);
}

template <class Archive>
void list_fields(Archive& archive, records::Handled& fact) {
    archive.field("animals", fact.animals);
    archive.field("shared_bag", fact.shared_bag);
}

template <class Archive>
void list_fields(Archive& archive, records::ItemShared& fact) {
    archive.field("item", fact.item);
    archive.field("from", fact.from);
    archive.field("to", fact.to);
}

template <class Archive>
void list_fields(Archive& archive, records::Weighed& fact) {
    archive.field("animal", fact.animal);
    archive.field("mass_g", fact.mass);
}

template <class Archive>
void list_fields(Archive& archive, records::ShedSeen& fact) {
    archive.field("animal", fact.animal);
    archive.field("state", fact.state);
}

template <class Archive>
void list_fields(Archive& archive, records::ConditionNoted& fact) {
    archive.field("animal", fact.animal);
    archive.field("condition", fact.condition);
    archive.field("present", fact.present);
    archive.field("agent", fact.agent);
    archive.field("note", fact.note);
}

template <class Archive>
void list_fields(Archive& archive, records::Sighted& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("count", fact.count);
    archive.field("where", fact.where);
}

template <class Archive>
void list_fields(Archive& archive, records::Checked& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("method", fact.method);
    archive.field("count", fact.count);
    archive.later_field("where", fact.where);
}

template <class Archive>
void list_fields(Archive& archive, records::Treated& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("animals", fact.animals);
    archive.field("method", fact.method);
    archive.field("strength_mg_per_l", fact.strength);
}

template <class Archive>
void list_fields(Archive& archive, records::SubstrateChanged& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("to", fact.to);
}

template <class Archive>
void list_fields(Archive& archive, records::WaterMoved& fact) {
    archive.field("enclosure", fact.enclosure);
    archive.field("out", fact.out);
}

template <class Archive>
void list_fields(Archive& archive, records::VetDirection& fact) {
    archive.field("animal", fact.animal);
    archive.field("method", fact.method);
    archive.field("who", fact.who);
    archive.field("text", fact.text);
    archive.later_field("up_to_mg_per_l", fact.strength);
    archive.later_field("treatments", fact.treatments);
}

template <class Archive>
void list_fields(Archive& archive, records::StrengthAcknowledged& fact) {
    archive.field("strength_mg_per_l", fact.strength);
    archive.later_field("animal", fact.animal);
}

template <class Archive>
void list_fields(Archive& archive, records::CourseTreatment& row) {
    archive.field("task", row.task);
    archive.field("planned", row.planned);
    archive.field("day", row.day);
    archive.field("room", row.room);
    archive.field("enclosure", row.enclosure);
    archive.field("animals", row.animals);
    archive.field("method", row.method);
}

template <class Archive>
void list_fields(Archive& archive, records::CourseRefusal& row) {
    archive.field("day", row.day);
    archive.field("enclosure", row.enclosure);
    archive.field("animal", row.animal);
    archive.field("method", row.method);
    archive.field("reason", row.reason);
    archive.later_field("rule", row.rule);
    archive.later_field("common", row.common);
    archive.later_field("own", row.own);
    archive.later_field("remedy", row.remedy);
}

template <class Archive>
void list_fields(Archive& archive, records::MovedRound& row) {
    archive.field("from", row.from);
    archive.field("to", row.to);
}

template <class Archive>
void list_fields(Archive& archive, records::PlanAdopted& fact) {
    archive.field("rounds", fact.rounds);
    archive.field("enclosures", fact.enclosures);
    archive.field("rooms", fact.rooms);
    archive.field("change_substrate", fact.change_substrate);
    archive.field("keep_damp", fact.keep_damp);
    archive.field("strength_mg_per_l", fact.strength);
    archive.later_field("soak_animals", fact.soak_animals);
    archive.later_field("scope", fact.terms.scope);
    archive.later_field("treatments", fact.terms.treatments);
    archive.later_field("left_out", fact.terms.left_out);
    archive.later_field("continues", fact.continues);
    archive.later_field("moved", fact.moved);
}

template <class Archive>
void list_fields(Archive& archive, records::TaskDone& fact) {
    archive.field("task", fact.task);
}

template <class Archive>
void list_fields(Archive& archive, records::TaskSkipped& fact) {
    archive.field("task", fact.task);
    archive.field("reason", fact.reason);
}

template <class Archive>
void list_fields(Archive& archive, records::Withdrawn& fact) {
    archive.field("reason", fact.reason);
}

template <class Archive>
void list_fields(Archive& archive, records::RoomTreated& fact) {
    archive.field("room", fact.room);
    archive.field("strength_mg_per_l", fact.strength);
}

template <class Archive>
void list_fields(Archive& archive, records::QuarantineEnded& fact) {
    archive.field("animal", fact.animal);
    archive.later_field("reason", fact.reason);
}

template <class Archive>
void list_fields(Archive& archive, records::BatchMade& fact) {
    archive.field("batch", fact.batch);
    archive.field("agent", fact.agent);
    archive.field("stock_strength_mg_per_l", fact.stock_strength);
    archive.field("stock_ml", fact.stock);
    archive.field("total_ml", fact.total);
    archive.field("strength_mg_per_l", fact.strength);
    archive.field("low_mg_per_l", fact.low);
    archive.field("high_mg_per_l", fact.high);
    archive.field("discard_by", fact.discard_by);
    archive.field("steps", fact.steps);
}

template <class Archive>
void list_fields(Archive& archive, records::BatchDiscarded& fact) {
    archive.field("batch", fact.batch);
    archive.field("how", fact.how);
}

}  // namespace mitefall::store
