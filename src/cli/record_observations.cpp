#include "cli/record_options.h"

#include <string>
#include <vector>

#include "cli/parse.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::AnimalId;
using records::EnclosureId;
using records::Fact;

struct ObservationOptions {
    std::string animal, value, state, agent, note, enclosure, count, where = "on-animal",
                                                                     method = "look-over";
    std::vector<std::string> signs, gone;
    bool ended = false;
};

template <class Word>
Result<std::vector<Word>> parse_all(const char* option, const std::vector<std::string>& texts) {
    std::vector<Word> words;
    for (const std::string& text : texts) {
        const auto word = parse_choice<Word>(option, text);
        if (!word) return fail(word.error());
        words.push_back(*word);
    }
    return words;
}

}  // namespace

FactMaker weight_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("MASS", o->value, "Like \"450 g\"")->required();
    return [o]() -> Result<Fact> {
        const auto mass = for_option("MASS", units::parse_mass(o->value));
        if (!mass) return fail(mass.error());
        return records::Weighed{AnimalId(o->animal), *mass};
    };
}

FactMaker shed_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("STATE", o->state, "cloudy, shed, or clear: no longer cloudy, and no shed was seen")
        ->required();
    return [o]() -> Result<Fact> {
        const auto state = parse_choice<records::ShedState>("STATE", o->state);
        if (!state) return fail(state.error());
        return records::ShedSeen{AnimalId(o->animal), *state};
    };
}

FactMaker condition_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command
        .add_option("CONDITION", o->state, "sick, thin, dehydrated, neonate, gravid, neurological or reacted")
        ->required();
    command.add_flag("--ended", o->ended, "It is over");
    command.add_option("--agent", o->agent, "What it reacted to");
    command.add_option("--note", o->note);
    return [o]() -> Result<Fact> {
        const auto condition = parse_choice<records::Condition>("CONDITION", o->state);
        if (!condition) return fail(condition.error());
        return records::ConditionNoted{AnimalId(o->animal), *condition, !o->ended, o->agent, o->note};
    };
}

FactMaker asked_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    const std::string all = records::list_texts<records::AskedState>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("--no", o->gone, "What it is not: " + all);
    command.add_option("--unknown", o->signs, "What nobody can say: " + all);
    return [o]() -> Result<Fact> {
        const auto no = parse_all<records::AskedState>("--no", o->gone);
        if (!no) return fail(no.error());
        const auto unknown = parse_all<records::AskedState>("--unknown", o->signs);
        if (!unknown) return fail(unknown.error());
        return records::StateAsked{AnimalId(o->animal), *no, *unknown};
    };
}

FactMaker signs_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("SIGN", o->signs, "Signs seen: none, or of " + records::list_texts<records::Sign>());
    command.add_option("--gone", o->gone, "Signs that were seen before and are gone");
    return [o]() -> Result<Fact> {
        if (o->signs.empty() && o->gone.empty())
            return fail(base::invalid("no sign is named", o->animal, "none, or the signs seen",
                                      "say \"none\" where none of them is there"));
        const bool is_none = o->signs == std::vector<std::string>{"none"};
        const auto seen = parse_all<records::Sign>("SIGN", is_none ? std::vector<std::string>{} : o->signs);
        if (!seen) return fail(seen.error());
        const auto gone = parse_all<records::Sign>("--gone", o->gone);
        if (!gone) return fail(gone.error());
        return records::SignsNoted{AnimalId(o->animal), *seen, *gone};
    };
}

FactMaker sighting_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_option("COUNT", o->count, "How many mites: 1, 2-10, 11-50 or more")->required();
    command.add_option("--where", o->where, "on-animal, in-water, on-hands or on-paper")
        ->capture_default_str();
    return [o]() -> Result<Fact> {
        const auto count = parse_choice<records::SeenCount>("COUNT", o->count);
        if (!count) return fail(count.error());
        const auto where = parse_choice<records::SeenWhere>("--where", o->where);
        if (!where) return fail(where.error());
        return records::Sighted{EnclosureId(o->enclosure), *count, *where};
    };
}

FactMaker check_options(CLI::App& command) {
    const auto o = make_options<ObservationOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_option("COUNT", o->count, "Mites found: none, 1, 2-10, 11-50 or more")->required();
    command.add_option("--method", o->method, "look-over, soak, wipe or paper-trap")->capture_default_str();
    command.add_option("--where", o->note,
                       "Where they were found: on-animal, in-water, on-hands or on-paper");
    return [o]() -> Result<Fact> {
        const auto count = parse_choice<records::SeenCount>("COUNT", o->count);
        if (!count) return fail(count.error());
        const auto method = parse_choice<records::CheckMethod>("--method", o->method);
        if (!method) return fail(method.error());
        records::Checked fact{EnclosureId(o->enclosure), *method, *count};
        if (o->note.empty()) return fact;
        const auto where = parse_choice<records::SeenWhere>("--where", o->note);
        if (!where) return fail(where.error());
        fact.where = *where;
        return fact;
    };
}

FactMaker trap_routine_options(CLI::App& command) {
    const auto days = make_options<int>();
    command.add_option("--every", *days, "Days between two readings; 0: traps are no longer kept")
        ->required();
    return [days]() -> Result<Fact> { return records::TrapRoutine{*days}; };
}

}  // namespace mitefall::cli
