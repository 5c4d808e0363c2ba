#include "formats/text/exposure_table.h"

#include <fmt/format.h>

#include <vector>

#include "formats/text/layout.h"
#include "formats/text/names.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using records::Collection;

/// Where the path is told from: not from the sighting that every path begins with, but from what came in.
std::size_t told_from(const exposure::Exposed& row) {
    return row.path.front().kind == exposure::StepKind::sighted ? 1 : 0;
}

std::string path_text(const exposure::Exposed& row) {
    std::string text;
    for (std::size_t i = row.path.empty() ? 0 : told_from(row); i < row.path.size(); ++i)
        text += (text.empty() ? "" : "; then ") + words::say(row.path[i].what);
    return row.sighted || row.path.size() < 2 ? words::say(row.what) : text;
}

/// Enclosures reached only by walking from one and the same enclosure, at the same chance, are told in one
/// line.
struct WalkedGroup {
    const exposure::Exposed* example = nullptr;
    std::vector<std::string> enclosures;
};

bool is_walked(const exposure::Exposed& row) {
    return row.path.size() >= 2 && (row.path.back().kind == exposure::StepKind::same_room ||
                                    row.path.back().kind == exposure::StepKind::adjoining_room);
}

bool tell_alike(const exposure::Exposed& a, const exposure::Exposed& b) {
    return a.path.size() == b.path.size() && a.path.back().from == b.path.back().from &&
           a.path.back().to_room == b.path.back().to_room &&
           units::show_chance(a.chance) == units::show_chance(b.chance);
}

std::string walked_text(const WalkedGroup& group, const Collection& collection) {
    const exposure::Step& last = group.example->path.back();
    std::string before;
    for (std::size_t i = told_from(*group.example); i + 1 < group.example->path.size(); ++i)
        before += words::say(group.example->path[i].what) + "; then ";
    return fmt::format("{}on foot from {} to any enclosure of {}", before, last.from.text(),
                       room_name(collection, last.to_room));
}

void add_group(Table& table, WalkedGroup& group, const Collection& collection) {
    constexpr std::size_t most_named = 6;
    if (group.example == nullptr) return;
    const std::string names = group.enclosures.size() > most_named
                                  ? fmt::format("{} enclosures", group.enclosures.size())
                                  : join(group.enclosures);
    table.add({units::show_chance(group.example->chance), names,
               room_name(collection, group.example->path.back().to_room), walked_text(group, collection)});
    group = {};
}

}  // namespace

std::string exposure_table(const exposure::Tracing& tracing, const Collection& collection) {
    WalkedGroup group;
    Table table({"CHANCE", "ENCLOSURE", "ROOM", "WHY"});
    for (const exposure::Exposed& row : tracing.exposed) {
        if (!(row.chance > 0)) continue;
        const bool walked = is_walked(row);
        if (!walked || (group.example != nullptr && !tell_alike(*group.example, row)))
            add_group(table, group, collection);
        if (walked) {
            if (group.example == nullptr) group.example = &row;
            group.enclosures.push_back(row.enclosure.text());
        } else {
            table.add({row.sighted ? "seen" : units::show_chance(row.chance), row.enclosure.text(),
                       room_name(collection, collection.enclosures.at(row.enclosure).room), path_text(row)});
        }
    }
    add_group(table, group, collection);
    return table.text();
}

}  // namespace mitefall::formats
