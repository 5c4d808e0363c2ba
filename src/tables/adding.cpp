#include "tables/adding.h"

#include <fmt/format.h>

namespace mitefall::tables {
namespace {

using base::fail;
using base::Result;

std::vector<service::DatedFact> dated(const std::vector<Gathered>& gathered, std::size_t count) {
    std::vector<service::DatedFact> facts;
    for (std::size_t i = 0; i < count; ++i) facts.push_back({gathered[i].day, gathered[i].fact, {}});
    return facts;
}

/// The first fact that the records do not take, by halves; each finds what it refers to before it.
struct Refusal {
    std::size_t index;
    base::Error error;
};
std::optional<Refusal> first_refused(const service::Keeper& keeper, const std::vector<Gathered>& gathered,
                                     const service::Now& now) {
    auto last = keeper.would_accept(dated(gathered, gathered.size()), now);
    if (last || gathered.empty()) return std::nullopt;
    base::Error why = last.error();
    std::size_t good = 0;
    std::size_t bad = gathered.size();
    while (good + 1 < bad) {
        const std::size_t middle = good + (bad - good) / 2;
        const auto ok = keeper.would_accept(dated(gathered, middle), now);
        if (!ok) why = ok.error();
        (ok ? good : bad) = middle;
    }
    return Refusal{bad - 1, std::move(why)};
}

}  // namespace

Result<Looked> look_at(const service::Keeper& keeper, const service::Knowledge& knowledge,
                       std::string_view text, const Wishes& wishes, const service::Now& now) {
    auto cells = read_cells(text);
    if (!cells) return fail(cells.error());
    const auto journal = keeper.journal();
    if (!journal) return fail(journal.error());
    const OnRecord on_record(*journal, now.today);
    std::map<int, base::Error> refused;
    // Each round finds another row, until the rest is taken.
    constexpr std::size_t most_told = 20;
    while (true) {
        auto reading = read_table(*cells, wishes, on_record, knowledge.taxa, refused);
        if (!reading) return fail(reading.error());
        auto refusal = first_refused(keeper, reading->facts, now);
        if (!refusal || refused.size() >= most_told) {
            if (refusal) return fail(refusal->error);
            return Looked{std::move(*cells), std::move(*reading), journal->empty() ? 0 : journal->back().id};
        }
        const int row = reading->facts[refusal->index].row;
        if (refused.contains(row)) return fail(refusal->error);
        refusal->error.where.clear();  // told by its row
        refused.emplace(row, std::move(refusal->error));
    }
}

namespace {

base::Error open(const std::string& what, std::string value, std::string remedy) {
    return {base::ErrorKind::conflict, what,
            std::move(value),          "all of the table goes on record or none of it",
            std::move(remedy),         {}};
}

/// Why nothing of it goes on record yet.
std::optional<base::Error> open_question(const Reading& reading, const Wishes& wishes) {
    if (!reading.days_of_two.empty())
        return open("a day of the table can be read in two ways", reading.days_of_two.front(),
                    "tell which of day and month stands first");
    for (const KindWritten& kind : reading.kinds) {
        if (kind.meaning.how == evidence::Understood::several && kind.name.empty())
            return open("several kinds of animal are called so", kind.written, "say which it is");
    }
    if (!reading.same_names.empty())
        return open("two animals have the same name", reading.same_names.front().name,
                    "say that it is another animal, or leave its row out");
    if (const auto rows = reading.unseen(wishes); !rows.empty())
        return open(rows.size() == 1 ? "a row is not understood" : "some rows are not understood",
                    fmt::format("{}", fmt::join(rows, ", ")),
                    "put the table right, or say that what is not understood of these rows is left out");
    if (reading.facts.empty()) return base::invalid("the table adds nothing", {}, "a row that is new");
    return std::nullopt;
}

}  // namespace

Result<std::vector<records::FactId>> add(service::Keeper& keeper, const Reading& reading,
                                         const Wishes& wishes, const service::Now& now) {
    if (auto why = open_question(reading, wishes)) return fail(std::move(*why));
    const auto facts = dated(reading.facts, reading.facts.size());
    const service::ReleaseChance nobody_leaves = [](const records::AnimalId&) { return std::nullopt; };
    const auto asks = keeper.ask(now, service::asked_first, facts, nobody_leaves);
    if (!asks) return fail(asks.error());
    // That they are other animals of the same name was asked about the table.
    std::vector<std::string> answered;
    for (const service::Ask& ask : *asks) {
        if (ask.kind == service::AskKind::same_name) answered.push_back(ask.key);
    }
    return service::record_knowingly(keeper, facts, answered, nobody_leaves, now);
}

}  // namespace mitefall::tables
