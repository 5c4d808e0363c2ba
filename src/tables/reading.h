#pragma once

#include <map>
#include <set>

#include "evidence/taxa.h"
#include "tables/cells.h"
#include "tables/columns.h"
#include "tables/days.h"
#include "tables/fault.h"
#include "tables/gather.h"
#include "tables/numbers.h"

// What a table would put on record, what it leaves open, and what in it is not understood.
namespace mitefall::tables {

/// What holds where the table says nothing, and what was answered to its questions.
struct Wishes {
    std::vector<std::string> columns;  ///< as match_columns reads them
    std::optional<Order> order;
    std::optional<units::Day> since;           ///< animals without a day of their own; without one, today
    bool quarantine = false;                   ///< animals whose row does not tell
    std::map<std::string, std::string> kinds;  ///< the full name of a kind, by how the table has it, folded
    std::set<std::string> others;              ///< names, folded, of animals that are others of the same name
    std::set<int> leave_out;  ///< rows whose problems were seen: what is not understood of them is left out
    std::string room = "Snake room";
    records::RoomAdded room_kind;
    records::EnclosureAdded enclosure_kind;
};

/// Why a row, or a cell of it, is not taken.
struct Problem {
    int row;
    std::optional<Field> field;  ///< nullopt: the row as a whole
    Fault fault;
    std::string value;
    bool costs_row = false;            ///< else only the cell is left out
    std::optional<base::Error> error;  ///< of `refused`
};

/// Two animals of one name: the same, or another?
struct SameName {
    std::string name;
    std::vector<int> rows;
    bool on_record = false;
};

/// A kind as the table has it.
struct KindWritten {
    std::string written;
    std::size_t animals = 0;
    evidence::Taxa::Meaning meaning;
    std::string name;  ///< it goes on record by; of several, as was answered, else empty
};

/// A row as it will be added.
struct RowRead {
    int row;
    std::string animal, written, kind, enclosure, room;
    std::optional<double> weight_g;
    std::optional<units::Day> since;
    bool quarantine = false;
};

struct Reading {
    Matching matching;
    std::vector<Gathered> facts;
    Counts counts;
    std::vector<RowRead> rows;
    std::vector<Problem> problems;
    // Open questions; nothing is put on record while there is one.
    std::vector<std::string> days_of_two;  ///< of which the order must be told
    std::vector<SameName> same_names;
    std::vector<KindWritten> kinds;  ///< those of `several` without a name are asked about

    /// Rows with problems that nobody has seen yet.
    [[nodiscard]] std::set<int> unseen(const Wishes& wishes) const;
    [[nodiscard]] bool is_open(const Wishes& wishes) const;
};

/// `refused`: rows the records do not take, with the reason. Error invalid_input as match_columns.
[[nodiscard]] base::Result<Reading> read_table(const Cells& cells, const Wishes& wishes,
                                               const OnRecord& on_record, const evidence::Taxa& taxa,
                                               const std::map<int, base::Error>& refused = {});

}  // namespace mitefall::tables
