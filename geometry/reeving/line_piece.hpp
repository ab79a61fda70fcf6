// A piece of the main line between supports and wheels, told by its length and by what its ends tell.
//
// Along an elastic line of weight w the sum T + T2/2EA - w z is the same everywhere, and a wheel that rolls does not
// change it: so heights tell tensions. With M the mean of a piece's two end tensions, D what it falls, L its
// unstretched length, u = wL/2M (< 1) and sin b = D / (L (1 + M/EA)), its catenary is, without approximation (own
// derivation from Irvine's; tests hold it against the solved line),
//     V = M sin b,                    the mean of the vertical tensions at its two ends, which are V +- wL/2,
//     H = M sqrt(1 - u2) cos b,       its horizontal tension,
//     X = k L cos b,                  its horizontal reach, with k = (M/EA + atanh(u)/u) sqrt(1 - u2).
// No taut line loses digits in these, and bands stay narrow.
#pragma once

#include <array>

#include "geometry/mainline/cable.hpp"
#include "geometry/reeving/band_jet.hpp"

namespace fairlead::reeving {

/// Tension where that sum is known, and its change with the sum.
template <class Number>
struct LineTension {
  Number T, per;
};
LineTension<double> line_tension(double sum_N, const mainline::Cable&);
LineTension<Band> line_tension(Band sum_N, const mainline::Cable&);
/// Of a sum that changes evenly.
BandJet line_tension(const BandJet& sum_N, const mainline::Cable&);

/// What a piece is told by: `steep` is D/L.
template <class Number>
struct PieceEnds {
  Number L, steep, M;
};
/// Derivatives by what a piece is told by.
template <class Number>
struct PerEnds {
  Number L, steep, M;
};

template <class Number>
struct LinePiece {
  Number X, V;
  PerEnds<Number> X_per, V_per;
};
/// NaN where no such piece can hang. L may be 0.
LinePiece<double> line_piece(const PieceEnds<double>&, const mainline::Cable&);
LinePiece<Band> line_piece(const PieceEnds<Band>&, const mainline::Cable&);

/// How H answers, and the greatest slope of the piece anywhere, of either sign.
struct LevelTension {
  PerEnds<Band> H_per;
  double steepest;
};
LevelTension level_tension(const PieceEnds<Band>&, const mainline::Cable&);

/// A piece on a step in which L changes evenly.
struct PieceStep {
  BandJet X, V, H;
};
PieceStep piece_step(const BandJet& L, const BandJet& D, const BandJet& steep, const BandJet& M,
                     const mainline::Cable&);
/// D/L where L changes evenly between its two values, and D too but for its second derivative, which is constant.
BandJet steep_of(const std::array<double, 2>& L, const std::array<double, 2>& D, double D_bend);

}  // namespace fairlead::reeving
