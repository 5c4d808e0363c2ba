#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "cli/commands.h"
#include "cli/parse.h"
#include "records/limits.h"
#include "service/asked_first.h"
#include "service/clearance.h"
#include "units/whole_days.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;
using records::AnimalId;
using records::EnclosureId;
using records::Fact;
using records::RoomId;

/// What every "record" command has: the day, the entry it corrects, and what is said to what it asks.
struct Recording {
    Context& context;
    std::string day;
    records::FactId corrects = 0;
    bool knowing = false;
    std::string knowing_because;
    bool is_quarantine_said = false;  ///< of an arrival: yes or no
};

/// "How sure are we that no mite is left: 52 % now, 1.2 % after it.\n"
std::string tell_change(const std::string& what, const std::optional<base::Band>& before,
                        const std::optional<base::Band>& after) {
    if (!before && !after) return {};
    const auto show = [](const std::optional<base::Band>& band) {
        return band ? fmt::format("{} %", units::show_number(band->mean * 100, 2)) : std::string("not known");
    };
    return fmt::format("{}: {} now, {} after it.\n", what, show(before), show(after));
}

/// All that is asked, and what it does to the chances.
Result<std::string> tell_asks(const Context& context, const service::Keeper& keeper,
                              const std::vector<service::Ask>& asks,
                              const std::vector<service::DatedFact>& facts) {
    std::string text;
    bool moves_mites = false;
    for (const service::Ask& ask : asks) {
        text += ask.text + "\n";
        if (!ask.tell.empty()) text += "Tell whoever takes it:\n";
        for (const service::Tell& line : ask.tell) {
            text += "  - " + line.text;
            text += line.tag ? fmt::format(" ({})\n", evidence::to_text(*line.tag)) : std::string("\n");
        }
        moves_mites |= ask.kind == service::AskKind::move || ask.kind == service::AskKind::departure;
    }
    if (!moves_mites) return text;
    service::PlanOptions options;
    options.progress = context.progress("Working out what it does");
    const auto done = keeper.ask(context.now(), service::consequence_of, facts, options);
    if (!done) return fail(done.error());
    return text + tell_change("Chance that no mite is left", done->clear_before, done->clear_after) +
           tell_change("Chance that the adopted plan clears them", done->course_before, done->course_after);
}

/// What somebody said to what is asked.
struct Said {
    std::vector<std::string> keys;  ///< yes to these, at the terminal or by --knowing
    bool needs_reason = false;      ///< no yes will do
};

Result<Said> acknowledge(const Recording& recording, const service::Keeper& keeper,
                         const std::vector<service::DatedFact>& facts, const service::ReleaseChance& chance) {
    const Context& context = recording.context;
    const auto asks = keeper.ask(context.now(), service::asked_first, facts, chance);
    if (!asks) return fail(asks.error());
    Said said;
    for (const service::Ask& ask : *asks) said.keys.push_back(ask.key);
    said.needs_reason =
        std::any_of(asks->begin(), asks->end(), [](const service::Ask& ask) { return ask.needs_reason; });
    if (asks->empty() || said.needs_reason) return said;
    const auto text = tell_asks(context, keeper, *asks, facts);
    if (!text) return fail(text.error());
    context.tell(*text);
    const bool knows = recording.knowing || !recording.knowing_because.empty();
    if (knows || context.ask("Record it all the same?") == Context::Said::yes) return said;
    return Said{};
}

/// The error as somebody at the command line can act on it.
base::Error at_the_command_line(base::Error error, const Fact& fact, bool needs_reason) {
    error.where.clear();
    error.value.clear();
    if (std::holds_alternative<records::QuarantineEnded>(fact))
        error.remedy = "wait, or give the reason with --because \"...\"";
    else if (needs_reason)
        error.remedy = "wait, or record the end of the quarantine with its reason (record quarantine-end)";
    else
        error.remedy =
            "add --knowing to record it all the same, or --knowing-because \"...\" to tell why as well";
    return error;
}

