#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "base/error.h"
#include "formats/json/document.h"
#include "formats/json/json.h"
#include "records/method.h"

namespace mitefall::formats {

/// The first thing found wrong with a file. Reading goes on after it; what is read then is thrown away.
class Fault {
  public:
    void note(base::Error error, std::string pointer);
    [[nodiscard]] bool found() const { return error_.has_value(); }
    [[nodiscard]] const std::optional<base::Error>& error() const { return error_; }

  private:
    std::optional<base::Error> error_;
};

/// What a number may be.
struct Range {
    double low = 0;
    double high = 1;
    bool above_low = false;  ///< low itself is refused
    bool whole = false;

    [[nodiscard]] bool holds(double value) const;
    [[nodiscard]] std::string text() const;  ///< "0 to 1", "above 0, at most 100"
};

inline constexpr Range share_range{0, 1, false, false};

/// One object of a file, read key by key. What is missing or wrong goes to the fault, with its pointer.
class Fields {
  public:
    Fields(const Json& object, std::string pointer, Fault& fault);

    /// The value of a key, which from then on counts as known; nullptr if there is none.
    [[nodiscard]] const Json* find(std::string_view key);
    /// The same, and a fault if there is none.
    [[nodiscard]] const Json* need(std::string_view key);

    [[nodiscard]] double number(std::string_view key, Range range);
    [[nodiscard]] double number_or(std::string_view key, double otherwise, Range range);
    [[nodiscard]] std::string text(std::string_view key);

    /// A word of a closed vocabulary: E has `from_text` and `list_texts` in records.
    template <class E>
    [[nodiscard]] E word(std::string_view key, E otherwise) {
        const std::string given = text(key);
        const auto value = records::from_text<E>(given);
        if (!value) refuse(key, "there is no such choice", given, records::list_texts<E>());
        return value.value_or(otherwise);
    }

    void refuse(std::string_view key, std::string what, std::string value, std::string limit);
    [[nodiscard]] std::string pointer(std::string_view key) const;
    [[nodiscard]] Fault& fault() { return fault_; }

    /// A fault for the first key nobody asked for.
    void finish();

  private:
    [[nodiscard]] double checked(std::string_view key, const Json& value, Range range);

    const Json& object_;
    std::string pointer_;
    Fault& fault_;
    std::set<std::string, std::less<>> known_;
};

/// A value as shown in an error: at most 60 bytes of it.
[[nodiscard]] std::string shown(const Json& value);

/// The elements of an array, each with its pointer; a fault if it is none.
template <class F>
void for_elements(const Json& array, const std::string& pointer, Fault& fault, F each) {
    if (!array.is_array()) {
        fault.note(base::invalid("a list is needed here", shown(array), "[ ... ]", "write a list"), pointer);
        return;
    }
    for (std::size_t i = 0; i < array.size(); ++i) each(array[i], pointer_to(pointer, std::to_string(i)));
}

}  // namespace mitefall::formats
