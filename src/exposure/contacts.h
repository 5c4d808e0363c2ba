#pragma once

#include <span>
#include <vector>

#include "evidence/tables.h"
#include "exposure/places.h"
#include "exposure/tracing.h"

namespace mitefall::exposure {

/// Chance that a link carries at least one mite when `expected` are carried on average (Poisson).
[[nodiscard]] double chance_of_any(double expected);

/// Chances of the dated contacts, most likely values of the evidence tables.
struct ContactChances {
    double moved = 0;
    double handled = 0;
    double bag = 0;
    double item = 0;

    explicit ContactChances(const evidence::Tables& tables);
};

enum class ContactKind { moved, handled, bag, item };

/// A dated contact by which mites of one enclosure may have reached another.
struct Contact {
    ContactKind kind = ContactKind::moved;
    std::size_t from = 0;
    std::size_t to = 0;
    int order = 0;  ///< place in the journal, from 1; contacts of one session share it
    int day = 0;    ///< counted from the first day looked at
    double chance = 0;
    const records::AnimalId* giver =
        nullptr;  ///< null where no animal took part; for a move both are the animal
    const records::AnimalId* receiver = nullptr;
    const std::string* item = nullptr;
};

struct Arrived {
    const records::AnimalId* animal = nullptr;
    std::size_t enclosure = 0;
    int order = 0;
    int day = 0;
};

/// Contact with animals elsewhere.
struct FromOutside {
    const records::OutsideContact* fact = nullptr;
    int order = 0;
    int day = 0;
};

struct ContactList {
    std::vector<Contact> contacts;  ///< in time order
    std::vector<Arrived> arrivals;
    std::vector<FromOutside> outside;
    int end_order = 1;  ///< above every order
};

/// Contacts and arrivals from day `from` to day `to`. `entries` are in force, in order, and outlive the list.
[[nodiscard]] ContactList read_contacts(std::span<const records::Entry> entries, const Places& places,
                                        const ContactChances& chances, units::Day from, units::Day to);

}  // namespace mitefall::exposure
