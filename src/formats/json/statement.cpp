#include "formats/json/statement.h"

#include <cmath>
#include <vector>

#include "formats/json/parts.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

struct Member {
    std::string unit;
    Json value;
};

Json who_json(const statement::Who& who) {
    return {{"id", text_or_null(who.id)}, {"name", text_or_null(who.name)}};
}

struct ToMember {
    Member operator()(units::Day day) const { return {{}, date(day)}; }
    Member operator()(units::TimeSpan time) const { return {"_d", number(units::in_days(time))}; }
    Member operator()(units::Mass mass) const { return {"_g", number(units::in_grams(mass))}; }
    Member operator()(units::Strength strength) const {
        return {"_mg_per_l", number(units::in_milligrams_per_litre(strength))};
    }
    Member operator()(units::Dose dose) const {
        return {"_mg_per_kg", number(units::in_milligrams_per_kilogram(dose))};
    }
    Member operator()(units::Temperature temperature) const {
        return {"_c", number(units::in_celsius(temperature))};
    }
    Member operator()(units::Area area) const { return {"_cm2", number(units::in_square_centimetres(area))}; }
    Member operator()(double plain) const { return {{}, number(plain)}; }
    Member operator()(const std::string& text) const { return {{}, text_or_null(text)}; }
    Member operator()(const statement::Term& term) const { return {{}, term.key}; }
    Member operator()(const statement::Names& names) const { return {{}, list(names, who_json)}; }
    Member operator()(const std::vector<statement::Statement>& inside) const {
        return {{}, list(inside, told_json)};
    }
};

}  // namespace

Json arguments_json(const statement::Statement& statement) {
    Json json = Json::object();
    for (const statement::Argument& argument : statement.arguments) {
        Member member = std::visit(ToMember{}, argument.value);
        json[std::string(argument.name) + member.unit] = std::move(member.value);
    }
    return json;
}

Json told_json(const statement::Statement& statement) {
    return {{"rule", statement.id}, {"args", arguments_json(statement)}, {"text", words::say(statement)}};
}

Json reason_json(const safety::Reason& reason) {
    return {{"ruling", safety::to_text(reason.ruling)},
            {"rule", reason.what.id},
            {"args", arguments_json(reason.what)},
            {"text", words::say(reason.what)},
            {"tag", evidence::to_text(reason.tag)},
            {"source", text_or_null(reason.source)},
            {"until", date(reason.until)},
            {"remedy", text_or_null(words::say(reason.remedy))},
            {"remedy_rule", text_or_null(std::string(reason.remedy.id))},
            {"remedy_args", arguments_json(reason.remedy)},
            {"needs_fact", reason.needs_fact}};
}

Json why_json(const safety::Reason& reason) {
    const words::Shared shared = words::say_shared(reason.what);
    return {{"rule", reason.what.id},
            {"args", arguments_json(reason.what)},
            {"ruling", safety::to_text(reason.ruling)},
            {"until", date(reason.until)},
            {"common", shared.common},
            {"own", text_or_null(shared.own)},
            {"remedy", text_or_null(words::say(reason.remedy))},
            {"remedy_rule", text_or_null(std::string(reason.remedy.id))},
            {"remedy_args", arguments_json(reason.remedy)}};
}

Json caution_json(const safety::Caution& caution) {
    return {{"rule", caution.what.id},
            {"args", arguments_json(caution.what)},
            {"text", words::say(caution.what)},
            {"tag", evidence::to_text(caution.tag)},
            {"source", text_or_null(caution.source)},
            {"animals", names(caution.animals)}};
}

}  // namespace mitefall::formats
