#include "cli/record_options.h"

namespace mitefall::cli {

FactMaker arrival_options(CLI::App& command, const std::shared_ptr<Recording>& recording) {
    using Arrival = records::AnimalArrived;
    FactOptions<Arrival> options(command);
    options.needs("ID", &Arrival::animal, "Short name, like juno")
        .may("--name", &Arrival::name, "What people call it")
        .may("--kind", &Arrival::taxon, "Species: scientific, common or trade name")
        .may("--origin", &Arrival::origin, "Where it comes from")
        .needs("--enclosure", &Arrival::enclosure, "Enclosure it goes into")
        .flag("--quarantine,!--no-quarantine", &Arrival::quarantine,
              "It is in quarantine, or is not; proposed for what comes from outside");
    const CLI::Option* const said = command.get_option("--quarantine");
    return options.then([recording, said](Arrival& arrival) {
        recording->is_quarantine_said = said->count() > 0;
        if (arrival.name.empty()) arrival.name = arrival.animal.text();
    });
}

FactMaker move_options(CLI::App& command) {
    using Move = records::AnimalMoved;
    return FactOptions<Move>(command)
        .needs("ANIMAL", &Move::animal)
        .needs("--to", &Move::to, "Enclosure it goes into");
}

FactMaker departure_options(CLI::App& command) {
    using Departure = records::AnimalLeft;
    return FactOptions<Departure>(command)
        .needs("ANIMAL", &Departure::animal)
        .may("--how", &Departure::how, "How: " + records::list_texts<records::LeftHow>())
        .may("--because", &Departure::reason, "Why it left, in your words");
}

FactMaker death_answer_options(CLI::App& command) {
    using Answer = records::DeathAnswered;
    return FactOptions<Answer>(command)
        .needs("ANIMAL", &Answer::animal, "The animal that died")
        .needs("--because", &Answer::why, "Why its company may be treated again");
}

FactMaker quarantine_end_options(CLI::App& command) {
    using End = records::QuarantineEnded;
    return FactOptions<End>(command)
        .needs("ANIMAL", &End::animal)
        .may("--because", &End::reason, "Why, if mites were seen near it, or before the usual time");
}

FactMaker bystander_options(CLI::App& command) {
    using Bystander = records::BystanderNoted;
    return FactOptions<Bystander>(command)
        .needs("NAME", &Bystander::name)
        .needs("--kind", &Bystander::taxon, "Species or group: dog, cat, fish, frog ...")
        .may("--room", &Bystander::room, "Room it lives in (default: the whole house)");
}

FactMaker bystander_moved_options(CLI::App& command) {
    using Move = records::BystanderMoved;
    return FactOptions<Move>(command)
        .needs(
            "NAME", [](Move & move) -> auto& { return move.who.name; }, "As it was noted")
        .either("WHERE", &Move::out, "out", "back")
        .may(
            "--room", [](Move & move) -> auto& { return move.who.room; },
            "Its room, where several have the name");
}

}  // namespace mitefall::cli
