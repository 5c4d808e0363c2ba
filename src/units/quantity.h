#pragma once

#include <compare>

namespace mitefall::units {

/// A physical amount held in the one base unit of its dimension. There is no conversion from or to a bare
/// number: amounts are made by named functions (`millilitres(38)`) and read by named functions
/// (`in_millilitres(v)`), so the unit stands wherever a number enters or leaves.
template <class Dimension>
class Quantity {
  public:
    constexpr Quantity() = default;
    static constexpr Quantity from_base(double value) { return Quantity(value); }
    [[nodiscard]] constexpr double base() const { return value_; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr bool operator==(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
    friend constexpr Quantity operator*(Quantity a, double b) { return Quantity(a.value_ * b); }
    friend constexpr Quantity operator*(double a, Quantity b) { return Quantity(a * b.value_); }
    friend constexpr Quantity operator/(Quantity a, double b) { return Quantity(a.value_ / b); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
    constexpr Quantity& operator+=(Quantity b) {
        value_ += b.value_;
        return *this;
    }

  private:
    explicit constexpr Quantity(double value) : value_(value) {}
    double value_ = 0;
};

}  // namespace mitefall::units
