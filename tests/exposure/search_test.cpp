#include "exposure/search.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "exposure/tracing.h"
#include "records/journal.h"
#include "shared/tables.h"

namespace mitefall::exposure {
namespace {

using fixtures::tables;
using records::AnimalId;
using records::day;
using records::EnclosureId;
using records::Journal;
using records::RoomId;
using units::Day;
using units::Days;

constexpr int enclosures = 6;
constexpr int look_back = 60;
const Day last = day(11, 2);
const Day first = last - Days(look_back);

EnclosureId enclosure(int number) { return EnclosureId(fmt::format("e{}", number)); }
AnimalId animal(int number) { return AnimalId(fmt::format("s{}", number)); }

/// Six enclosures with a snake each in four rooms in a row (p-q-r joined, "far" alone), and random contacts.
Journal any_journal() {
    Journal journal;
    journal.add(day(1, 1), records::room("p"));
    journal.add(day(1, 1), records::room("q", {RoomId("p")}));
    journal.add(day(1, 1), records::room("r", {RoomId("q")}));
    journal.add(day(1, 1), records::room("far"));
    const char* const rooms[enclosures] = {"p", "p", "q", "r", "r", "far"};
    for (int i = 0; i < enclosures; ++i) {
        const Day added = i % 2 == 0 ? day(1, 1) : first + Days(*rc::gen::inRange(0, 20));
        journal.add(added, records::tub(enclosure(i).text().c_str(), rooms[i]));
        journal.add(added, records::snake(animal(i).text().c_str(), enclosure(i).text().c_str()));
    }
    const auto some = [] { return *rc::gen::inRange(0, enclosures); };
    for (int i = *rc::gen::inRange(0, 14); i > 0; --i) {
        const Day when = first + Days(*rc::gen::inRange(15, look_back + 1));
        records::Fact fact = records::AnimalMoved{animal(some()), enclosure(some())};
        const int kind = *rc::gen::inRange(0, 3);
        if (kind == 0)
            fact = records::Handled{{animal(some()), animal(some()), animal(some())},
                                    *rc::gen::arbitrary<bool>()};
        if (kind == 1) fact = records::ItemShared{"hook", enclosure(some()), enclosure(some())};
        std::ignore = journal.try_add(when, fact);  // what contradicts is left out
    }
    return journal;
}

/// A slow second implementation: every enclosure at every moment, relaxed until nothing changes. Moments are
/// just before and just after each contact, the first day and the last.
class Slow {
  public:
    Slow(const Places& places, const ContactList& list, const Walking& walking)
        : places_(places), walking_(walking) {
        moments_.push_back(0);
        for (const Contact& contact : list.contacts) {
            if (orders_.empty() || orders_.back() != contact.order) {
                orders_.push_back(contact.order);
                moments_.insert(moments_.end(), {contact.day, contact.day});
            }
            links_.push_back({contact.from, contact.to, 2 * orders_.size() - 1, contact.chance});
        }
        moments_.push_back(look_back);
        back_.assign(moments_.size(), std::vector<double>(places.enclosures.size()));
        onward_ = back_;
    }

    std::vector<double> solve(std::size_t sighted) {
        back_.back()[sighted] = 1;
        for (changed_ = true; changed_;) {
            changed_ = false;
            relax_contacts();
            relax_time();
            for (std::size_t e = 0; e < places_.enclosures.size(); ++e) {
                for (const auto& row : back_) raise(onward_[0][e], row[e]);
            }
        }
        std::vector<double> best(places_.enclosures.size());
        for (const auto& rows : {back_, onward_}) {
            for (const auto& row : rows) {
                for (std::size_t e = 0; e < best.size(); ++e) best[e] = std::max(best[e], row[e]);
            }
        }
        return best;
    }

  private:
    struct Link {
        std::size_t from, to, moment;  ///< of the moment just before
        double chance;
    };

    void raise(double& value, double candidate) {
        if (candidate <= value) return;
        value = candidate;
        changed_ = true;
    }

    void relax_contacts() {
        for (const Link& link : links_) {
            raise(onward_[link.moment + 1][link.to], onward_[link.moment][link.from] * link.chance);
            raise(back_[link.moment][link.from], back_[link.moment + 1][link.to] * link.chance);
        }
    }

    /// Staying (from == to) and walking, from every earlier moment to every later one.
    void relax_time() {
        for (std::size_t a = 0; a < moments_.size(); ++a) {
            for (std::size_t b = a; b < moments_.size(); ++b) {
                for (std::size_t from = 0; from < places_.enclosures.size(); ++from) {
                    for (std::size_t to = 0; to < places_.enclosures.size(); ++to) {
                        const double chance = pass(from, to, moments_[a], moments_[b]);
                        raise(onward_[b][to], onward_[a][from] * chance);
                        raise(back_[a][from], back_[b][to] * chance);
                    }
                }
            }
        }
    }

