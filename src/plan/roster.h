#pragma once

#include <cstdint>
#include <set>
#include <unordered_map>
#include <vector>

#include "safety/check.h"

namespace mitefall::plan {

/// An animal, or an enclosure, of a case by its place in the collection's order: the same number in every
/// case of one collection, whoever lives where.
enum class AnimalNumber : std::uint32_t {};
enum class EnclosureNumber : std::uint32_t {};

template <class Number>
[[nodiscard]] constexpr std::size_t index_of(Number number) {
    return static_cast<std::size_t>(number);
}

/// Who lives where, by number: a search asks for the same few thousand names again and again. Keeps
/// references to the collection of the case.
class Roster {
  public:
    explicit Roster(const safety::Case& with);
    /// Of these enclosures alone, and of who lives in them: numbered in the same order, from the first.
    Roster(const safety::Case& with, const std::set<records::EnclosureId>& only);

    [[nodiscard]] AnimalNumber number_of(const records::AnimalId& id) const { return animal_of_.at(id); }
    [[nodiscard]] EnclosureNumber number_of(const records::EnclosureId& id) const {
        return enclosure_of_.at(id);
    }
    [[nodiscard]] std::size_t animal_count() const { return animals_.size(); }
    [[nodiscard]] std::size_t enclosure_count() const { return enclosures_.size(); }

    [[nodiscard]] const records::Animal& animal(AnimalNumber number) const {
        return *animals_[index_of(number)];
    }
    [[nodiscard]] const records::Enclosure& enclosure(EnclosureNumber number) const {
        return *enclosures_[index_of(number)];
    }
    /// In the order of the survey.
    [[nodiscard]] const std::vector<AnimalNumber>& inside(EnclosureNumber number) const {
        return inside_[index_of(number)];
    }

  private:
    void add(const records::Animal& animal);
    void add(const records::Enclosure& enclosure);
    void house(const records::EnclosureId& id, const std::vector<records::AnimalId>& animals);

    std::vector<const records::Animal*> animals_;
    std::vector<const records::Enclosure*> enclosures_;
    std::vector<std::vector<AnimalNumber>> inside_;
    std::unordered_map<records::AnimalId, AnimalNumber> animal_of_;
    std::unordered_map<records::EnclosureId, EnclosureNumber> enclosure_of_;
};

}  // namespace mitefall::plan
