#include "tables/reading.h"

#include <algorithm>

#include "tables/amounts.h"
#include "tables/days.h"

namespace mitefall::tables {
namespace {

using base::fail;
using base::Result;

template <class E>
using Choices = std::vector<std::pair<std::string_view, E>>;

const Choices<records::Material> materials{
    {"sealed", records::Material::sealed}, {"plastic", records::Material::sealed},
    {"glass", records::Material::sealed},  {"pvc", records::Material::sealed},
    {"porous", records::Material::porous}, {"wood", records::Material::porous}};
const Choices<records::Substrate> substrates{
    {"paper", records::Substrate::paper},     {"loose", records::Substrate::loose},
    {"none", records::Substrate::none},       {"bare", records::Substrate::none},
    {"newspaper", records::Substrate::paper}, {"bark", records::Substrate::loose},
    {"aspen", records::Substrate::loose},     {"soil", records::Substrate::loose}};
const Choices<bool> yes_or_no{{"1", true},  {"y", true},  {"yes", true}, {"true", true},   {"x", true},
                              {"0", false}, {"n", false}, {"no", false}, {"false", false}, {"-", false}};

template <class E>
Read<E> read_choice(const Choices<E>& choices, std::string_view text) {
    const std::string key = folded(text);
    for (const auto& [name, value] : choices) {
        if (name == key) return value;
    }
    return Fault::not_a_choice;
}

/// What holds for a whole table.
struct Manner {
    std::optional<Order> order;
    Marks marks;
    double usual_grams = 1;
    units::Day today;
};

/// One row: what each cell says, and what in it is not understood.
class Row {
  public:
    Row(int number, const std::vector<std::string>& cells, const Matching& matching,
        std::vector<Problem>& problems)
        : number_(number), cells_(cells), matching_(matching), problems_(problems) {}

    [[nodiscard]] std::string text(Field field) const {
        const auto column = matching_.find(field);
        if (column == matching_.end() || column->second >= cells_.size()) return {};
        return std::string(trimmed(cells_[column->second]));
    }

    /// nullopt: the cell says nothing, or nothing that is understood.
    template <class F>
    auto read(Field field, F reader) {
        using T = std::variant_alternative_t<0, decltype(reader(std::string()))>;
        const std::string said = text(field);
        if (said.empty()) return std::optional<T>();
        const auto value = reader(said);
        if (const auto* const good = std::get_if<0>(&value)) return std::optional<T>(*good);
        // A day that may be two is asked about for the whole table.
        const Fault fault = std::get<Fault>(value);
        if (fault != Fault::two_days) problems_.push_back({number_, field, fault, said, false, {}});
        return std::optional<T>();
    }

    void refuse(Fault fault, std::string value = {}, std::optional<base::Error> error = {}) {
        problems_.push_back({number_, std::nullopt, fault, std::move(value), true, std::move(error)});
    }

  private:
    int number_;
    const std::vector<std::string>& cells_;
    const Matching& matching_;
    std::vector<Problem>& problems_;
};

/// Reads the rows of one table, one after the other.
class Reader {
  public:
    Reader(const Cells& cells, const Wishes& wishes, const OnRecord& on_record, const evidence::Taxa& taxa,
           const std::map<int, base::Error>& refused)
        : cells_(cells),
          wishes_(wishes),
          on_record_(on_record),
          taxa_(taxa),
          refused_(refused),
          gatherer_(on_record) {}

    Result<Reading> read() {
        auto matching = match_columns(cells_.headings, wishes_.columns);
        if (!matching) return fail(matching.error());
        reading_.matching = std::move(*matching);
        settle_manner();
        note_same_names();
        for (std::size_t i = 0; i < cells_.rows.size(); ++i) {
            if (!cells_.rows[i].empty()) read_row(static_cast<int>(i) + 1, cells_.rows[i]);
        }
        reading_.facts = gatherer_.in_order();
        reading_.counts = gatherer_.counts();
        return std::move(reading_);
    }

