#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace mitefall::formats {

/// A square of dark and light modules (ISO/IEC 18004), without its quiet zone.
struct QrCode {
    int width = 0;
    std::vector<bool> dark;  ///< row by row

    [[nodiscard]] bool is_dark(int row, int column) const {
        return dark[static_cast<std::size_t>(row * width + column)];
    }
};

/// Error correction level M: 15 % of it may be smeared. Refuses a text too long for a code.
[[nodiscard]] base::Result<QrCode> qr_code(std::string_view text);

/// One path, four modules of quiet zone around; `size_mm` is the width with the quiet zone. `label` tells who
/// cannot see it what it is; plain words, written into the picture as they are.
[[nodiscard]] std::string qr_svg(const QrCode& code, double size_mm, std::string_view label);

}  // namespace mitefall::formats
