#pragma once

#include <charconv>

#include "questions/option.h"
#include "tables/reading.h"

namespace mitefall::questions {

/// A table, with what holds where it says nothing and what was answered to its questions.
struct ImportOptions : tables::Wishes {
    std::string text;  ///< sent; what is typed names a file
    std::string file;
    bool dry_run = false;
    double room_day_c = 24, room_night_c = 21, room_humidity = 50, room_floor = 120'000;
    double day_c = 29, night_c = 26, humidity = 55, floor = 3'825;
    records::Material material = records::Material::sealed;
    records::Substrate substrate = records::Substrate::loose;

    [[nodiscard]] tables::Wishes wishes() const {
        tables::Wishes all = *this;
        const auto climate = [](double by_day, double by_night, double percent) {
            return records::Climate{units::celsius(by_day), units::celsius(by_night),
                                    units::relative_humidity_percent(percent)};
        };
        all.room_kind.climate = climate(room_day_c, room_night_c, room_humidity);
        all.room_kind.floor = units::square_centimetres(room_floor);
        all.enclosure_kind.climate = climate(day_c, night_c, humidity);
        all.enclosure_kind.floor = units::square_centimetres(floor);
        all.enclosure_kind.material = material;
        all.enclosure_kind.substrate = substrate;
        return all;
    }
};

// What is said to a table, read into its wishes; errors as of any option.

[[nodiscard]] inline base::Result<void> read_order(ImportOptions& into, const Value& said) {
    const auto& text = std::get<std::string>(said);
    if (!text.empty()) into.order = text == "day" ? tables::Order::day : tables::Order::month;
    return {};
}

/// "king=California kingsnake"
[[nodiscard]] inline base::Result<void> read_kinds(ImportOptions& into, const Value& said) {
    for (const std::string& one : std::get<std::vector<std::string>>(said)) {
        const std::size_t sign = one.rfind('=');
        if (sign == std::string::npos)
            return base::fail(
                base::invalid("a kind is told as WRITTEN=NAME", one, "\"king=California kingsnake\""));
        into.kinds[tables::folded(one.substr(0, sign))] =
            std::string(tables::trimmed(std::string_view(one).substr(sign + 1)));
    }
    return {};
}

[[nodiscard]] inline base::Result<void> read_others(ImportOptions& into, const Value& said) {
    for (const std::string& name : std::get<std::vector<std::string>>(said))
        into.others.insert(tables::folded(name));
    return {};
}

[[nodiscard]] inline base::Result<void> read_rows(ImportOptions& into, const Value& said) {
    for (const std::string& row : std::get<std::vector<std::string>>(said)) {
        int number = 0;
        const auto read = std::from_chars(row.data(), row.data() + row.size(), number);
        if (read.ec != std::errc{} || read.ptr != row.data() + row.size() || number < 1)
            return base::fail(base::invalid("that is no number of a row", row, "1, 2, ..."));
        into.leave_out.insert(number);
    }
    return {};
}

/// Answers to what a table leaves open.
[[nodiscard]] inline std::vector<Option<ImportOptions>> answers_to_a_table() {
    using O = ImportOptions;
    const std::vector<std::string> none;
    auto date_order =
        read_by<O>({"date_order", "--date-order"}, Type::choice,
                   "Which stands first where a day can be read in two ways", std::string(), read_order);
    date_order.choices = {"day", "month"};
    return {
        texts<O>({"columns", "--column"}, &O::columns,
                 "A column that is not what it seems: FIELD=HEADING, FIELD=NUMBER, or FIELD= for none"),
        std::move(date_order),
        read_by<O>({"kind_is", "--kind-is"}, Type::texts,
                   "What a name of several kinds means: \"king=California kingsnake\"", none, read_kinds),
        read_by<O>({"other", "--other"}, Type::texts, "An animal that is another one of the same name", none,
                   read_others),
        read_by<O>({"leave_out", "--leave-out"}, Type::names,
                   "Rows of which you have seen what is not understood: that is left out", none, read_rows)};
}

/// What holds where the table says nothing.
[[nodiscard]] inline std::vector<Option<ImportOptions>> where_a_table_is_silent() {
    using O = ImportOptions;
    const auto since = [](O& into, const Value& said) -> base::Result<void> {
        if (std::get<std::string>(said).empty()) return {};
        const auto day = units::parse_day(std::get<std::string>(said));
        if (!day) return base::fail(day.error());
        into.since = *day;
        return {};
    };
    return {
        read_by<O>({"since", "--since"}, Type::text,
                   "Since when animals are here whose row does not tell (default: today)", std::string(),
                   since),
        flag<O>({"quarantine", "--quarantine"}, &O::quarantine,
                "They are kept in quarantine, unless their row says no"),
        text<O>({"room", "--room"}, &O::room, "Room of enclosures whose row names none"),
        number<O>({"room_day_c", "--room-day"}, &O::room_day_c, {-10, 60}, "Temperature of new rooms by day")
            .in("C"),
        number<O>({"room_night_c", "--room-night"}, &O::room_night_c, {-10, 60},
                  "Temperature of new rooms by night")
            .in("C"),
        number<O>({"room_humidity_percent", "--room-humidity"}, &O::room_humidity, {0, 100},
                  "Humidity of new rooms")
            .in("percent"),
        number<O>({"room_floor_cm2", "--room-floor"}, &O::room_floor, {1'000, 10'000'000},
                  "Floor of new rooms")
            .in("cm2"),
        number<O>({"day_c", "--day"}, &O::day_c, {-10, 60}, "Temperature of new enclosures by day").in("C"),
        number<O>({"night_c", "--night"}, &O::night_c, {-10, 60}, "Temperature of new enclosures by night")
            .in("C"),
        number<O>({"humidity_percent", "--humidity"}, &O::humidity, {0, 100}, "Humidity of new enclosures")
            .in("percent"),
        number<O>({"floor_cm2", "--floor"}, &O::floor, {50, 1'000'000}, "Floor of new enclosures").in("cm2"),
        choice<O>({"material", "--material"}, &O::material, values_of<records::Material>(),
                  "What new enclosures are made of"),
        choice<O>({"substrate", "--substrate"}, &O::substrate, values_of<records::Substrate>(),
                  "What lies in new enclosures")};
}

[[nodiscard]] inline Question<ImportOptions> import_table() {
    using O = ImportOptions;
    return {"import", "Put a table (CSV) of animals on record: rooms, enclosures, animals and weights",
            together<O>(
                {text<O>({"", "FILE"}, &O::file, "The table, or - for standard input").required(),
                 text<O>({"text", ""}, &O::text, "The table"),
                 flag<O>({"dry_run", "--dry-run"}, &O::dry_run, "Show what it would add, and write nothing")},
                together<O>(answers_to_a_table(), where_a_table_is_silent()))};
}

}  // namespace mitefall::questions
