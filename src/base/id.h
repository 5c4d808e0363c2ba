#pragma once

#include <compare>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace mitefall::base {

/// Order of names in which runs of digits count as numbers; equal only where the texts are.
[[nodiscard]] std::strong_ordering count_order(std::string_view a, std::string_view b);

/// A name the keeper chose for a thing ("r1-04"). Names of different kinds of thing do not mix.
template <class Kind>
class Id {
  public:
    Id() = default;
    explicit Id(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] bool empty() const { return text_.empty(); }
    /// As people count: "tub-2" comes before "tub-10".
    friend std::strong_ordering operator<=>(const Id& a, const Id& b) {
        return count_order(a.text_, b.text_);
    }
    friend bool operator==(const Id&, const Id&) = default;

  private:
    std::string text_;
};

}  // namespace mitefall::base

template <class Kind>
struct std::hash<mitefall::base::Id<Kind>> {
    std::size_t operator()(const mitefall::base::Id<Kind>& id) const noexcept {
        return std::hash<std::string>{}(id.text());
    }
};
