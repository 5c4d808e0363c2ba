#pragma once

#include <fstream>
#include <sstream>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "formats/json/json.h"

// Holds outputs and case files against the schemas of docs/schemas.
namespace mitefall::formats {

inline std::string read_text(const std::string& path_from_root) {
    std::ifstream file(std::string(MITEFALL_ROOT) + "/" + path_from_root, std::ios::binary);
    if (!file) throw std::runtime_error("no such file: " + path_from_root);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

inline nlohmann::json schema_of(const std::string& name) {
    return nlohmann::json::parse(read_text("docs/schemas/" + name + ".schema.json"));
}

/// What the schema has against a text; empty if nothing.
inline std::string faults_of(const std::string& text, const std::string& schema_name) {
    using Adapter = valijson::adapters::NlohmannJsonAdapter;
    const auto schema_json = schema_of(schema_name);
    valijson::Schema schema;
    // Other schemas refer to the closed choices by the name of their file.
    const auto fetch = [](const std::string& file) {
        return new nlohmann::json(nlohmann::json::parse(read_text("docs/schemas/" + file)));
    };
    valijson::SchemaParser().populateSchema(Adapter(schema_json), schema, fetch,
                                            [](const nlohmann::json* fetched) { delete fetched; });
    const auto target = nlohmann::json::parse(text);
    valijson::ValidationResults results;
    if (valijson::Validator().validate(schema, Adapter(target), &results)) return {};
    std::string faults = "not as in " + schema_name + ":";
    for (const auto& result : results) {
        faults += "\n ";
        for (const std::string& step : result.context) faults += step;
        faults += ": " + result.description;
    }
    return faults;
}

inline std::string faults_of(const Json& result, const std::string& schema_name) {
    return faults_of(write_json(envelope("test", result)), schema_name);
}

}  // namespace mitefall::formats
