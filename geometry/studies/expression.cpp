#include "geometry/studies/expression.hpp"

#include <charconv>
#include <cmath>
#include <limits>
#include <numbers>

namespace fairlead {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// Sums of products of powers, read from left to right.
class Reader {
 public:
  explicit Reader(std::string_view text) : left_(text) {}

  double whole() {
    const double value = sum();
    return left_.empty() ? value : nothing();
  }

 private:
  static double nothing() { return std::numeric_limits<double>::quiet_NaN(); }
  void skip() {
    while (left_.starts_with(' ')) left_.remove_prefix(1);
  }
  bool take(std::string_view sign) {
    skip();
    if (!left_.starts_with(sign)) return false;
    left_.remove_prefix(sign.size());
    skip();
    return true;
  }
  double sum() {
    double value = product();
    for (;;) {
      if (take("+"))
        value += product();
      else if (take("-"))
        value -= product();
      else
        return value;
    }
  }
  double product() {
    double value = power();
    for (;;) {
      if (take("*"))
        value *= power();
      else if (take("/"))
        value /= power();
      else
        return value;
    }
  }
  double power() {
    if (take("-")) return -power();
    const double value = atom();
    return take("^") ? std::pow(value, atom()) : value;
  }
  double atom() {
    if (take("sqrt(")) return std::sqrt(closed());
    if (take("sin(")) return std::sin(closed() * degree);
    if (take("acos(")) return std::acos(closed()) / degree;
    if (take("cos(")) return std::cos(closed() * degree);
    if (take("(")) return closed();
    double value = 0;
    const auto [end, error] = std::from_chars(left_.data(), left_.data() + left_.size(), value);
    if (error != std::errc{}) return nothing();
    left_.remove_prefix(static_cast<std::size_t>(end - left_.data()));
    skip();
    return value;
  }
  double closed() {
    const double value = sum();
    return take(")") ? value : nothing();
  }

  std::string_view left_;
};

}  // namespace

double evaluate(std::string_view text) { return Reader(text).whole(); }

}  // namespace fairlead
