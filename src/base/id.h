#pragma once

#include <compare>
#include <functional>
#include <string>
#include <utility>

namespace mitefall::base {

/// A name the keeper chose for a thing ("r1-04"). Names of different kinds of thing do not mix.
template <class Kind>
class Id {
  public:
    Id() = default;
    explicit Id(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] bool empty() const { return text_.empty(); }
    friend auto operator<=>(const Id&, const Id&) = default;
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
