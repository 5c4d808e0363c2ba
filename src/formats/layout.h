#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace mitefall::formats {

/// A table of left-aligned columns, two spaces between, as wide as its widest cell. UTF-8 code points count
/// as one.
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

/// Wraps a paragraph at `width`; every line begins with `indent`, the first with `first` instead.
[[nodiscard]] std::string wrap(std::string_view text, std::string_view first, std::string_view indent,
                               std::size_t width = 100);

}  // namespace mitefall::formats
