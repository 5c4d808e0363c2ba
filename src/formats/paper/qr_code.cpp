#include "formats/paper/qr_code.h"

#include <fmt/format.h>
#include <qrencode.h>

#include <memory>

namespace mitefall::formats {
namespace {

constexpr int quiet_zone = 4;  // modules; ISO/IEC 18004, section 9.1

struct FreeCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

base::Result<QrCode> qr_code(std::string_view text) {
    constexpr int smallest_version = 0;  // as small as the text allows
    const std::unique_ptr<QRcode, FreeCode> encoded(
        QRcode_encodeString(std::string(text).c_str(), smallest_version, QR_ECLEVEL_M, QR_MODE_8, 1));
    if (!encoded) {
        return base::fail(base::invalid("the text does not fit a QR code",
                                        fmt::format("{} bytes", text.size()), "about 2,300 bytes, not empty",
                                        "shorten it"));
    }
    QrCode code{encoded->width, {}};
    for (int i = 0; i < code.width * code.width; ++i) code.dark.push_back((encoded->data[i] & 1U) != 0);
    return code;
}

std::string qr_svg(const QrCode& code, double size_mm, std::string_view label) {
    const int side = code.width + 2 * quiet_zone;
    std::string path;
    for (int row = 0; row < code.width; ++row) {
        for (int column = 0; column < code.width; ++column) {
            if (code.is_dark(row, column))
                path += fmt::format("M{} {}h1v1h-1z", column + quiet_zone, row + quiet_zone);
        }
    }
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{0}mm\" viewBox=\"0 0 {1} {1}\" "
        "shape-rendering=\"crispEdges\" role=\"img\" aria-label=\"{3}\">"
        "<rect width=\"{1}\" height=\"{1}\" fill=\"#fff\"/><path d=\"{2}\" fill=\"#000\"/></svg>",
        size_mm, side, path, label);
}

}  // namespace mitefall::formats
