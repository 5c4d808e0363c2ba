#include "formats/json/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mitefall::formats {
namespace {

using base::Error;

/// Walks the text without building anything and remembers the first reason to refuse it.
class Inspector : public nlohmann::json_sax<Json> {
  public:
    Inspector(std::string_view text, const DocumentLimits& limits) : text_(text), limits_(limits) {}

    bool null() override { return value(); }
    bool boolean(bool) override { return value(); }
    bool number_integer(number_integer_t) override { return value(); }
    bool number_unsigned(number_unsigned_t) override { return value(); }
    bool number_float(number_float_t, const string_t&) override { return value(); }
    bool string(string_t&) override { return value(); }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(); }
    bool start_array(std::size_t) override { return open(); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(string_t& key) override {
        Level& level = levels_.back();
        level.key = key;
        level.is_object = true;
        if (level.keys.size() == limits_.most_keys)
            return refuse("too many keys in one object", fmt::format("{} keys", limits_.most_keys));
        if (level.keys.insert(key).second) return true;
        refuse("the key stands twice", "each key once in an object", "remove one of the two");
        error_->value = key.substr(0, most_shown);
        return false;
    }

    bool parse_error(std::size_t position, const std::string& last,
                     const nlohmann::detail::exception&) override {
        error_ =
            base::invalid("not valid JSON", last.substr(0, most_shown),
                          "JSON as in RFC 8259, numbers that are finite", "correct the file at this place");
        error_->where = line_and_column(position);
        return false;
    }

    [[nodiscard]] const std::optional<Error>& error() const { return error_; }

  private:
    struct Level {
        bool is_object = false;
        std::string key;
        std::size_t next = 0;  ///< elements of an array so far
        std::set<std::string> keys;
    };

    static constexpr std::size_t most_shown = 60;

    bool value() {
        if (!levels_.empty()) ++levels_.back().next;
        if (++elements_ <= limits_.most_elements) return true;
        return refuse("too many values in one document", fmt::format("{} values", limits_.most_elements),
                      "split it");
    }

    bool open() {
        if (!value()) return false;
        if (levels_.size() == limits_.deepest)
            return refuse("too many levels within one another", fmt::format("{} levels", limits_.deepest));
        levels_.emplace_back();
        return true;
    }

    bool refuse(std::string what, std::string limit, std::string remedy = "correct the file at this place") {
        error_ = base::invalid(std::move(what), "", std::move(limit), std::move(remedy));
        error_->where = pointer();
        return false;
    }

    bool close() {
        levels_.pop_back();
        return true;
    }

    [[nodiscard]] std::string pointer() const {
        std::string pointer;
        for (const Level& level : levels_) {
            if (!level.is_object && level.next == 0) continue;  // nothing in it yet
            pointer = pointer_to(pointer, level.is_object ? level.key : std::to_string(level.next - 1));
        }
        return pointer;
    }

    [[nodiscard]] std::string line_and_column(std::size_t position) const {
        const std::string_view before = text_.substr(0, std::min(position, text_.size()));
        const auto line = std::count(before.begin(), before.end(), '\n') + 1;
        const std::size_t line_end = before.rfind('\n');
        const std::size_t column =
            line_end == std::string_view::npos ? before.size() : before.size() - line_end - 1;
        return fmt::format("line {}, column {}", line, column);
    }

    std::string_view text_;
    const DocumentLimits& limits_;
    std::vector<Level> levels_;
    std::size_t elements_ = 0;
    std::optional<Error> error_;
};

}  // namespace

std::string pointer_to(std::string_view pointer, std::string_view key) {
    std::string extended(pointer);
    extended += '/';
    for (const char c : key) {
        if (c == '~')
            extended += "~0";
        else if (c == '/')
            extended += "~1";
        else
            extended += c;
    }
    return extended;
}

base::Result<Json> read_document(std::string_view text, const DocumentLimits& limits) {
    if (text.size() > limits.most_bytes) {
        Error error = base::invalid("the file is too large", fmt::format("{} bytes", text.size()),
                                    fmt::format("{} bytes", limits.most_bytes), "split it");
        error.where = "whole file";
        return base::fail(std::move(error));
    }
    Inspector inspector(text, limits);
    const bool sound = Json::sax_parse(text, &inspector);
    if (inspector.error()) return base::fail(*inspector.error());
    Json document = Json::parse(text, nullptr, false);
    if (!sound || document.is_discarded()) return base::fail(base::invalid("not valid JSON", "", "", ""));
    return document;
}

}  // namespace mitefall::formats
