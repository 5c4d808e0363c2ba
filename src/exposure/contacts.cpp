#include "exposure/contacts.h"

#include <cmath>
#include <set>

#include "records/history.h"

namespace mitefall::exposure {
namespace {

using records::AnimalId;
using records::EnclosureId;

/// Reads one entry after the other, knowing where each animal is at that point of the journal.
class Reader {
  public:
    /// `opened`: the first day on record; who was entered on it did not come in then.
    Reader(const Places& places, const ContactChances& chances, units::Day from,
           std::optional<units::Day> opened)
        : places_(places), chances_(chances), from_(from), opened_(opened) {}

    void read(const records::Entry& entry) {
        if (entry.day >= from_) {
            order_ = list_.end_order++;
            day_ = static_cast<int>((entry.day - from_).count());
            is_opening_ = entry.day == opened_;
            std::visit([this](const auto& fact) { note(fact); }, entry.fact);
        }
        whereabouts_.follow(entry.fact);
    }

    ContactList take() { return std::move(list_); }

  private:
    void note(const records::AnimalArrived& fact) {
        if (is_opening_) return;
        list_.arrivals.push_back({&fact.animal, places_.index.at(fact.enclosure), order_, day_});
    }

    void note(const records::AnimalMoved& fact) {
        const std::size_t from = place_of(fact.animal);
        const std::size_t to = places_.index.at(fact.to);
        add({ContactKind::moved, from, to, order_, day_, chances_.moved, &fact.animal, &fact.animal,
             nullptr});
    }

    void note(const records::Handled& fact) {
        std::vector<std::size_t> lived_in;
        for (const AnimalId& animal : fact.animals) lived_in.push_back(place_of(animal));
        std::set<std::pair<std::size_t, std::size_t>> seen;
        for (std::size_t i = 0; i < lived_in.size(); ++i) {
            for (std::size_t j = i + 1; j < lived_in.size(); ++j) {
                const std::pair pair(lived_in[i], lived_in[j]);
                if (seen.insert(pair).second)
                    note_pair(pair, fact.animals[i], fact.animals[j], fact.shared_bag);
            }
        }
    }

    /// Hands carry from the animal handled first to the later one; a bag holds both, so it carries either
    /// way.
    void note_pair(std::pair<std::size_t, std::size_t> pair, const AnimalId& first, const AnimalId& second,
                   bool bag) {
        const auto [from, to] = pair;
        if (!bag)
            return add(
                {ContactKind::handled, from, to, order_, day_, chances_.handled, &first, &second, nullptr});
        add({ContactKind::bag, from, to, order_, day_, chances_.bag, &first, &second, nullptr});
        add({ContactKind::bag, to, from, order_, day_, chances_.bag, &second, &first, nullptr});
    }

    void note(const records::ItemShared& fact) {
        const std::size_t from = places_.index.at(fact.from);
        const std::size_t to = places_.index.at(fact.to);
        add({ContactKind::item, from, to, order_, day_, chances_.item, nullptr, nullptr, &fact.item});
    }

    void note(const records::OutsideContact& fact) { list_.outside.push_back({&fact, order_, day_}); }

    /// Every other fact brings no enclosure in touch with another.
    template <class Other>
    void note(const Other&) {}

    void add(const Contact& contact) {
        if (contact.from != contact.to) list_.contacts.push_back(contact);
    }

    [[nodiscard]] std::size_t place_of(const AnimalId& animal) const {
        return places_.index.at(whereabouts_.of(animal).value());
    }

    const Places& places_;
    const ContactChances& chances_;
    units::Day from_;
    std::optional<units::Day> opened_;
    bool is_opening_ = false;
    records::Whereabouts whereabouts_;
    ContactList list_;
    int order_ = 0;
    int day_ = 0;
};

}  // namespace

double chance_of_any(double expected) { return -std::expm1(-expected); }

ContactChances::ContactChances(const evidence::Tables& tables) {
    const double feeding = as_number(tables.number("source_feeding_mites").value);
    const double wandering = as_number(tables.number("source_wandering_mites").value);
    const auto part = [&](evidence::ShareKey key) { return as_fraction(tables.part(key).value); };
    moved = chance_of_any(feeding);
    handled = chance_of_any(feeding * part("contact_handled_after"));
    bag = chance_of_any(feeding * part("contact_shared_bag"));
    item = chance_of_any(wandering * part("contact_shared_item"));
}

ContactList read_contacts(std::span<const records::Entry> entries, const Places& places,
                          const ContactChances& chances, units::Day from, units::Day to) {
    Reader reader(places, chances, from, entries.empty() ? std::nullopt : std::optional(entries.front().day));
    for (const records::Entry& entry : entries) {
        if (entry.day > to) break;
        reader.read(entry);
    }
    return reader.take();
}

}  // namespace mitefall::exposure
