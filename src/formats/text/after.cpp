#include "formats/text/after.h"

#include <fmt/format.h>

#include "formats/text/cautions.h"
#include "formats/text/given.h"
#include "formats/text/layout.h"
#include "formats/text/sure.h"
#include "units/text.h"
#include "words/words.h"

namespace mitefall::formats {

std::string told_text(const std::vector<clearance::Told>& told) {
    std::string text;
    for (const clearance::Told& one : told)
        text += wrap(fmt::format("{}{} {}", words::say(one.what), one.by_mites ? " (mites may carry it)" : "",
                                 source_note(one.source, one.tag)),
                     "  - ", "    ");
    return text;
}

std::string keep_out_text(const clearance::KeepOutAnswer& answer) {
    std::string text = heading("Keeping mites out");
    text += told_text(answer.habits);
    text += fmt::format(
        "\nOne female comes in and nobody sees it. The chance that she or hers are noticed within {} days, "
        "if "
        "they are still alive then:\n\n",
        answer.within_days);
    Table table({"NOTICED", "RANGE", "HOW, IN EVERY ENCLOSURE", "EVERY"});
    for (const clearance::Noticed& one : answer.routines)
        table.add(
            {units::show_chance(one.chance.mean),
             fmt::format("{} to {}", units::show_chance(one.chance.p10), units::show_chance(one.chance.p90)),
             std::string(name_of(one.routine.method)), units::show_number(one.routine.every, 2) + " days"});
    text += table.text();
    if (answer.enclosures_asked < answer.enclosures)
        text +=
            fmt::format("Worked out for {} of the {} enclosures with animals, those that are most alike.\n",
                        answer.enclosures_asked, answer.enclosures);
    text += answer.trap_routine
                ? fmt::format("Traps are on the day's list, every {} days.\n", *answer.trap_routine)
                : std::string("To have traps on the day's list: \"record trap-routine --every 30\".\n");
    return text + of_detection;
}

std::string handover_text(const clearance::Handover& note, const records::Collection& names) {
    std::string text;
    if (!note.risk.empty()) text = wrap(toned(Tone::grave, words::say_all(note.risk)), "! ", "  ") + "\n";
    text += given_text(note.met, names);
    if (note.last_mites)
        text +=
            fmt::format("Mites were last seen where it lived on {}.\n", units::format_day(*note.last_mites));
    else
        text += note.risk.empty()
                    ? "No mites were seen where it lived.\n"
                    : "In its own enclosure nobody has seen any so far; that does not clear it.\n";
    text += fmt::format("Checks without mites: {}", note.clean_checks);
    text += note.last_check ? fmt::format("; the last check on {}.\n", units::format_day(*note.last_check))
                            : ".\n";
    text += note.sure ? fmt::format("No mite with it today: {} (range {}). {}", show_sure(*note.sure),
                                    show_range(*note.sure), of_detection)
                      : std::string("How sure that is cannot be worked out: no mites were ever on record.\n");
    return text + heading("For whoever takes it") + told_text(note.watch_for);
}

}  // namespace mitefall::formats
