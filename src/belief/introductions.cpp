#include "belief/introductions.h"

#include <algorithm>
#include <cmath>

#include "base/contract.h"

namespace mitefall::belief {
namespace {

constexpr double days_per_year = 365.25;
constexpr int entry_cells = 6;  // stretches of the days looked back on, of equal length

/// 1 - exp(-x): the chance of at least one.
double any_of(double expected) { return -std::expm1(-expected); }

IntroductionPrior::Founders founders_row(const evidence::Tables& tables, evidence::NumberKey key) {
    const auto row = tables.number(key);
    return {units::as_number(row.low), units::as_number(row.value), units::as_number(row.high)};
}

class SourceWriter {
  public:
    SourceWriter(const scenario::Scenario& scenario, double at, const IntroductionPrior& prior)
        : scenario_(scenario), at_(at) {
        sources_.prior = prior;
    }

    void add_arrival(const scenario::ArrivalOnRecord& arrival) {
        Introduction one{IntroductionKind::arrival,
                         arrival.place,
                         arrival.time,
                         arrival.time,
                         arrival.animal,
                         arrival.name};
        one.after = Terrain::order_of_event(arrival.event) + 1;
        add(one, sources_.prior.arrival_carries, 1);
    }

    /// First on its day, as an animal that comes.
    void add_contact(const scenario::OutsideOnRecord& contact) {
        const double chance = sources_.prior.outside.into_one_of(contact.places.size(), contact.what);
        for (const scenario::PlaceIndex place : contact.places) {
            Introduction one{IntroductionKind::outside,   place, contact.time, contact.time, {},
                             scenario_.places[place].name};
            one.contact = contact.entry;
            one.what = contact.what;
            add(one, chance, 1);
        }
    }

    void add_unnoticed(scenario::PlaceIndex place, double expected) {
        add({IntroductionKind::unnoticed, place, 0, at_, {}, scenario_.places[place].name},
            any_of(expected / entry_cells), entry_cells);
    }

    void add_longer(scenario::PlaceIndex place, double chance) {
        add({IntroductionKind::longer, place, 0, 0, {}, scenario_.places[place].name}, chance, 1);
    }

    /// One for each place; the days are those of its first and last find.
    void add_just_then(const scenario::Look& look) {
        for (Introduction& known : sources_.introductions) {
            if (known.kind != IntroductionKind::just_then || known.place != look.place) continue;
            known.last_day = look.time;
            return;
        }
        Introduction one{IntroductionKind::just_then,      look.place, look.time, look.time, {},
                         scenario_.places[look.place].name};
        one.prior = sources_.prior.errors.unexplained;
        sources_.introductions.push_back(std::move(one));
    }

    Sources finish() {
        double log_none = 0;
        for (const Cell& cell : sources_.cells) {
            sources_.introductions[cell.introduction].prior +=
                (1 - sources_.introductions[cell.introduction].prior) * cell.chance;
            log_none += std::log1p(-cell.chance);
        }
        sources_.none = std::exp(log_none);
        sources_.alike_until = ends_of_alike(sources_.cells);
        return std::move(sources_);
    }

  private:
    void add(const Introduction& introduction, double chance, int cells) {
        if (!(chance > 0)) return;
        const auto index = static_cast<std::uint32_t>(sources_.introductions.size());
        sources_.introductions.push_back(introduction);
        const double length = (introduction.last_day - introduction.first_day) / cells;
        for (int i = 0; i < cells; ++i) {
            const double first = introduction.first_day + length * i;
            sources_.cells.push_back({index, first, first + length, chance});
        }
    }

