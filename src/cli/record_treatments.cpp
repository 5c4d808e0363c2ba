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
using records::RoomId;

struct CareOptions {
    std::string enclosure, room, method, strength, substrate = "paper", animal, who, text, dish;
    std::vector<std::string> animals;
    int treatments = 0;
};

Result<units::Strength> optional_strength(const std::string& text) {
    if (text.empty()) return units::Strength{};
    return for_option("--strength", units::parse_strength(text));
}

}  // namespace

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

FactMaker veterinarian_options(CLI::App& command) {
    const auto o = make_options<CareOptions>();
    command.add_option("NAME", o->who, "Who is rung, like \"Clinic at the bridge\"")->required();
    command.add_option("--telephone", o->text, "As it is dialled, like \"+49 30 1234567\"")->required();
    return [o]() -> Result<Fact> { return records::VeterinarianNamed{o->who, o->text}; };
}

}  // namespace mitefall::cli