/// Records what was said yes to, or asks.
Result<std::vector<records::FactId>> record_asking(const Recording& recording, service::Keeper& keeper,
                                                   const service::DatedFact& dated) {
    const Context& context = recording.context;
    const std::vector<service::DatedFact> facts{dated};
    std::map<AnimalId, std::optional<double>> known;
    const service::ReleaseChance work_out = [&](const AnimalId& animal) -> std::optional<double> {
        const auto release =
            keeper.ask(context.now(), service::release_of, animal, service::ClearanceOptions());
        if (!release || release->release.points.empty()) return std::nullopt;
        return release->release.points.front().none.clear.mean;
    };
    const service::ReleaseChance chance = [&](const AnimalId& animal) {
        const auto [place, is_new] = known.emplace(animal, std::nullopt);
        if (is_new) place->second = work_out(animal);
        return place->second;
    };
    if (const auto ok = keeper.would_accept(facts, context.now()); !ok) return fail(ok.error());
    const auto said = acknowledge(recording, keeper, facts, chance);
    if (!said) return fail(said.error());
    auto added = service::record_knowingly(keeper, facts, said->keys, chance, context.now(),
                                           recording.knowing_because);
    if (!added && added.error().where == "acknowledged")
        return fail(at_the_command_line(added.error(), dated.fact, said->needs_reason));
    return added;
}

/// One word of a command line, whatever is in it.
std::string shell_word(const std::string& text) {
    std::string word = "'";
    for (const char c : text) word += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return word + "'";
}

/// What is proposed of an arrival that is not to be kept apart and may still be in its usual quarantine;
/// empty: nothing is.
std::string quarantine_proposed(const Recording& recording, const service::DatedFact& dated) {
    const auto* const arrived = std::get_if<records::AnimalArrived>(&dated.fact);
    if (arrived == nullptr || arrived->quarantine || recording.is_quarantine_said) return {};
    const Context& context = recording.context;
    const auto usual = context.knowledge().tables.time("quarantine");
    const units::Days least = units::at_least_days(usual.low);
    if (dated.day + least <= context.now().today) return {};
    return fmt::format(
        "Quarantine is proposed for what comes from outside: at least {} days,\nin a room of its own ({}).\n",
        least.count(), evidence::to_text(usual.tag));
}

/// The command that puts an arrival on record into quarantine after all.
std::string quarantine_command(const Context& context, const service::DatedFact& dated,
                               records::FactId entry) {
    const auto& arrived = std::get<records::AnimalArrived>(dated.fact);
    const auto option = [](const char* name, const std::string& value) {
        return value.empty() ? std::string() : fmt::format(" {} {}", name, shell_word(value));
    };
    return fmt::format("{} record arrival {}{}{}{} --enclosure {} --on {} --quarantine --corrects {}{}",
                       context.program(), arrived.animal.text(), option("--name", arrived.name),
                       option("--kind", arrived.taxon), option("--origin", arrived.origin),
                       arrived.enclosure.text(), units::format_day(dated.day), entry,
                       context.file() == context.usual_file() ? "" : option("--file", context.file()));
}

Result<void> put_on_record(const Recording& recording, const Result<Fact>& fact) {
    if (!fact) return fail(fact.error());
    units::Day day = recording.context.now().today;
    if (!recording.day.empty()) {
        const auto parsed = for_option("--on", units::parse_day(recording.day));
        if (!parsed) return fail(parsed.error());
        day = *parsed;
    }
    auto keeper = recording.context.open();
    if (!keeper) return fail(keeper.error());
    service::DatedFact dated{day, *fact};
    if (recording.corrects != 0) dated.corrects = recording.corrects;
    std::string proposed = quarantine_proposed(recording, dated);
    if (!proposed.empty()) {
        const auto said = recording.context.ask(proposed + "Put it in quarantine?");
        std::get<records::AnimalArrived>(dated.fact).quarantine = said == Context::Said::yes;
        if (said != Context::Said::nobody) proposed.clear();
    }
    const auto added = record_asking(recording, *keeper, dated);
    if (!added) return fail(added.error());
    const std::vector<records::FactId>& ids = *added;
    if (!proposed.empty()) {
        recording.context.tell(proposed +
                               fmt::format("It is not in quarantine. To put it there:\n  {}\n"
                                           "Say --no-quarantine where it does not come from outside.\n",
                                           quarantine_command(recording.context, dated, ids.front())));
    }
    recording.context.answer("record",
                             fmt::format("On record as entry {} ({}). \"undo\" takes it back.\n", ids.front(),
                                         units::format_day(day)),
                             [&] {
                                 return formats::Json{{"ids", ids}};
                             });
    return {};
}

