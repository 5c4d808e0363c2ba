#include <gtest/gtest.h>

#include <filesystem>

#include "formats/casefile/parameters.h"
#include "records/facts.h"
#include "scene.h"
#include "schemas.h"

// What docs/schemas says of closed choices, parameters and facts, held against what the program says.
namespace mitefall::formats {
namespace {

using nlohmann::json;
using records::MethodRow;

template <class Is>
json methods_that(Is is) {
    json texts = json::array();
    for (const MethodRow& row : records::method_rows) {
        if (is(row)) texts.push_back(row.key);
    }
    return texts;
}

template <class E>
json texts_of() {
    json texts = json::array();
    for (const E value : records::all_of<E>()) texts.push_back(records::to_text(value));
    return texts;
}

json methods_told() {
    const auto on_animals = [](const MethodRow& row) { return row.target == records::Target::animal; };
    return {{"method", texts_of<records::Method>()},
            {"planned_method", methods_that([](const MethodRow& row) { return row.is_planned; })},
            {"method_on_animals",
             methods_that([&](const MethodRow& row) { return on_animals(row) && !row.is_spray; })},
            {"method_in_places",
             methods_that([&](const MethodRow& row) { return !on_animals(row) && !row.is_spray; })}};
}

json parameters_of(ParameterKind kind) {
    json keys = json::array();
    for (const mites::ParameterField& field : mites::parameter_fields()) {
        if (bounds_of(field.key).kind == kind) keys.push_back(field.key);
    }
    return keys;
}

json choices() {
    json told = methods_told();
    told.update({{"material", texts_of<records::Material>()},
                 {"substrate", texts_of<records::Substrate>()},
                 {"shed_state", texts_of<records::ShedState>()},
                 {"condition", texts_of<records::Condition>()},
                 {"asked_state", texts_of<records::AskedState>()},
                 {"sign", texts_of<records::Sign>()},
                 {"left_how", texts_of<records::LeftHow>()},
                 {"seen_count", texts_of<records::SeenCount>()},
                 {"seen_where", texts_of<records::SeenWhere>()},
                 {"check_method", texts_of<records::CheckMethod>()},
                 {"meal_outcome", texts_of<records::MealOutcome>()},
                 {"outside_kind", texts_of<records::OutsideKind>()},
                 {"thing_kind", texts_of<records::ThingKind>()},
                 {"thing_method", texts_of<records::ThingMethod>()},
                 {"share_parameter", parameters_of(ParameterKind::share)},
                 {"rate_parameter", parameters_of(ParameterKind::rate)},
                 {"time_parameter", parameters_of(ParameterKind::time)}});
    return told;
}

std::string unit_told(const std::string& unit) {
    return unit == "1" ? "plain number" : unit == "1/d" ? "per day" : unit == "d" ? "days" : unit;
}

/// What a case may set each drawn parameter to.
json parameters_told() {
    json told = json::object();
    for (const auto& row : tables().rows()) {
        if (mites::find_parameter(row.cited.key) == nullptr) continue;
        const Range range = bounds_of(row.cited.key).range;
        told[std::string(row.cited.key)] = {
            {"description", std::string(row.cited.meaning) + ", " + unit_told(row.unit) + "."},
            {"type", "number"},
            {"minimum", range.low},
            {"maximum", range.high}};
    }
    told["erlang_shape"] = {
        {"description", "Whole number of substages."}, {"type", "integer"}, {"minimum", 1}, {"maximum", 64}};
    told["sighting_quantile"] = {
        {"description", "Where in the range of a sighting the number seen lies, 0 to 1."},
        {"type", "number"},
        {"minimum", 0},
        {"maximum", 1}};
    return told;
}

json vocabulary_told(json schema) {
    json& definitions = schema["definitions"];
    const json told = choices();
    for (const auto& [name, texts] : told.items()) definitions[name]["enum"] = texts;
    const json parameters = parameters_told();
    definitions["parameters"]["properties"] = parameters;
    json keys = json::array();
    for (const auto& [key, form] : parameters.items()) keys.push_back(key);
    definitions["draw"]["propertyNames"]["enum"] = keys;
    definitions["draw"]["minProperties"] = keys.size();
    return schema;
}

/// Written anew where MITEFALL_WRITE_SCHEMAS is set: descriptions stay as they are.
TEST(Schemas, the_vocabulary_is_that_of_the_program) {
    const json is = schema_of("vocabulary");
    const json should = vocabulary_told(is);
    if (std::getenv("MITEFALL_WRITE_SCHEMAS") != nullptr)
        std::ofstream(MITEFALL_ROOT "/docs/schemas/vocabulary.schema.json") << should.dump(2) << "\n";
    EXPECT_EQ(is, should) << "run it with MITEFALL_WRITE_SCHEMAS=1 and look at what changed";
    for (const auto& [name, definition] : is["definitions"].items())
        EXPECT_TRUE(definition.contains("description")) << name;
}

/// Lists of three or more texts that are all of one choice, which should be a reference.
void find_copies(const json& schema, const std::string& at, std::vector<std::string>& found) {
    if (schema.is_object() && schema.contains("enum") && schema["enum"].size() >= 3) {
        const json told = choices();
        for (const auto& [name, texts] : told.items()) {
            const json& list = schema["enum"];
            const json& known = texts;
            const bool is_copy = std::all_of(list.begin(), list.end(), [&](const json& one) {
                return one.is_null() || std::find(known.begin(), known.end(), one) != known.end();
            });
            if (is_copy) found.push_back(at + ": " + name);
        }
    }
    if (!schema.is_structured()) return;
    for (const auto& [key, inner] : schema.items()) find_copies(inner, at + "/" + key, found);
}

TEST(Schemas, no_schema_repeats_a_closed_choice) {
    std::vector<std::string> found;
    for (const auto& file : std::filesystem::directory_iterator(MITEFALL_ROOT "/docs/schemas")) {
        const std::string name = file.path().filename().string();
        // That of the questions is made from them, and they take their words from the records.
        const bool is_made = name == "vocabulary.schema.json" || name == "ask.schema.json";
        if (!name.ends_with(".schema.json") || is_made) continue;
        find_copies(json::parse(read_text("docs/schemas/" + name)), name, found);
    }
    // A finding has some number, so "none" is not among them.
    const std::vector<std::string> meant{
        "case.schema.json/properties/sightings/items/properties/count: seen_count"};
    EXPECT_EQ(found, meant);
}

/// The archive (records/facts/fact.h) that tells what an answer looks like.
class AnswerForm {
  public:
    template <class T>
    void field(records::Key key, const T& value) {
        if (key.unsaid == records::Unsaid::told_otherwise) return;
        json form = form_of(value);
        // A strength of zero stands for "has none", wherever it is.
        if (key.unsaid == records::Unsaid::null) form = or_null(std::move(form));
        properties[key.text] = std::move(form);
        if (key.unsaid != records::Unsaid::left_out) required.push_back(key.text);
    }
    template <class T>
    void later_field(records::Key key, const T& value) {
        field(key, value);
    }

