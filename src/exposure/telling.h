#pragma once

#include "exposure/search.h"
#include "exposure/tracing.h"

namespace mitefall::exposure {

/// Turns labels into steps, and tells them (paths.def).
class Telling {
  public:
    /// `names`: what the keeper calls each animal, also those that have left.
    Telling(const Places& places, const ContactList& list,
            const std::unordered_map<records::AnimalId, std::string>& names, units::Day from, units::Day to)
        : places_(places), list_(list), names_(names), from_(from), to_(to) {}

    [[nodiscard]] std::vector<Step> tell_path(const Paths& paths, std::ptrdiff_t label) const;
    [[nodiscard]] statement::Statement tell_arrival(const Arrived& arrived) const;
    [[nodiscard]] statement::Statement tell_nothing() const;

  private:
    [[nodiscard]] Step tell_sighting(const Label& label) const;
    [[nodiscard]] Step tell_outside(const Label& label) const;
    [[nodiscard]] Step tell_start(const Label& label) const {
        return label.outside < 0 ? tell_sighting(label) : tell_outside(label);
    }
    [[nodiscard]] Step tell_link(const Label& label, const Label& parent) const;
    void tell_contact(Step& step, const Label& label) const;
    void tell_walk(Step& step, const Label& label, const Label& parent) const;

    [[nodiscard]] statement::Names call(std::size_t enclosure) const;
    [[nodiscard]] statement::Names call(const records::AnimalId& animal) const;
    [[nodiscard]] units::Day day(int number) const { return from_ + units::Days(number); }

    const Places& places_;
    const ContactList& list_;
    const std::unordered_map<records::AnimalId, std::string>& names_;
    units::Day from_;
    units::Day to_;
};

/// A path as one statement: its steps in order.
[[nodiscard]] statement::Statement tell_all(const std::vector<Step>& path);

}  // namespace mitefall::exposure