/// The question back about a name of several kinds.
base::Error which_kind(const evidence::Taxa& taxa, const evidence::Taxa::Meaning& meaning,
                       const std::string& kind) {
    std::string names;
    for (const evidence::Taxon* const one : meaning.kinds)
        names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", taxa.plain_name(*one));
    base::Error error = base::invalid("several kinds of animal are called so", kind, names);
    error.remedy = "say which of them it is";
    error.where = "--kind";
    return error;
}

/// The fact with its kind of animal by its full name; a name of several kinds is asked about.
Result<Fact> with_full_kind(const Context& context, Result<Fact> fact) {
    if (!fact) return fact;
    auto* const arrived = std::get_if<records::AnimalArrived>(&*fact);
    auto* const noted = std::get_if<records::BystanderNoted>(&*fact);
    std::string* const kind = arrived ? &arrived->taxon : noted ? &noted->taxon : nullptr;
    if (kind == nullptr) return fact;
    const evidence::Taxa& taxa = context.knowledge().taxa;
    const auto meaning = taxa.meaning(*kind);
    if (meaning.how == evidence::Understood::several) return fail(which_kind(taxa, meaning, *kind));
    if (meaning.how == evidence::Understood::trade_name) {
        const evidence::Taxon& taxon = *meaning.kinds.front();
        context.tell(fmt::format("\"{}\" is taken for {} ({}).\n", records::on_one_line(*kind),
                                 taxa.plain_name(taxon), taxon.scientific));
        *kind = taxa.plain_name(taxon);
    }
    return fact;
}

/// Adds "record NAME"; `fill` adds the options and returns how to make the fact from them.
using FactMaker = std::function<Result<Fact>()>;
void add_kind(CLI::App& record, const std::shared_ptr<Recording>& recording, const std::string& name,
              const std::string& help, const std::function<FactMaker(CLI::App&)>& fill) {
    CLI::App* const command = record.add_subcommand(name, help);
    command->add_option("--on", recording->day, "Day it happened (default: today)");
    command->add_flag("--knowing", recording->knowing,
                      "Record it although it asks first: you have read what it does");
    command->add_option("--knowing-because", recording->knowing_because,
                        "The same, with why; the reason goes on record");
    command->add_option("--corrects", recording->corrects, "Number of the entry this one replaces");
    recording->context.on_chosen(*command, [recording, make = fill(*command)] {
        return put_on_record(*recording, with_full_kind(recording->context, make()));
    });
}

/// Options live as long as the command that reads them.
template <class Options>
std::shared_ptr<Options> make_options() {
    return std::make_shared<Options>();
}

struct PlaceOptions {
    std::string id, name, temperature, night, room, material = "sealed", substrate = "paper";
    double humidity = 50, floor_cm2 = 0;
    std::vector<std::string> adjoining;
};

void add_climate_options(CLI::App& command, PlaceOptions& options) {
    command.add_option("--name", options.name, "What people call it");
    command.add_option("--temperature", options.temperature, "Temperature by day, like \"28 C\"")->required();
    command.add_option("--night", options.night, "Temperature by night (default: as by day)");
    command.add_option("--humidity", options.humidity, "Relative humidity in percent")->capture_default_str();
    command.add_option("--floor-cm2", options.floor_cm2, "Floor area in square centimetres")->required();
}

