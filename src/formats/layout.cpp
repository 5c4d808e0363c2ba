#include "formats/layout.h"

#include <algorithm>
#include <sstream>

namespace mitefall::formats {
namespace {

std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

std::string Table::text() const {
    std::vector<std::size_t> widths;
    for (const auto& row : rows_) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], width_of(row[c]));
    }
    std::string text;
    for (const auto& row : rows_) {
        std::string line;
        for (std::size_t c = 0; c < row.size(); ++c) {
            line += row[c];
            if (c + 1 < row.size()) line += std::string(widths[c] - width_of(row[c]) + 2, ' ');
        }
        while (!line.empty() && line.back() == ' ') line.pop_back();
        text += line + "\n";
    }
    return text;
}

std::string heading(std::string_view text) {
    return "\n" + std::string(text) + "\n" + std::string(width_of(text), '-') + "\n";
}

std::string wrap(std::string_view text, std::string_view first, std::string_view indent, std::size_t width) {
    std::istringstream words{std::string(text)};
    std::string result;
    std::string line(first);
    bool empty = true;
    for (std::string word; words >> word;) {
        if (!empty && width_of(line) + 1 + width_of(word) > width) {
            result += line + "\n";
            line = std::string(indent);
            empty = true;
        }
        line += (empty ? "" : " ") + word;
        empty = false;
    }
    return result + line + "\n";
}

}  // namespace mitefall::formats