    json properties = json::object();
    json required = json::array();

  private:
    static json or_null(json form) {
        if (form.contains("type") && form["type"].is_string() && form["type"] != "array") {
            form["type"] = json::array({form["type"], "null"});
            return form;
        }
        return {{"oneOf", json::array({form, {{"type", "null"}}})}};
    }
    static json form_of(const std::string&) { return {{"type", "string"}}; }
    static json form_of(bool) { return {{"type", "boolean"}}; }
    static json form_of(int) { return {{"type", "integer"}}; }
    static json form_of(units::Day) {
        return {{"type", "string"}, {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};
    }
    template <class Kind>
    static json form_of(const base::Id<Kind>&) {
        return {{"type", "string"}};
    }
    template <records::Choice E>
    static json form_of(E) {
        const json told = choices();
        for (const auto& [name, texts] : told.items()) {
            if (texts == texts_of<E>()) return {{"$ref", "vocabulary.schema.json#/definitions/" + name}};
        }
        return {};
    }
    template <class E>
    static json form_of(const std::optional<E>&) {
        return form_of(E{});
    }
    template <class T>
    static json form_of(const std::vector<T>&) {
        return {{"type", "array"}, {"items", form_of(T{})}};
    }
    template <records::Described<AnswerForm> Row>
    static json form_of(const Row& row) {
        return of(row);
    }
    /// With its reason by rule, in two parts.
    static json form_of(const records::CourseRefusal& row) {
        json form = of(row);
        const json text_or_null{{"type", {"string", "null"}}};
        form["properties"]["why"] = {{"type", "object"},
                                     {"properties",
                                      {{"rule", text_or_null},
                                       {"common", {{"type", "string"}}},
                                       {"own", text_or_null},
                                       {"remedy", text_or_null}}},
                                     {"required", {"rule", "common", "own", "remedy"}},
                                     {"additionalProperties", false}};
        form["required"].push_back("why");
        return form;
    }
    template <class Quantity>
    requires(!records::Described<Quantity, AnswerForm> && !records::Choice<Quantity>) static json
        form_of(const Quantity&) {
        return {{"type", "number"}};
    }

  public:
    template <class T>
    static json of(const T& fact) {
        AnswerForm form;
        records::list_fields(form, fact);
        return {{"type", "object"},
                {"properties", form.properties},
                {"required", form.required},
                {"additionalProperties", false}};
    }
};

/// Without what only people read, or what only narrows a number.
json bare(json schema) {
    if (!schema.is_structured()) return schema;
    if (schema.is_object()) {
        for (const char* const key : {"minimum", "maximum"}) schema.erase(key);
        if (schema.contains("description") && schema["description"].is_string()) schema.erase("description");
        if (schema.contains("required")) std::sort(schema["required"].begin(), schema["required"].end());
    }
    for (json& inner : schema) inner = bare(std::move(inner));
    return schema;
}

template <class... Kinds>
std::map<std::string, json> forms_of(std::type_identity<std::variant<Kinds...>>) {
    return {{std::string(Kinds::kind.name), bare(AnswerForm::of(Kinds{}))}...};
}

TEST(Schemas, every_kind_of_fact_is_told_as_its_fields_are) {
    std::map<std::string, json> told;
    const json journal = schema_of("journal");
    for (const json& entry : journal["properties"]["result"]["properties"]["entries"]["items"]["oneOf"]) {
        const json& properties = entry["properties"];
        told[properties["kind"]["enum"][0]] = bare(properties["fact"]);
    }
    const auto forms = forms_of(std::type_identity<records::Fact>{});
    EXPECT_EQ(told.size(), forms.size());
    for (const auto& [kind, form] : forms) {
        EXPECT_EQ(told[kind], form) << kind << " should be, in docs/schemas/journal.schema.json:\n"
                                    << form.dump(2);
    }
}

}  // namespace
}  // namespace mitefall::formats