FactMaker room_options(CLI::App& command) {
    const auto o = make_options<PlaceOptions>();
    command.add_option("ID", o->id, "Short name, like snake-room")->required();
    add_climate_options(command, *o);
    command.add_option("--adjoins", o->adjoining, "Rooms next to it");
    return [o]() -> Result<Fact> {
        const auto climate = parse_climate(o->temperature, o->night, o->humidity);
        if (!climate) return fail(climate.error());
        std::vector<RoomId> rooms;
        for (const std::string& id : o->adjoining) rooms.emplace_back(id);
        return records::RoomAdded{RoomId(o->id), o->name.empty() ? o->id : o->name, *climate, rooms,
                                  units::square_centimetres(o->floor_cm2)};
    };
}

FactMaker enclosure_options(CLI::App& command) {
    const auto o = make_options<PlaceOptions>();
    command.add_option("ID", o->id, "Short name, like a-01")->required();
    command.add_option("--room", o->room, "Room it stands in")->required();
    command.add_option("--material", o->material, "sealed (plastic, glass) or porous (wood)")
        ->capture_default_str();
    command.add_option("--substrate", o->substrate, "paper, loose or none")->capture_default_str();
    add_climate_options(command, *o);
    return [o]() -> Result<Fact> {
        const auto climate = parse_climate(o->temperature, o->night, o->humidity);
        if (!climate) return fail(climate.error());
        const auto material = parse_choice<records::Material>("--material", o->material);
        if (!material) return fail(material.error());
        const auto substrate = parse_choice<records::Substrate>("--substrate", o->substrate);
        if (!substrate) return fail(substrate.error());
        return records::EnclosureAdded{EnclosureId(o->id),
                                       o->name.empty() ? o->id : o->name,
                                       RoomId(o->room),
                                       *material,
                                       *substrate,
                                       *climate,
                                       units::square_centimetres(o->floor_cm2)};
    };
}

struct AnimalOptions {
    std::string id, name, taxon, origin, enclosure, reason;
    bool quarantine = false;
};

FactMaker arrival_options(CLI::App& command, const std::shared_ptr<Recording>& recording) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ID", o->id, "Short name, like juno")->required();
    command.add_option("--name", o->name, "What people call it");
    command.add_option("--kind", o->taxon, "Species: scientific, common or trade name");
    command.add_option("--origin", o->origin, "Where it comes from");
    command.add_option("--enclosure", o->enclosure, "Enclosure it goes into")->required();
    const CLI::Option* const said =
        command.add_flag("--quarantine,!--no-quarantine", o->quarantine,
                         "It is in quarantine, or is not; proposed for what comes from outside");
    return [o, recording, said]() -> Result<Fact> {
        recording->is_quarantine_said = said->count() > 0;
        return records::AnimalArrived{AnimalId(o->id), o->name.empty() ? o->id : o->name, o->taxon,
                                      o->origin,       EnclosureId(o->enclosure),         o->quarantine};
    };
}

FactMaker move_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--to", o->enclosure, "Enclosure it goes into")->required();
    return [o]() -> Result<Fact> { return records::AnimalMoved{AnimalId(o->id), EnclosureId(o->enclosure)}; };
}

FactMaker departure_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--because", o->reason, "Why it left");
    return [o]() -> Result<Fact> { return records::AnimalLeft{AnimalId(o->id), o->reason}; };
}

FactMaker quarantine_end_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("ANIMAL", o->id)->required();
    command.add_option("--because", o->reason, "Why, if mites were seen near it, or before the usual time");
    return [o]() -> Result<Fact> { return records::QuarantineEnded{AnimalId(o->id), o->reason}; };
}

FactMaker bystander_options(CLI::App& command) {
    const auto o = make_options<AnimalOptions>();
    command.add_option("NAME", o->name)->required();
    command.add_option("--kind", o->taxon, "Species or group: dog, cat, fish, frog ...")->required();
    command.add_option("--room", o->enclosure, "Room it lives in (default: the whole house)");
    return [o]() -> Result<Fact> { return records::BystanderNoted{o->name, o->taxon, RoomId(o->enclosure)}; };
}

