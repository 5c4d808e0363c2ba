#include "store/fact_json.h"

#include <utility>
#include <vector>

#include "store/fact_reader.h"
#include "store/fact_writer.h"

namespace mitefall::store {
namespace {

using base::Result;
using nlohmann::json;
using records::Fact;
using records::FactId;

template <class T>
Result<FactText> encode_as(const T& fact) {
    FactWriter writer;
    records::list_fields(writer, fact);
    if (writer.error()) return base::fail(*writer.error());
    try {
        return FactText{std::string(T::kind.name), writer.body().dump()};
    } catch (const json::type_error&) {
        return base::fail(base::invalid("a text is not UTF-8", std::string(T::kind.name),
                                        "UTF-8 (RFC 8259, section 8.1)", "type the text again"));
    }
}

/// The parsed body, refusing a key that stands twice in one object; discarded where it is not JSON.
json parse_body(std::string_view body, std::string& repeated) {
    std::vector<std::set<std::string>> seen;  // of each object not yet closed
    const auto note_key = [&](int, json::parse_event_t event, json& parsed) {
        if (event == json::parse_event_t::object_start) seen.emplace_back();
        if (event == json::parse_event_t::object_end) seen.pop_back();
        if (event == json::parse_event_t::key && !seen.back().insert(parsed.get<std::string>()).second) {
            repeated = parsed.get<std::string>();
        }
        return true;
    };
    return json::parse(body, note_key, false);
}

template <class T>
Result<Fact> decode_as(FactId id, const json& body) {
    T fact;
    FactReader reader(id, body);
    records::list_fields(reader, fact);
    reader.finish();
    if (reader.error()) return base::fail(*reader.error());
    return Fact(std::move(fact));
}

template <std::size_t... Index>
Result<Fact> decode_kind(FactId id, std::string_view kind, const json& body, std::index_sequence<Index...>) {
    Result<Fact> read = base::fail(
        unreadable(id, "kind", "unknown kind of fact", std::string(kind), "the kinds of this version"));
    const auto try_kind = [&]<class T>(std::type_identity<T>) {
        if (T::kind == kind) read = decode_as<T>(id, body);
    };
    (try_kind(std::type_identity<std::variant_alternative_t<Index, Fact>>{}), ...);
    return read;
}

}  // namespace

Result<FactText> encode(const Fact& fact) {
    return std::visit([](const auto& one) { return encode_as(one); }, fact);
}

Result<Fact> decode(FactId id, std::string_view kind, std::string_view body) {
    std::string repeated;
    const json parsed = parse_body(body, repeated);
    if (!parsed.is_object()) {
        return base::fail(
            unreadable(id, "body", "not a JSON object", std::string(body.substr(0, 60)), "a JSON object"));
    }
    if (!repeated.empty())
        return base::fail(unreadable(id, repeated, "the key stands twice", "", "each key once"));
    return decode_kind(id, kind, parsed, std::make_index_sequence<std::variant_size_v<Fact>>{});
}

}  // namespace mitefall::store
