#include "store/fact_json.h"

#include <algorithm>
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

/// Watches for a key that stands twice in one object. (The library's parser with a callback does so too, but
/// goes through every row of a list again after each: an adopted course of a thousand animals took half a
/// second.)
class RepeatedKey : public json::json_sax_t {
  public:
    [[nodiscard]] const std::string& found() const { return found_; }

    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t&) override { return true; }
    bool string(string_t&) override { return true; }
    bool binary(binary_t&) override { return true; }
    bool start_array(std::size_t) override { return true; }
    bool end_array() override { return true; }
    bool start_object(std::size_t) override {
        begin_.push_back(keys_.size());
        return true;
    }
    bool key(string_t& name) override {
        const auto own = keys_.begin() + static_cast<std::ptrdiff_t>(begin_.back());
        if (std::find(own, keys_.end(), name) != keys_.end()) found_ = name;
        keys_.push_back(name);
        return true;
    }
    bool end_object() override {
        keys_.resize(begin_.back());
        begin_.pop_back();
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const json::exception&) override { return false; }

  private:
    std::vector<std::string> keys_;   ///< of every object not yet closed, outermost first
    std::vector<std::size_t> begin_;  ///< of the keys of each
    std::string found_;
};

/// The parsed body; discarded where it is not JSON.
json parse_body(std::string_view body, std::string& repeated) {
    json parsed = json::parse(body, nullptr, false);
    if (parsed.is_discarded()) return parsed;
    RepeatedKey watch;
    static_cast<void>(json::sax_parse(body, &watch));
    repeated = watch.found();
    return parsed;
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