    double pass(std::size_t from, std::size_t to, int earlier, int later) const {
        if (from == to) return 1;
        const int begin = std::max({earlier, places_.begin[from], places_.begin[to]});
        return chance_of_any(walking_.mites_per_day(places_.room_of[from], places_.room_of[to]) *
                             std::max(0, later - begin));
    }

    const Places& places_;
    const Walking& walking_;
    std::vector<int> moments_;
    std::vector<int> orders_;
    std::vector<Link> links_;
    std::vector<std::vector<double>> back_;
    std::vector<std::vector<double>> onward_;
    bool changed_ = false;
};

TEST(Search, agrees_with_a_slow_second_implementation) {
    EXPECT_TRUE(rc::check("best chances are those of exhaustive relaxation", [] {
        const Journal journal = any_journal();
        const records::Collection collection = records::collection_on(journal.entries, last);
        const Places places(collection, journal.entries, first);
        const auto entries = records::in_force(journal.entries);
        const ContactList list = read_contacts(entries, places, ContactChances(tables()), first, last);
        const Walking walking(places, tables());
        const std::vector<std::size_t> sighted{*rc::gen::inRange<std::size_t>(0, enclosures)};
        const Paths paths = find_paths({places, list, walking, look_back}, sighted);
        const std::vector<double> slow = Slow(places, list, walking).solve(sighted[0]);
        for (std::size_t e = 0; e < slow.size(); ++e) {
            const double fast =
                paths.best[e] < 0 ? 0 : paths.labels[static_cast<std::size_t>(paths.best[e])].chance;
            RC_ASSERT(std::abs(fast - slow[e]) <=
                      1e-12);  // the same products, in another order of multiplication
        }
    }));
}

/// Each step must touch the enclosure the path has reached so far, back links first, then onward links.
void check_chain(const Exposed& exposed) {
    RC_ASSERT(!exposed.path.empty());
    RC_ASSERT(exposed.path[0].kind == StepKind::sighted);
    EnclosureId at = exposed.path[0].to;
    double product = 1;
    for (std::size_t i = 1; i < exposed.path.size(); ++i) {
        const Step& step = exposed.path[i];
        RC_ASSERT(step.from == at || step.to == at);
        RC_ASSERT(step.from != step.to);
        RC_ASSERT(step.chance > 0 && step.chance <= 1);
        RC_ASSERT(step.day >= first && step.day <= last);
        RC_ASSERT(!step.what.empty());
        at = step.from == at ? step.to : step.from;
        product *= step.chance;
    }
    RC_ASSERT(at == exposed.enclosure);
    RC_ASSERT(std::abs(product - exposed.chance) <= 1e-12);
}

TEST(Search, every_path_is_a_chain_whose_links_multiply_to_its_chance) {
    EXPECT_TRUE(rc::check("paths hold together", [] {
        const Journal journal = any_journal();
        const std::vector<EnclosureId> sighted{enclosure(*rc::gen::inRange(0, enclosures))};
        const Tracing tracing = trace(journal.entries, tables(), sighted, last).value();
        RC_ASSERT(tracing.exposed.size() == static_cast<std::size_t>(enclosures));
        RC_ASSERT(tracing.exposed[0].enclosure == sighted[0]);
        double before = 1;
        for (const Exposed& exposed : tracing.exposed) {
            RC_ASSERT(exposed.chance <= before);
            before = exposed.chance;
            if (exposed.chance > 0) check_chain(exposed);
        }
        for (const Exposed& source : tracing.sources) check_chain(source);
    }));
}

TEST(Search, a_longer_record_never_lowers_a_chance) {
    EXPECT_TRUE(rc::check("adding a contact never makes an enclosure safer", [] {
        Journal journal = any_journal();
        const std::vector<EnclosureId> sighted{enclosure(0)};
        const Tracing less = trace(journal.entries, tables(), sighted, last).value();
        std::ignore =
            journal.try_add(last, records::ItemShared{"bowl", enclosure(*rc::gen::inRange(0, enclosures)),
                                                      enclosure(*rc::gen::inRange(0, enclosures))});
        const Tracing more = trace(journal.entries, tables(), sighted, last).value();
        for (const Exposed& before : less.exposed) {
            for (const Exposed& after : more.exposed) {
                if (after.enclosure == before.enclosure) RC_ASSERT(after.chance >= before.chance);
            }
        }
    }));
}

TEST(Search, the_order_of_the_journal_on_disk_does_not_matter) {
    EXPECT_TRUE(rc::check("reversed journals give the same texts in the same order", [] {
        const Journal journal = any_journal();
        const std::vector<EnclosureId> sighted{enclosure(2)};
        auto reversed = journal.entries;
        std::reverse(reversed.begin(), reversed.end());
        const Tracing one = trace(journal.entries, tables(), sighted, last).value();
        const Tracing two = trace(reversed, tables(), sighted, last).value();
        for (std::size_t i = 0; i < one.exposed.size(); ++i) {
            RC_ASSERT(one.exposed[i].enclosure == two.exposed[i].enclosure);
            RC_ASSERT(one.exposed[i].what == two.exposed[i].what);
        }
    }));
}

}  // namespace
}  // namespace mitefall::exposure
