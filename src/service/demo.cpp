#include "service/demo.h"

#include <algorithm>
#include <string>

// The tables below are the collection; `ago` is always days before the day of the demonstration.
namespace mitefall::service {
namespace {

using records::AnimalId;
using records::CheckMethod;
using records::Climate;
using records::Condition;
using records::EnclosureId;
using records::Fact;
using records::Material;
using records::Method;
using records::RoomId;
using records::SeenCount;
using records::SeenWhere;
using records::ShedState;
using records::Substrate;

constexpr int from_the_start = 900;

constexpr Climate climate(double day, double night, double humidity) {
    return {units::celsius(day), units::celsius(night), units::relative_humidity_percent(humidity)};
}

constexpr Climate open_room = climate(24, 21, 50);
constexpr Climate snake_rack = climate(30, 27, 60);
constexpr Climate hatchling_rack = climate(29, 27, 65);
constexpr Climate vivarium = climate(29, 24, 55);
constexpr Climate study_vivarium = climate(28, 22, 50);

struct RoomRow {
    const char* id;
    const char* name;
    double square_metres;
    const char* adjoins;  ///< an earlier room, or empty
};
constexpr RoomRow rooms[] = {{"snakes", "Snake room", 18, ""},
                             {"nursery", "Hatchling room", 9, ""},
                             {"study", "Study", 14, "nursery"}};

/// Enclosures of one make, numbered from `from` to `to`.
struct RowOfEnclosures {
    const char* prefix;
    int from;
    int to;
    const char* name;
    const char* room;
    Material material;
    Substrate substrate;
    const Climate* climate;
    double square_centimetres;
    int begin_ago;
};
constexpr RowOfEnclosures enclosure_rows[] = {
    {"a", 1, 11, "Tub A", "snakes", Material::sealed, Substrate::loose, &snake_rack, 3800, from_the_start},
    {"a", 12, 12, "Tub A", "snakes", Material::sealed, Substrate::loose, &snake_rack, 3800, 7},
    {"v", 1, 5, "Vivarium", "snakes", Material::porous, Substrate::loose, &vivarium, 7200, from_the_start},
    {"q", 1, 1, "Quarantine tub", "snakes", Material::sealed, Substrate::paper, &snake_rack, 2400, 22},
    {"b", 1, 18, "Tub B", "nursery", Material::sealed, Substrate::paper, &hatchling_rack, 900,
     from_the_start},
    {"s", 1, 2, "Study vivarium", "study", Material::porous, Substrate::loose, &study_vivarium, 10800,
     from_the_start},
    {"s", 3, 4, "Study vivarium", "study", Material::sealed, Substrate::loose, &study_vivarium, 5400,
     from_the_start},
};

/// Name, kind, place on arrival, and the latest weight.
struct AnimalRow {
    const char* id;
    const char* name;
    const char* taxon;
    const char* enclosure;
    const char* origin;
    int arrived_ago;
    double grams;
    int weighed_ago;
};
constexpr const char* bought = "from a breeder";
constexpr const char* swapped = "from another keeper";
constexpr const char* hatched = "hatched here";
constexpr double never_weighed = 0;
constexpr AnimalRow animals[] = {
    {"ada", "Ada", "ball python", "a-01", bought, 880, 1620, 9},
    {"bruno", "Bruno", "ball python", "a-02", bought, 860, 1180, 9},
    {"cleo", "Cleo", "ball python", "a-03", bought, 850, 1890, 9},
    {"dora", "Dora", "ball python", "a-04", bought, 850, 1450, 16},
    {"juno", "Juno", "ball python", "a-05", bought, 820, 1710, 16},
    {"ezra", "Ezra", "ball python", "a-06", swapped, 700, 1320, 16},
    {"rufus", "Rufus", "ball python", "a-07", bought, 690, 1090, 12},
    {"fern", "Fern", "corn snake", "a-08", hatched, 610, 640, 23},
    {"gus", "Gus", "corn snake", "a-09", hatched, 610, 480, 23},
    {"hazel", "Hazel", "California kingsnake", "a-10", bought, 580, 720, 23},
    {"iris", "Iris", "Honduran milk snake", "a-11", bought, 540, 860, 30},
    {"boris", "Boris", "Boa imperator", "v-01", swapped, 870, 4000, 26},
    {"basil", "Basil", "carpet python", "v-02", bought, 800, 3150, 12},
    {"mabel", "Mabel", "Boa imperator", "v-03", bought, 760, 3400, 26},
    {"clover", "Clover", "Brazilian rainbow boa", "v-04", swapped, 660, 1240, 7},
    {"lena", "Lena", "garter snake", "v-05", bought, 420, 240, 33},
    {"milo", "Milo", "garter snake", "v-05", bought, 420, 130, 33},
    {"otto", "Otto", "ball python", "q-01", swapped, 21, 980, 20},
    {"nell", "Nell", "ball python", "b-01", hatched, 190, 185, 8},
    {"oona", "Oona", "ball python", "b-02", hatched, 190, 172, 8},
    {"perry", "Perry", "ball python", "b-03", hatched, 190, 210, 8},
    {"quinn", "Quinn", "ball python", "b-04", hatched, 190, 230, 8},
    {"rosa", "Rosa", "ball python", "b-05", hatched, 190, 168, 8},
    {"pip", "Pip", "corn snake", "b-06", hatched, 330, 210, 14},
    {"sol", "Sol", "corn snake", "b-07", hatched, 120, 95, 14},
    {"tess", "Tess", "corn snake", "b-08", hatched, 120, 88, 14},
    {"uma", "Uma", "corn snake", "b-09", hatched, 120, 102, 14},
    {"vito", "Vito", "corn snake", "b-10", hatched, 120, 76, 14},
    {"willa", "Willa", "Honduran milk snake", "b-11", hatched, 110, 60, 14},
    {"xenia", "Xenia", "California kingsnake", "b-12", hatched, 110, 72, 14},
    {"yara", "Yara", "western hognose", "b-13", bought, 260, 115, 21},
    {"zeno", "Zeno", "western hognose", "b-14", bought, 260, 140, 21},
    {"nico", "Nico", "ball python", "b-15", hatched, 34, never_weighed, 0},
    {"olive", "Olive", "unknown snake", "b-16", swapped, 75, 260, 21},
    {"petra", "Petra", "Children's python", "b-17", bought, 480, 320, 95},
    {"agatha", "Agatha", "Hermann's tortoise", "s-01", bought, 900, 1150, 28},
    {"wren", "Wren", "ball python", "s-02", bought, 640, 1560, 19},
    {"silas", "Silas", "gopher snake", "s-03", bought, 500, 1240, 19},
    {"thea", "Thea", "western rat snake", "s-04", bought, 450, 980, 19},
};
constexpr const char* in_quarantine = "otto";

/// Weights before the latest: an animal that lost, one that grew.
struct WeightRow {
    const char* animal;
    double grams;
    int ago;
};
constexpr WeightRow earlier_weights[] = {{"clover", 1610, 97}, {"clover", 1490, 63}, {"clover", 1350, 34},
                                         {"pip", 120, 130},    {"pip", 165, 74},     {"juno", 1690, 51},
                                         {"cleo", 1760, 58},   {"boris", 3960, 88}};

struct ConditionRow {
    const char* animal;
    Condition condition;
    const char* agent;
    const char* note;
    int ago;
};
constexpr ConditionRow conditions[] = {
    {"mabel", Condition::reacted, "ivermectin", "limp for a day after the spray", 311},
    {"cleo", Condition::gravid, "", "follicles felt, refuses food", 25},
    {"clover", Condition::thin, "", "has lost weight for three months", 7}};

struct ShedRow {
    const char* animal;
    ShedState state;
    int ago;
};
constexpr ShedRow sheds[] = {{"juno", ShedState::shed, 38}, {"ezra", ShedState::cloudy, 8},
                             {"ezra", ShedState::shed, 1},  {"ada", ShedState::shed, 17},
                             {"otto", ShedState::shed, 15}, {"gus", ShedState::cloudy, 2}};

struct MoveRow {
    const char* animal;
    const char* to;
    int ago;
};
constexpr MoveRow moves[] = {{"rufus", "a-05", 15}, {"rufus", "a-07", 11}, {"pip", "a-12", 6}};

struct ItemRow {
    const char* item;
    const char* from;
    const char* to;
    int ago;
};
constexpr ItemRow items[] = {{"water bowl", "q-01", "a-05", 18},
                             {"hook", "v-01", "v-03", 26},
                             {"hide", "a-05", "b-06", 7},
                             {"feeding tongs", "b-06", "b-07", 5}};

/// Animals in the order in which they were handled, separated by spaces.
struct SessionRow {
    const char* animals;
    bool shared_bag;
    int ago;
};
constexpr SessionRow sessions[] = {{"boris mabel", false, 26},
                                   {"otto juno iris", false, 16},
                                   {"juno basil", true, 12},
                                   {"nell oona perry quinn rosa", false, 8},
                                   {"rufus wren", false, 4}};

constexpr const char* checked_clean[] = {"a-01", "a-02", "v-01", "b-01"};
constexpr int checked_ago = 6;

/// Gathers the facts, each with its day.
class Demo {
  public:
    explicit Demo(units::Day today) : today_(today) {}

