#include "cli/record_options.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::Fact;

struct SignOptions {
    std::string animal;
    std::vector<std::string> seen, gone;
};

}  // namespace

FactMaker weight_options(CLI::App& command) {
    using records::Weighed;
    return FactOptions<Weighed>(command)
        .needs("ANIMAL", &Weighed::animal)
        .needs("MASS", &Weighed::mass, "Like \"450 g\"");
}

FactMaker shed_options(CLI::App& command) {
    using records::ShedSeen;
    return FactOptions<ShedSeen>(command)
        .needs("ANIMAL", &ShedSeen::animal)
        .needs("STATE", &ShedSeen::state, "cloudy, shed, or clear: no longer cloudy, and no shed was seen");
}

FactMaker condition_options(CLI::App& command) {
    using Noted = records::ConditionNoted;
    return FactOptions<Noted>(command)
        .needs("ANIMAL", &Noted::animal)
        .needs("CONDITION", &Noted::condition,
               "sick, thin, dehydrated, neonate, gravid, neurological or reacted")
        .flag("--ended", &Noted::present, "It is over", false)
        .may("--agent", &Noted::agent, "What it reacted to")
        .may("--note", &Noted::note);
}

FactMaker asked_options(CLI::App& command) {
    using Answered = records::StateAsked;
    const std::string all = records::list_texts<records::AskedState>();
    return FactOptions<Answered>(command)
        .needs("ANIMAL", &Answered::animal)
        .may("--no", &Answered::no, "What it is not: " + all)
        .may("--unknown", &Answered::unknown, "What nobody can say: " + all);
}

FactMaker signs_options(CLI::App& command) {
    const auto o = std::make_shared<SignOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("SIGN", o->seen, "Signs seen: none, or of " + records::list_texts<records::Sign>());
    command.add_option("--gone", o->gone, "Signs that were seen before and are gone");
    return [o]() -> Result<Fact> {
        if (o->seen.empty() && o->gone.empty())
            return fail(base::invalid("no sign is named", o->animal, "none, or the signs seen",
                                      "say \"none\" where none of them is there"));
        const bool is_none = o->seen == std::vector<std::string>{"none"};
        const auto seen = parse_all<records::Sign>("SIGN", is_none ? std::vector<std::string>{} : o->seen);
        if (!seen) return fail(seen.error());
        const auto gone = parse_all<records::Sign>("--gone", o->gone);
        if (!gone) return fail(gone.error());
        return records::SignsNoted{records::AnimalId(o->animal), *seen, *gone};
    };
}

FactMaker sighting_options(CLI::App& command) {
    using records::Sighted;
    return FactOptions<Sighted>(command)
        .needs("ENCLOSURE", &Sighted::enclosure)
        .needs("COUNT", &Sighted::count, "How many mites: 1, 2-10, 11-50 or more")
        .begins("--where", &Sighted::where, "on-animal, in-water, on-hands or on-paper");
}

FactMaker check_options(CLI::App& command) {
    using records::Checked;
    return FactOptions<Checked>(command)
        .needs("ENCLOSURE", &Checked::enclosure)
        .needs("COUNT", &Checked::count, "Mites found: none, 1, 2-10, 11-50 or more")
        .begins("--method", &Checked::method, "look-over, soak, wipe or paper-trap")
        .may("--where", &Checked::where, "Where they were found: on-animal, in-water, on-hands or on-paper");
}

FactMaker trap_routine_options(CLI::App& command) {
    using Routine = records::TrapRoutine;
    return FactOptions<Routine>(command).needs("--every", &Routine::every_days,
                                               "Days between two readings; 0: traps are no longer kept");
}

}  // namespace mitefall::cli