struct ContactOptions {
    std::vector<std::string> animals;
    bool shared_bag = false;
    std::string item, from, to;
};

FactMaker handling_options(CLI::App& command) {
    const auto o = make_options<ContactOptions>();
    command.add_option("ANIMALS", o->animals, "In the order in which they were handled")->required();
    command.add_flag("--shared-bag", o->shared_bag, "They were put into the same bag or tub");
    return [o]() -> Result<Fact> {
        records::Handled fact;
        for (const std::string& id : o->animals) fact.animals.emplace_back(id);
        fact.shared_bag = o->shared_bag;
        return fact;
    };
}

FactMaker shared_item_options(CLI::App& command) {
    const auto o = make_options<ContactOptions>();
    command.add_option("ITEM", o->item, "Tool, hide or water bowl")->required();
    command.add_option("--from", o->from, "Enclosure it was used in")->required();
    command.add_option("--to", o->to, "Enclosure it was used in next")->required();
    return [o]() -> Result<Fact> {
        return records::ItemShared{o->item, EnclosureId(o->from), EnclosureId(o->to)};
    };
}

struct ObservationOptions {
    std::string animal, value, state, agent, note, enclosure, count, where = "on-animal",
                                                                     method = "look-over";
    bool ended = false;
};

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

struct CareOptions {
    std::string enclosure, room, method, strength, substrate = "paper", animal, who, text, dish;
    std::vector<std::string> animals;
    int treatments = 0;
};

Result<units::Strength> optional_strength(const std::string& text) {
    if (text.empty()) return units::Strength{};
    return for_option("--strength", units::parse_strength(text));
}

FactMaker treatment_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_option("METHOD", o->method, "What was done: " + records::list_texts<records::Method>())
        ->required();
    command.add_option("--animals", o->animals, "Animals treated (default: the enclosure only)");
    command.add_option("--strength", o->strength, "Strength of the spray, like \"10 mg/L\"");
    return [o]() -> Result<Fact> {
        const auto method = parse_choice<records::Method>("METHOD", o->method);
        if (!method) return fail(method.error());
        const auto strength = optional_strength(o->strength);
        if (!strength) return fail(strength.error());
        records::Treated fact{EnclosureId(o->enclosure), {}, *method, *strength};
        for (const std::string& id : o->animals) fact.animals.emplace_back(id);
        return fact;
    };
}

FactMaker room_treatment_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ROOM", o->room)->required();
    command.add_option("--strength", o->strength, "Strength of the spray, like \"5000 mg/L\"");
    return [o]() -> Result<Fact> {
        const auto strength = optional_strength(o->strength);
        if (!strength) return fail(strength.error());
        return records::RoomTreated{RoomId(o->room), *strength};
    };
}

FactMaker substrate_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_option("--to", o->substrate, "paper, loose or none")->capture_default_str();
    return [o]() -> Result<Fact> {
        const auto substrate = parse_choice<records::Substrate>("--to", o->substrate);
        if (!substrate) return fail(substrate.error());
        return records::SubstrateChanged{EnclosureId(o->enclosure), *substrate};
    };
}

FactMaker water_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    command.add_option("DISH", o->dish, "out or back")->required()->check(CLI::IsMember({"out", "back"}));
    return [o]() -> Result<Fact> { return records::WaterMoved{EnclosureId(o->enclosure), o->dish == "out"}; };
}

FactMaker wetting_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ENCLOSURE", o->enclosure)->required();
    return [o]() -> Result<Fact> { return records::PaperWetted{EnclosureId(o->enclosure)}; };
}

