// The main line with its wheels on the way from one pose to the next: how far it can be from going there evenly.
// Proven.
//
// Unknown are the sum m of line_piece.hpp, the height of the last wheel, the slope D/L of the piece between two wheels
// and the unstretched lengths L of the pieces before the wheels; the last piece has what is left of the line. With the
// slope in place of the first wheel's height all stays regular as two wheels come together. At every place x of the
// wheels
//     F = 0:  each piece's reach is what lies between its ends, and the vertical tension jumps at each wheel by the
//             weight that it carries; or the last wheel's height is what is known.
// Let what is known change evenly from one pose to the next, but for what it may be off by; let y be the unknowns gone
// evenly between their values at the two poses, and y + d the true ones. With C the inverse of F's matrix amid the
// poses and J that matrix's mean over the way from y to y + d, F(y + d) = 0 says
//     d = -C F(y) + (1 - C J) d.
// F(y) is what the solver left at the poses, what the known is off by, and a second difference: at most an eighth of
// F's second derivative along the step, which bands hold (band_jet.hpp). J lies in the bands of F's matrix over a box
// about y. At the first pose d is 0 but for rounding. Where the d that follows from every d of the box lies strictly
// within it, d can never be the first to leave the box, so it stays. As steps shrink, the bound comes down to the true
// bend: all else is of third order.
#pragma once

#include <array>

#include "geometry/mainline/cable.hpp"
#include "geometry/reeving/line_piece.hpp"

namespace fairlead::reeving {

/// What is known of the wheels on the way: the weights on them, or of the last one its height instead. And by how much
/// each may be off its even change.
struct OnTheWay {
  enum class Last { weight, height };
  Last last{};
  std::array<double, 2> off{};  ///< N, or m
};

template <std::size_t N>  // wheels
class LineStep {
 public:
  /// `from` has N wheels and `to` as many, or one where two have met.
  LineStep(const mainline::Cable&, const mainline::Shape& from, const mainline::Shape& to, const OnTheWay&);

  /// Whether anything is proven; all below is only then.
  bool proven();
  /// Height of a wheel, off its even change.
  double wheel_m(std::size_t wheel) const;
  struct Level {
    double off_N, steepest;
  };
  /// Of a piece: its horizontal tension off its even change, and its greatest slope.
  Level level(std::size_t piece) const;
  /// Most that the line between two wheels leaves their chord by: it is bent by w/T at most.
  double sag_between_wheels_m() const;

 private:
  static constexpr std::size_t all = 2 * N + 1;
  static constexpr std::size_t height = 1, slope = 2, length = N + 1;  // where they stand among the unknowns; m first
  using Numbers = std::array<double, all>;
  template <class Number>
  using Matrix = std::array<std::array<Number, all>, all>;
  /// Unknowns, and what follows from them of each piece; of supports and wheels in a row, ends 0 to N + 1.
  template <class Number>
  struct Hung {
    std::array<Number, all> y;
    std::array<PieceEnds<Number>, N + 1> pieces;
    std::array<Number, N + 2> per;  ///< tension by m at every end
  };

  Numbers unknowns(const mainline::Shape&) const;
  double weight_N(const mainline::Shape&, std::size_t wheel) const;
  double length_m(const Numbers& y, std::size_t piece) const;
  double end_m(const Numbers& y, std::size_t end) const;
  BandJet end_step(std::size_t end) const;
  double end_off_m(const Numbers& box, std::size_t end) const;
  double length_off_m(const Numbers& box, std::size_t piece) const;
  Hung<double> hung(const Numbers& y) const;
  Hung<Band> hung_within(const Numbers& box) const;
  Numbers missed(const Numbers& y, const mainline::Shape&) const;
  template <class Number>
  Matrix<Number> matrix(const Hung<Number>&) const;
  bool invert(Matrix<double>);
  void bend();
  Numbers first_height() const;
  void shake(const Numbers& box);
  Numbers followed(const Numbers& d) const;

  const mainline::Cable& cable_;
  OnTheWay way_;
  const mainline::Shape &from_, &to_;
  Numbers a_, b_, left_, d_{};
  Matrix<double> inverse_{};
  // Of the unknowns in a row and, last, of the first of two wheels' height: what d is without itself, and |1 - C J|.
  static constexpr std::size_t rows = all + N - 1;
  std::array<double, rows> off_{};
  std::array<std::array<double, all>, rows> shaky_{};
  std::array<double, N + 1> level_bend_N_{};  ///< greatest second derivative of each piece's H
};

}  // namespace fairlead::reeving
