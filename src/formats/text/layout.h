#pragma once

#include <string>
#include <string_view>
#include <vector>

// A text for a terminal is written before its width is known. Tables, paragraphs and what stands out carry
// marks (control characters, ECMA-48), and `lay_out` sets them for one terminal. Nothing a keeper wrote can
// make a mark: whatever passes through here loses its control characters, those a terminal would obey among
// them.
namespace mitefall::formats {

/// What a reader must find first. Shown by colour where there is colour; the words say it too.
enum class Tone { grave, caution, good, quiet };
[[nodiscard]] std::string toned(Tone tone, std::string_view text);

/// A table of left-aligned columns, two spaces between. Where it is too wide its cells wrap; where that makes
/// a row very tall, each row is told below the next with the name of every column.
class Table {
  public:
    explicit Table(std::vector<std::string> head) { add(std::move(head)); }
    void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }
    [[nodiscard]] std::string text() const;

  private:
    std::vector<std::vector<std::string>> rows_;
};

/// A heading with a line of '-' under it and an empty line before.
[[nodiscard]] std::string heading(std::string_view text);

/// A paragraph: every line begins with `indent`, the first with `first` instead.
[[nodiscard]] std::string wrap(std::string_view text, std::string_view first, std::string_view indent);

/// Lines that mean something only side by side, like a picture: left out where one of them does not fit.
[[nodiscard]] std::string picture(std::string_view lines);

/// Where a text is shown.
struct Terminal {
    std::size_t width = 0;  ///< display columns; 0: as wide as it comes
    bool colour = false;
};

/// The text with no line wider than the terminal. Lines that fit stay as they are; others break between
/// words, never between a number and its unit. Paragraphs are no wider than is pleasant to read.
[[nodiscard]] std::string lay_out(std::string_view text, Terminal terminal);

/// Display columns of a line without marks, as wcwidth of the C library counts them (IEEE Std 1003.1): two
/// for wide characters, none for combining ones.
[[nodiscard]] std::size_t columns_of(std::string_view line);

}  // namespace mitefall::formats