    const scenario::Scenario& scenario_;
    double at_;
    Sources sources_;
};

double whole_number_of(const IntroductionPrior::Founders& founders, double u) {
    return std::max(1.0,
                    std::round(mites::triangular_quantile(founders.low, founders.mode, founders.high, u)));
}

}  // namespace

IntroductionPrior introduction_prior(const evidence::Tables& tables) {
    IntroductionPrior prior;
    const auto share = [&](evidence::ShareKey key) { return units::as_fraction(tables.part(key).value); };
    prior.arrival_carries = share("arrival_carries");
    prior.unnoticed_entries_per_year = units::as_number(tables.number("unnoticed_entries_per_year").value);
    prior.there_for_longer = share("there_for_longer");
    prior.arrival_founders = founders_row(tables, "arrival_founders");
    prior.longer_founders = founders_row(tables, "longer_founders");
    prior.outside = mites::outside_chances(tables);
    prior.errors = {share("record_careless"), share("find_unexplained")};
    return prior;
}

std::uint32_t Sources::just_then(scenario::PlaceIndex place) const {
    const auto found = std::find_if(introductions.begin(), introductions.end(), [&](const Introduction& one) {
        return one.kind == IntroductionKind::just_then && one.place == place;
    });
    base::expects(found != introductions.end(), "mites were found there");
    return static_cast<std::uint32_t>(found - introductions.begin());
}

Sources list_sources(const scenario::Scenario& scenario, const FromOutside& outside,
                     std::span<const scenario::Look> looks, double at, const IntroductionPrior& prior) {
    base::expects(at > 0, "there are days to look back on");
    SourceWriter writer(scenario, at, prior);
    for (const scenario::ArrivalOnRecord& arrival : outside.arrivals) {
        if (arrival.time <= at) writer.add_arrival(arrival);
    }
    for (const scenario::OutsideOnRecord& contact : outside.contacts) {
        if (contact.time <= at) writer.add_contact(contact);
    }
    const auto n = static_cast<double>(scenario.places.size());
    const double entries = prior.unnoticed_entries_per_year * at / days_per_year;
    for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p) writer.add_unnoticed(p, entries / n);
    const std::vector<int> animals = scenario::animals_at(scenario, 0);
    const auto inhabited =
        static_cast<double>(std::count_if(animals.begin(), animals.end(), [](int a) { return a > 0; }));
    for (scenario::PlaceIndex p = 0; p < scenario.places.size(); ++p) {
        if (animals[p] > 0)
            writer.add_longer(p, -std::expm1(std::log1p(-prior.there_for_longer) / inhabited));
    }
    for (const scenario::Look& look : looks) {
        if (scenario::is_find(look)) writer.add_just_then(look);
    }
    return writer.finish();
}

void add_founders(const Sources& sources, std::uint32_t index, std::uint32_t slot, const Pace& pace,
                  base::RandomStream& random, std::vector<Founder>& founders) {
    const Cell& cell = sources.cells[index];
    const Introduction& introduction = sources.introductions[cell.introduction];
    const double time = cell.first_day + (cell.last_day - cell.first_day) * random.uniform();
    if (is_single(introduction.kind)) {
        founders.push_back({introduction.place, mites::Stage::adult_seeking_1, 0, time, 0, slot});
        return;
    }
    const bool longer = introduction.kind == IntroductionKind::longer;
    const double number = whole_number_of(
        longer ? sources.prior.longer_founders : sources.prior.arrival_founders, random.uniform());
    for (int i = 0; i < static_cast<int>(number); ++i) {
        const int meal = longer ? static_cast<int>(random.uniform() * mites::meal_count) : 0;
        const auto stage =
            static_cast<mites::Stage>(static_cast<int>(mites::Stage::adult_feeding_1) + 3 * meal);
        const int substage = static_cast<int>(random.uniform() * pace.draw->erlang_shape);
        founders.push_back({introduction.place, stage, substage, time, introduction.after, slot});
    }
}

std::vector<std::uint32_t> ends_of_alike(std::span<const Cell> cells) {
    std::vector<std::uint32_t> ends(cells.size(), static_cast<std::uint32_t>(cells.size()));
    for (std::size_t c = cells.size(); c-- > 1;) {
        const bool is_alike = cells[c - 1].chance == cells[c].chance;
        ends[c - 1] = is_alike ? ends[c] : static_cast<std::uint32_t>(c);
    }
    return ends;
}

void draw_cells(const Sources& sources, base::RandomStream& random, std::vector<std::uint32_t>& cells) {
    for (std::uint32_t next = 0; next < sources.cells.size();) {
        // The first to happen among cells of equal chance is geometric; where the chance changes, start
        // again.
        const std::uint32_t end = sources.alike_until[next];
        const double first = next + random.failures(sources.cells[next].chance);
        next = end;
        if (first >= end) continue;
        cells.push_back(static_cast<std::uint32_t>(first));
        next = cells.back() + 1;
    }
}

}  // namespace mitefall::belief
