#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "records/collection.h"
#include "records/facts.h"

// From names in a table to the facts of new rooms, enclosures, animals and weights.
namespace mitefall::tables {

/// Things of one sort by what they are called, as id or name: finds one, or makes a short name that is free.
class Shelf {
  public:
    void put(const std::string& id, const std::string& name);
    /// An id that is taken, though nothing is found by it.
    void reserve(const std::string& id) { ids_.insert(id); }
    [[nodiscard]] std::optional<std::string> find(const std::string& name) const;
    std::string make(const std::string& name);

  private:
    std::map<std::string, std::string> by_name_;
    std::set<std::string> ids_;
};

/// 1 to 40 of a-z, 0-9 and "-" (records/limits.h) for what people call a thing, as far as `taken` leaves it
/// free.
[[nodiscard]] std::string short_name(const std::string& name, const std::set<std::string>& taken);

/// What is on record already, and since when.
struct OnRecord {
    explicit OnRecord(const std::vector<records::Entry>& journal, units::Day today);

    Shelf rooms, enclosures, animals;
    std::map<std::string, units::Day> room_since, enclosure_since;
    units::Day today;
};

/// A fact and its day, with the row it comes from.
struct Gathered {
    int row;
    units::Day day;
    records::Fact fact;
};

struct Counts {
    std::size_t rooms = 0, enclosures = 0, animals = 0, weights = 0;
};

/// Gathers facts in an order in which each finds what it refers to.
class Gatherer {
  public:
    explicit Gatherer(OnRecord on_record) : known_(std::move(on_record)) {}

    int row = 0;  ///< that is being read

    /// The room of that name; added with `kind` if it is new.
    std::string room(const std::string& name, const records::RoomAdded& kind);
    std::string enclosure(const std::string& name, const std::string& room,
                          const records::EnclosureAdded& kind);
    [[nodiscard]] bool knows_animal(const std::string& name) const {
        return known_.animals.find(name).has_value();
    }
    /// `day`: nullopt: today.
    std::string animal(const std::string& name, records::AnimalArrived arrived,
                       std::optional<units::Day> day);
    void weight(const std::string& animal, units::Mass mass);

    [[nodiscard]] Counts counts() const;
    /// New rooms and enclosures stand as early as the first animal that comes; nothing comes to a place
    /// before it stands.
    [[nodiscard]] std::vector<Gathered> in_order() const;

  private:
    [[nodiscard]] units::Day stands_from(const std::string& enclosure) const;

    OnRecord known_;
    std::vector<Gathered> rooms_, enclosures_, animals_, weights_;
    std::map<std::string, std::string> room_of_;
};

}  // namespace mitefall::tables