    void add(int ago, Fact fact) { facts_.push_back({today_ - units::Days(ago), std::move(fact)}); }

    /// Facts of one day stay as they were added.
    std::vector<DatedFact> in_order() {
        std::stable_sort(facts_.begin(), facts_.end(),
                         [](const DatedFact& a, const DatedFact& b) { return a.day < b.day; });
        return std::move(facts_);
    }

  private:
    units::Day today_;
    std::vector<DatedFact> facts_;
};

std::string two_digits(int number) { return (number < 10 ? "0" : "") + std::to_string(number); }

template <class Id>
std::vector<Id> split_names(const std::string& names) {
    std::vector<Id> ids;
    for (std::size_t at = 0; at < names.size();) {
        const std::size_t end = std::min(names.find(' ', at), names.size());
        ids.emplace_back(names.substr(at, end - at));
        at = end + 1;
    }
    return ids;
}

void add_rooms(Demo& demo) {
    for (const RoomRow& row : rooms) {
        demo.add(from_the_start,
                 records::RoomAdded{RoomId(row.id), row.name, open_room, split_names<RoomId>(row.adjoins),
                                    units::square_metres(row.square_metres)});
    }
    demo.add(from_the_start, records::BystanderNoted{"Bramble", "dog", {}});
}

void add_enclosures(Demo& demo) {
    for (const RowOfEnclosures& row : enclosure_rows) {
        for (int number = row.from; number <= row.to; ++number) {
            const std::string digits = two_digits(number);
            demo.add(row.begin_ago,
                     records::EnclosureAdded{EnclosureId(std::string(row.prefix) + "-" + digits),
                                             std::string(row.name) + " " + digits, RoomId(row.room),
                                             row.material, row.substrate, *row.climate,
                                             units::square_centimetres(row.square_centimetres)});
        }
    }
}

void add_animals(Demo& demo) {
    for (const AnimalRow& row : animals) {
        const bool quarantine = std::string(row.id) == in_quarantine;
        demo.add(row.arrived_ago, records::AnimalArrived{AnimalId(row.id), row.name, row.taxon, row.origin,
                                                         EnclosureId(row.enclosure), quarantine});
        if (row.grams > never_weighed)
            demo.add(row.weighed_ago, records::Weighed{AnimalId(row.id), units::grams(row.grams)});
    }
    for (const WeightRow& row : earlier_weights)
        demo.add(row.ago, records::Weighed{AnimalId(row.animal), units::grams(row.grams)});
}

void add_states(Demo& demo) {
    demo.add(
        312,
        records::Treated{
            EnclosureId("v-03"), {AnimalId("mabel")}, Method::spray_animal, units::milligrams_per_litre(10)});
    for (const ConditionRow& row : conditions) {
        demo.add(row.ago,
                 records::ConditionNoted{AnimalId(row.animal), row.condition, true, row.agent, row.note});
    }
    for (const ShedRow& row : sheds) demo.add(row.ago, records::ShedSeen{AnimalId(row.animal), row.state});
}

void add_contacts(Demo& demo) {
    for (const MoveRow& row : moves)
        demo.add(row.ago, records::AnimalMoved{AnimalId(row.animal), EnclosureId(row.to)});
    for (const ItemRow& row : items)
        demo.add(row.ago, records::ItemShared{row.item, EnclosureId(row.from), EnclosureId(row.to)});
    for (const SessionRow& row : sessions)
        demo.add(row.ago, records::Handled{split_names<AnimalId>(row.animals), row.shared_bag});
}

void add_what_was_seen(Demo& demo) {
    for (const char* const enclosure : checked_clean) {
        demo.add(checked_ago,
                 records::Checked{EnclosureId(enclosure), CheckMethod::look_over, SeenCount::none});
    }
    demo.add(0, records::Sighted{EnclosureId("a-05"), SeenCount::few, SeenWhere::on_animal});
}

}  // namespace

std::vector<DatedFact> demo_facts(units::Day today) {
    Demo demo(today);
    add_rooms(demo);
    add_enclosures(demo);
    add_animals(demo);
    add_states(demo);
    add_contacts(demo);
    add_what_was_seen(demo);
    return demo.in_order();
}

}  // namespace mitefall::service
