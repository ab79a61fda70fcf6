// Where the iterations of the main line start, when they have arrived, and which inputs they refuse.
#pragma once

#include <optional>
#include <span>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// The equations close when the line misses its span by no more than this share of its length.
inline constexpr double closure = 1e-12;
/// ... and when the next step of Newton's iteration would change no unknown by more than this share. It is taken, and
/// converging quadratically it leaves rounding.
inline constexpr double settled = 1e-8;

/// Whether the rounding of the line's length (1e-16 of it) leaves its tension known to 1e-7. By the taut string below
/// dH/H = dS/(3 stretch + 2 slack): a line that hardly stretches and lies within 1e-9 of its chord does not.
bool tells_tension(const Cable&, double H_N);

tl::unexpected<Unsolved> does_not_close(double miss_m, int steps);
tl::unexpected<Unsolved> too_straight(double miss_m, int steps);

/// What no iteration can make good, or nothing.
std::optional<Unsolved> refuse(const Cable&);

/// Horizontal tension of the line as a taut string: the root of c S/cos H^3 + (S - chord) H^2 = cos^3/2 integral(V^2
/// dx), V the shear of a simple beam under the line's weight and the loads (in rising x). N, finite and > 0.
double taut_tension(const Cable&, std::span<const Load>);

/// V at the start of the bare line of horizontal tension H_N: exact when inextensible. N.
double bare_shear(const Cable&, double H_N);

}  // namespace fairlead::mainline