  private:
    [[nodiscard]] std::vector<std::string> column(Field field) const {
        std::vector<std::string> list;
        const auto found = reading_.matching.find(field);
        if (found == reading_.matching.end()) return list;
        for (const auto& row : cells_.rows) {
            if (found->second < row.size()) list.push_back(row[found->second]);
        }
        return list;
    }

    void settle_manner() {
        const std::vector<std::string> days = column(Field::arrived);
        const OrderTold told = order_of(days);
        manner_ = {told.order ? told.order : wishes_.order, marks_of(column(Field::weight)), 1,
                   on_record_.today};
        if (const auto weight = reading_.matching.find(Field::weight); weight != reading_.matching.end())
            manner_.usual_grams = grams_of_heading(cells_.headings[weight->second]);
        if (!told.ask || wishes_.order) return;
        for (const std::string& day : days) {
            const auto [day_first, month_first] = days_in(day);
            if (day_first && month_first && day_first != month_first)
                reading_.days_of_two.emplace_back(trimmed(day));
        }
    }

    /// Names that stand in several rows, or on record: asked about once each.
    void note_same_names() {
        const auto found = reading_.matching.find(Field::animal);
        if (found == reading_.matching.end()) return;
        std::map<std::string, SameName> names;
        for (std::size_t i = 0; i < cells_.rows.size(); ++i) {
            if (found->second >= cells_.rows[i].size() || refused_.contains(static_cast<int>(i) + 1))
                continue;
            const std::string name(trimmed(cells_.rows[i][found->second]));
            if (name.empty()) continue;
            SameName& one = names[folded(name)];
            if (one.rows.empty()) one = {name, {}, on_record_.animals.find(name).has_value()};
            one.rows.push_back(static_cast<int>(i) + 1);
        }
        for (auto& [key, one] : names) {
            if ((one.rows.size() > 1 || one.on_record) && !wishes_.others.contains(key)) same_[key] = one;
        }
    }

    /// The first of a name in the table is itself; any other, and one that is on record, is asked about.
    bool is_asked_about(const std::string& animal, int number) {
        const auto found = same_.find(folded(animal));
        if (found == same_.end()) return false;
        const bool is_first = found->second.rows.front() == number && !found->second.on_record;
        return !is_first;
    }

    std::string kind_of(const std::string& written, bool is_animal) {
        if (written.empty()) return {};
        const std::string key = folded(written);
        auto known = std::find_if(reading_.kinds.begin(), reading_.kinds.end(),
                                  [&](const KindWritten& one) { return folded(one.written) == key; });
        if (known == reading_.kinds.end()) {
            KindWritten kind{written, 0, taxa_.meaning(written), written};
            const auto told = wishes_.kinds.find(key);
            const auto how = kind.meaning.how;
            if (told != wishes_.kinds.end())
                kind.name = told->second;
            else if (how == evidence::Understood::trade_name)
                kind.name = taxa_.plain_name(*kind.meaning.kinds.front());
            else if (how == evidence::Understood::several)
                kind.name.clear();
            known = reading_.kinds.insert(reading_.kinds.end(), std::move(kind));
        }
        if (is_animal) ++known->animals;
        return known->name;
    }

    records::EnclosureAdded enclosure_kind(Row& row) {
        records::EnclosureAdded kind = wishes_.enclosure_kind;
        kind.material = row.read(Field::material, [](const auto& t) { return read_choice(materials, t); })
                            .value_or(kind.material);
        kind.substrate = row.read(Field::substrate, [](const auto& t) { return read_choice(substrates, t); })
                             .value_or(kind.substrate);
        if (const auto day = row.read(Field::day_c, read_celsius)) kind.climate.day = units::celsius(*day);
        if (const auto night = row.read(Field::night_c, read_celsius))
            kind.climate.night = units::celsius(*night);
        if (const auto humidity = row.read(Field::humidity, read_percent))
            kind.climate.humidity = units::relative_humidity_percent(*humidity);
        if (const auto floor = row.read(Field::floor, read_area))
            kind.floor = units::square_centimetres(*floor);
        return kind;
    }