FactMaker direction_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("ANIMAL", o->animal)->required();
    command.add_option("METHOD", o->method, "What was directed: " + records::list_texts<records::Method>())
        ->required();
    command.add_option("--who", o->who, "The veterinarian")->required();
    command.add_option("--text", o->text, "The direction, in full")->required();
    command.add_option("--up-to", o->strength,
                       "Strongest mix it names, like \"200 mg/L\" (default: none above the published ones)");
    command.add_option("--treatments", o->treatments, "How many it names (default: one)")
        ->check(CLI::Range(1, 100));
    return [o]() -> Result<Fact> {
        const auto method = parse_choice<records::Method>("METHOD", o->method);
        if (!method) return fail(method.error());
        const auto strength = o->strength.empty() ? Result<units::Strength>(units::Strength{})
                                                  : for_option("--up-to", units::parse_strength(o->strength));
        if (!strength) return fail(strength.error());
        return records::VetDirection{AnimalId(o->animal), *method, o->who, o->text, *strength, o->treatments};
    };
}

FactMaker acknowledgement_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("STRENGTH", o->strength, "Like \"200 mg/L\"")->required();
    command.add_option("--animal", o->animal,
                       "The animal it is for (left out: only for places where no animal lives)");
    return [o]() -> Result<Fact> {
        const auto strength = for_option("STRENGTH", units::parse_strength(o->strength));
        if (!strength) return fail(strength.error());
        return records::StrengthAcknowledged{*strength, AnimalId(o->animal)};
    };
}

void add_withdraw(CLI::App& app, Context& context) {
    struct Options {
        records::FactId entry = 0;
        std::string reason;
    };
    const auto o = make_options<Options>();
    CLI::App* const command =
        app.add_subcommand("withdraw", "Take an entry of the journal out of force; it stays readable");
    command->add_option("ENTRY", o->entry, "Number of the entry (see \"journal\")")->required();
    command->add_option("--because", o->reason, "Why");
    context.on_chosen(*command, [o, &context]() -> Result<void> {
        auto keeper = context.open();
        if (!keeper) return fail(keeper.error());
        const auto id =
            keeper->correct(o->entry, records::Withdrawn{o->reason}, context.now().today, context.now());
        if (!id) return fail(id.error());
        context.answer("withdraw", fmt::format("Entry {} is withdrawn.\n", o->entry), [&] {
            return formats::Json{{"ids", {*id}}};
        });
        return {};
    });
}

}  // namespace

void add_record_commands(CLI::App& app, Context& context) {
    CLI::App* const record = app.add_subcommand("record", "Put a fact on record");
    record->require_subcommand(1);
    record->fallthrough();
    const auto recording = std::make_shared<Recording>(Recording{context, {}, 0, false, {}, false});
    const auto add = [&](const char* name, const char* help, FactMaker (*fill)(CLI::App&)) {
        add_kind(*record, recording, name, help, fill);
    };
    add("sighting", "Mites were seen", sighting_options);
    add("check", "Somebody looked for mites", check_options);
    add("room", "A room", room_options);
    add("enclosure", "An enclosure", enclosure_options);
    add_kind(*record, recording, "arrival", "An animal comes into the collection",
             [recording](CLI::App& command) { return arrival_options(command, recording); });
    add("move", "An animal goes to another enclosure", move_options);
    add("departure", "An animal leaves the collection", departure_options);
    add("quarantine-end", "An animal is no longer in quarantine", quarantine_end_options);
    add("bystander", "Other life in the house: dogs, cats, fish, frogs ...", bystander_options);
    add("handling", "Animals handled one after another", handling_options);
    add("shared-item", "A tool, hide or bowl used in two enclosures", shared_item_options);
    add("weight", "An animal was weighed", weight_options);
    add("shed", "An animal is cloudy, or has shed", shed_options);
    add("condition", "An animal falls ill, is gravid, reacted ... or no longer", condition_options);
    add("treatment", "A treatment was given", treatment_options);
    add("room-treatment", "Floor, racks and walls of a room were treated", room_treatment_options);
    add("substrate", "Substrate was changed", substrate_options);
    add("water", "The water dish went out or back", water_options);
    add("wetting", "Sprayed paper was wetted again with the spray", wetting_options);
    add("direction", "A veterinarian directed something", direction_options);
    add("acknowledgement", "You have read the caution about a strength and accept it",
        acknowledgement_options);
    add_withdraw(app, context);
}

}  // namespace mitefall::cli
