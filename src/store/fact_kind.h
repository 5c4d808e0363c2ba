#pragma once

#include <string_view>

#include "records/facts.h"

// The name of each kind of fact in the file. Part of the file format: never change one, never use one again.
namespace mitefall::store {

template <class Fact>
struct KindOf;

template <>
struct KindOf<records::RoomAdded> {
    static constexpr std::string_view name = "room-added";
};
template <>
struct KindOf<records::EnclosureAdded> {
    static constexpr std::string_view name = "enclosure-added";
};
template <>
struct KindOf<records::AnimalArrived> {
    static constexpr std::string_view name = "animal-arrived";
};
template <>
struct KindOf<records::BystanderNoted> {
    static constexpr std::string_view name = "bystander-noted";
};
template <>
struct KindOf<records::AnimalMoved> {
    static constexpr std::string_view name = "animal-moved";
};
template <>
struct KindOf<records::AnimalLeft> {
    static constexpr std::string_view name = "animal-left";
};
template <>
struct KindOf<records::Handled> {
    static constexpr std::string_view name = "handled";
};
template <>
struct KindOf<records::ItemShared> {
    static constexpr std::string_view name = "item-shared";
};
template <>
struct KindOf<records::Weighed> {
    static constexpr std::string_view name = "weighed";
};
template <>
struct KindOf<records::ShedSeen> {
    static constexpr std::string_view name = "shed-seen";
};
template <>
struct KindOf<records::ConditionNoted> {
    static constexpr std::string_view name = "condition-noted";
};
template <>
struct KindOf<records::Sighted> {
    static constexpr std::string_view name = "sighted";
};
template <>
struct KindOf<records::Checked> {
    static constexpr std::string_view name = "checked";
};
template <>
struct KindOf<records::Treated> {
    static constexpr std::string_view name = "treated";
};
template <>
struct KindOf<records::SubstrateChanged> {
    static constexpr std::string_view name = "substrate-changed";
};
template <>
struct KindOf<records::WaterMoved> {
    static constexpr std::string_view name = "water-moved";
};
template <>
struct KindOf<records::VetDirection> {
    static constexpr std::string_view name = "vet-direction";
};
template <>
struct KindOf<records::StrengthAcknowledged> {
    static constexpr std::string_view name = "strength-acknowledged";
};
template <>
struct KindOf<records::PlanAdopted> {
    static constexpr std::string_view name = "plan-adopted";
};
template <>
struct KindOf<records::TaskDone> {
    static constexpr std::string_view name = "task-done";
};
template <>
struct KindOf<records::TaskSkipped> {
    static constexpr std::string_view name = "task-skipped";
};
template <>
struct KindOf<records::Withdrawn> {
    static constexpr std::string_view name = "withdrawn";
};
template <>
struct KindOf<records::RoomTreated> {
    static constexpr std::string_view name = "room-treated";
};
template <>
struct KindOf<records::QuarantineEnded> {
    static constexpr std::string_view name = "quarantine-ended";
};

template <>
struct KindOf<records::BatchMade> {
    static constexpr std::string_view name = "batch-made";
};
template <>
struct KindOf<records::BatchDiscarded> {
    static constexpr std::string_view name = "batch-discarded";
};

}  // namespace mitefall::store
