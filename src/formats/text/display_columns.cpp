#include "formats/text/display_columns.h"

#include <locale.h>  // NOLINT(modernize-deprecated-headers): newlocale is POSIX
#include <wchar.h>   // NOLINT(modernize-deprecated-headers): wcwidth is POSIX

#include <array>

namespace mitefall::formats {
namespace {

/// The tables of character widths do not depend on the language of the user, but they need a UTF-8 locale.
class Utf8Locale {
  public:
    Utf8Locale() : locale_(newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr)) {}
    ~Utf8Locale() {
        if (locale_ != nullptr) freelocale(locale_);
    }
    Utf8Locale(const Utf8Locale&) = delete;
    Utf8Locale& operator=(const Utf8Locale&) = delete;

    /// -1 for a control character; one column for everything printable where the system has no such locale.
    [[nodiscard]] int columns_of(char32_t code) const {
        if (locale_ == nullptr) return code < 0xA0 ? -1 : 1;
        const locale_t before = uselocale(locale_);
        const int columns = wcwidth(static_cast<wchar_t>(code));
        uselocale(before);
        return columns;
    }

  private:
    locale_t locale_;
};

unsigned byte_at(std::string_view text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

/// Bytes of a sequence that begins so (RFC 3629, section 3); 0: none does.
std::size_t length_of(unsigned first) {
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first < 0xE0) return 2;
    if (first >= 0xE0 && first < 0xF0) return 3;
    if (first >= 0xF0 && first < 0xF5) return 4;
    return 0;
}

constexpr std::array<unsigned, 5> bits_of_first{0, 0x7F, 0x1F, 0x0F, 0x07};
constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};

bool is_character(char32_t code, std::size_t length) {
    return code >= least.at(length) && code <= 0x10FFFF && !(code >= 0xD800 && code < 0xE000);
}

}  // namespace

namespace {

/// What would turn the order of a line round, or end it (Unicode Standard Annex 9; Unicode 15, 5.8): not to
/// be shown as it is, like a control character.
bool reorders_or_ends_lines(char32_t code) {
    return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

}  // namespace

Character first_character(std::string_view text) {
    static const Utf8Locale locale;
    const Character broken{text.substr(0, 1), 0, -1};
    const unsigned first = byte_at(text, 0);
    if (first >= 0x20 && first < 0x7F) return {text.substr(0, 1), first, 1};
    const std::size_t length = length_of(first);
    if (length == 0 || length > text.size()) return broken;
    char32_t code = first & bits_of_first.at(length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte_at(text, i) & 0xC0U) != 0x80U) return broken;
        code = (code << 6U) | (byte_at(text, i) & 0x3FU);
    }
    if (!is_character(code, length)) return broken;
    const bool is_obeyed = length == 1 || reorders_or_ends_lines(code);
    return {text.substr(0, length), code, is_obeyed ? -1 : locale.columns_of(code)};
}

}  // namespace mitefall::formats