    std::optional<units::Day> day_of(Row& row) {
        const auto day = row.read(Field::arrived, [&](const std::string& text) -> Read<units::Day> {
            const auto read = read_day(text, manner_.order);
            const auto* const good = std::get_if<units::Day>(&read);
            return good != nullptr && *good > manner_.today ? Read<units::Day>(Fault::day_to_come) : read;
        });
        return day ? day : wishes_.since;
    }

    /// Whether the row is taken at all.
    bool is_taken(Row& row, int number, const std::string& animal, const std::string& enclosure) {
        if (const auto why = refused_.find(number); why != refused_.end()) {
            row.refuse(Fault::refused, why->second.value, why->second);
            return false;
        }
        if (enclosure.empty()) row.refuse(animal.empty() ? Fault::no_animal : Fault::no_enclosure, animal);
        if (enclosure.empty()) return false;
        if (animal.empty() || !is_asked_about(animal, number)) return true;
        const bool is_left_out = wishes_.leave_out.contains(number);
        if (is_left_out)
            row.refuse(Fault::on_record, animal);
        else if (std::none_of(reading_.same_names.begin(), reading_.same_names.end(),
                              [&](const SameName& one) { return folded(one.name) == folded(animal); }))
            reading_.same_names.push_back(same_.at(folded(animal)));
        return !is_left_out;
    }

    void read_row(int number, const std::vector<std::string>& cells) {
        Row row(number, cells, reading_.matching, reading_.problems);
        RowRead shown{number,
                      row.text(Field::animal),
                      row.text(Field::kind),
                      {},
                      row.text(Field::enclosure),
                      row.text(Field::room),
                      {},
                      {}};
        if (!is_taken(row, number, shown.animal, shown.enclosure)) return;
        if (shown.room.empty()) shown.room = wishes_.room;
        gatherer_.row = number;
        const bool is_animal = !shown.animal.empty();
        shown.kind = kind_of(shown.written, is_animal);
        const auto kind = enclosure_kind(row);
        shown.weight_g = row.read(
            Field::weight, [&](const auto& t) { return read_mass(t, manner_.marks, manner_.usual_grams); });
        shown.since = day_of(row);
        const auto quarantine =
            row.read(Field::quarantine, [](const auto& t) { return read_choice(yes_or_no, t); });
        shown.quarantine = is_animal && quarantine.value_or(wishes_.quarantine);
        const std::string enclosure =
            gatherer_.enclosure(shown.enclosure, gatherer_.room(shown.room, wishes_.room_kind), kind);
        if (is_animal) {
            const std::string id = gatherer_.animal(shown.animal,
                                                    {{},
                                                     {},
                                                     shown.kind,
                                                     row.text(Field::origin),
                                                     records::EnclosureId(enclosure),
                                                     shown.quarantine},
                                                    shown.since);
            if (shown.weight_g) gatherer_.weight(id, units::grams(*shown.weight_g));
        }
        reading_.rows.push_back(std::move(shown));
    }

    const Cells& cells_;
    const Wishes& wishes_;
    const OnRecord& on_record_;
    const evidence::Taxa& taxa_;
    const std::map<int, base::Error>& refused_;
    Gatherer gatherer_;
    Manner manner_;
    std::map<std::string, SameName> same_;
    Reading reading_;
};

}  // namespace

std::set<int> Reading::unseen(const Wishes& wishes) const {
    std::set<int> found;
    for (const Problem& problem : problems) {
        if (!wishes.leave_out.contains(problem.row)) found.insert(problem.row);
    }
    return found;
}

bool Reading::is_open(const Wishes& wishes) const {
    const bool asks_kind = std::any_of(kinds.begin(), kinds.end(), [](const KindWritten& one) {
        return one.meaning.how == evidence::Understood::several && one.name.empty();
    });
    return asks_kind || !days_of_two.empty() || !same_names.empty() || !unseen(wishes).empty();
}

Result<Reading> read_table(const Cells& cells, const Wishes& wishes, const OnRecord& on_record,
                           const evidence::Taxa& taxa, const std::map<int, base::Error>& refused) {
    return Reader(cells, wishes, on_record, taxa, refused).read();
}

}  // namespace mitefall::tables
