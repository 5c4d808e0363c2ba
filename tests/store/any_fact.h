#pragma once

#include <rapidcheck.h>

#include <bit>
#include <cmath>

#include "records/facts.h"

// Facts of every kind with arbitrary contents: any text that is UTF-8, any finite number, whether it makes
// sense or not.
namespace mitefall::store {

inline std::string encode_letter(std::uint32_t point) {
    const auto byte = [](std::uint32_t bits) { return static_cast<char>(static_cast<unsigned char>(bits)); };
    if (point < 0x80) return {byte(point)};
    if (point < 0x800) return {byte(0xC0U | point >> 6U), byte(0x80U | (point & 0x3FU))};
    if (point < 0x10000) {
        return {byte(0xE0U | point >> 12U), byte(0x80U | (point >> 6U & 0x3FU)),
                byte(0x80U | (point & 0x3FU))};
    }
    return {byte(0xF0U | point >> 18U), byte(0x80U | (point >> 12U & 0x3FU)),
            byte(0x80U | (point >> 6U & 0x3FU)), byte(0x80U | (point & 0x3FU))};
}

/// Includes NUL, quotes, control characters and letters of every length; no surrogates (RFC 3629, section 3).
inline std::string any_text() {
    std::string text;
    for (const std::uint32_t raw :
         *rc::gen::container<std::vector<std::uint32_t>>(rc::gen::inRange<std::uint32_t>(0, 0x10FFFF))) {
        const std::uint32_t point = raw % 4 == 0 ? raw : raw % 0x100;
        text += encode_letter(point >= 0xD800 && point <= 0xDFFF ? 0x2603 : point);
    }
    return text;
}

inline double any_number() {
    if (*rc::gen::inRange(0, 4) == 0) {
        return *rc::gen::element(0.0, -0.0, 0.1, 1.0 / 3.0, 5e-324, 2.2250738585072014e-308,
                                 1.7976931348623157e308, 1e22, 5.0);
    }
    const double number = std::bit_cast<double>(*rc::gen::arbitrary<std::uint64_t>());
    return std::isfinite(number) ? number : 0.5;
}

inline units::Day any_day() { return units::Day(units::Days(*rc::gen::inRange(-25567, 84000))); }
inline bool any_flag() { return *rc::gen::arbitrary<bool>(); }

template <class Id>
Id any_id() {
    return Id(any_text());
}

template <class Id>
std::vector<Id> any_ids() {
    std::vector<Id> ids;
    for (int i = *rc::gen::inRange(0, 5); i > 0; --i) ids.push_back(any_id<Id>());
    return ids;
}

template <class E>
E any_of(E last) {
    return static_cast<E>(*rc::gen::inRange(0, static_cast<int>(last) + 1));
}

using RoomIds = std::vector<records::RoomId>;

inline records::Climate any_climate() {
    return {units::celsius(any_number()), units::celsius(any_number()),
            units::relative_humidity_percent(any_number())};
}
inline units::Area any_area() { return units::square_centimetres(any_number()); }
inline units::Strength any_strength() { return units::milligrams_per_litre(any_number()); }
inline records::AnimalId any_animal() { return any_id<records::AnimalId>(); }
inline records::EnclosureId any_enclosure() { return any_id<records::EnclosureId>(); }
inline records::RoomId any_room() { return any_id<records::RoomId>(); }
inline records::Method any_method() { return any_of(records::Method::predatory_mites); }
inline records::SeenCount any_count() { return any_of(records::SeenCount::masses); }

inline void fill(records::RoomAdded& f) {
    f = {any_room(), any_text(), any_climate(), any_ids<records::RoomId>(), any_area()};
}
inline void fill(records::EnclosureAdded& f) {
    f = {any_enclosure(),
         any_text(),
         any_room(),
         any_of(records::Material::porous),
         any_of(records::Substrate::none),
         any_climate(),
         any_area()};
}
inline void fill(records::AnimalArrived& f) {
    f = {any_animal(), any_text(), any_text(), any_text(), any_enclosure(), any_flag()};
}
inline void fill(records::BystanderNoted& f) { f = {any_text(), any_text(), any_room()}; }
inline void fill(records::AnimalMoved& f) { f = {any_animal(), any_enclosure(), any_flag(), any_text()}; }
inline void fill(records::AnimalLeft& f) { f = {any_animal(), any_text(), any_flag(), any_text()}; }
inline void fill(records::Handled& f) { f = {any_ids<records::AnimalId>(), any_flag()}; }
inline void fill(records::ItemShared& f) { f = {any_text(), any_enclosure(), any_enclosure()}; }
inline void fill(records::Weighed& f) { f = {any_animal(), units::grams(any_number())}; }
inline void fill(records::ShedSeen& f) { f = {any_animal(), any_of(records::ShedState::shed)}; }
inline void fill(records::ConditionNoted& f) {
    f = {any_animal(), any_of(records::Condition::reacted), any_flag(), any_text(), any_text()};
}
inline void fill(records::Sighted& f) {
    f = {any_enclosure(), any_count(), any_of(records::SeenWhere::on_paper)};
}
inline void fill(records::Checked& f) {
    f = {any_enclosure(), any_of(records::CheckMethod::paper_trap), any_count()};
    if (any_flag()) f.where = any_of(records::SeenWhere::on_paper);
}
inline void fill(records::Treated& f) {
    f = {any_enclosure(), any_ids<records::AnimalId>(), any_method(), any_strength()};
}
inline void fill(records::SubstrateChanged& f) { f = {any_enclosure(), any_of(records::Substrate::none)}; }
inline void fill(records::WaterMoved& f) { f = {any_enclosure(), any_flag()}; }
inline void fill(records::VetDirection& f) {
    f = {any_animal(), any_method(), any_text(), any_text(), any_strength(), *rc::gen::inRange(0, 9)};
}
inline void fill(records::StrengthAcknowledged& f) {
    f = {any_strength(), any_flag() ? any_animal() : records::AnimalId()};
}
inline records::CourseTreatment any_course_treatment() {
    return {any_text(),  any_day(), any_day(), any_room(), any_enclosure(), any_ids<records::AnimalId>(),
            any_method()};
}
inline records::CourseRefusal any_course_refusal() {
    return {any_day(),  any_enclosure(), any_animal(), any_method(), any_text(),
            any_text(), any_text(),      any_text(),   any_text()};
}
inline void fill(records::PlanAdopted& f) {
    f = {{},
         any_ids<records::EnclosureId>(),
         any_ids<records::RoomId>(),
         any_flag(),
         any_flag(),
         any_strength(),
         any_flag()};
    for (int i = *rc::gen::inRange(0, 5); i > 0; --i) f.rounds.push_back(any_day());
    f.terms.scope = any_text();
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) f.terms.treatments.push_back(any_course_treatment());
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) f.terms.left_out.push_back(any_course_refusal());
    f.continues = any_flag();
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) f.moved.push_back({any_day(), any_day()});
}
inline void fill(records::TaskDone& f) { f = {any_text()}; }
inline void fill(records::TaskSkipped& f) { f = {any_text(), any_text()}; }
inline void fill(records::Withdrawn& f) { f = {any_text()}; }
inline void fill(records::RoomTreated& f) { f = {any_room(), any_strength()}; }
inline void fill(records::QuarantineEnded& f) { f = {any_animal(), any_text()}; }

inline units::Volume any_volume() { return units::millilitres(any_number()); }
inline void fill(records::BatchMade& f) {
    f = {any_id<records::BatchId>(),
         any_text(),
         any_strength(),
         any_volume(),
         any_volume(),
         any_strength(),
         any_strength(),
         any_strength(),
         any_day(),
         any_text()};
}
inline void fill(records::BatchDiscarded& f) { f = {any_id<records::BatchId>(), any_text()}; }

constexpr std::size_t kinds_of_fact = std::variant_size_v<records::Fact>;

template <std::size_t Index = 0>
records::Fact any_fact(std::size_t kind) {
    if constexpr (Index + 1 < kinds_of_fact) {
        if (kind != Index) return any_fact<Index + 1>(kind);
    }
    std::variant_alternative_t<Index, records::Fact> fact;
    fill(fact);
    return fact;
}

}  // namespace mitefall::store
