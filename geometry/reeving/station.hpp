// A solved pose with what its neighbours start from and what the bounds between poses need.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "geometry/reeving/contact.hpp"

namespace fairlead::reeving {

/// What is settled before a sweep begins.
struct Outlet {
  /// Per line. Of the braking line: unstretched from outlet to its other end, at rest on the sweep's reference lines,
  /// where the extension is Inputs::rest_extension_m. Of a line that closes on a block's rest: always. Of the others
  /// (State::unstretched_m has them): not read. Empty: nothing is settled yet, as in the rest position itself.
  std::vector<double> unstretched_m;
  std::optional<double> held_tension_N{};  ///< at the outlet; absent: the retraction at the pose's extension
  std::vector<double> tension_ratio{};     ///< as in Sweep
};

/// All lines as they hang, for one place of every body and one tension of every line.
struct Reeved {
  Vec3 counted_from;  ///< what its places are less than the site's: zero but while it is being solved
  Point3 attachment;
  std::vector<Placement> blocks;
  std::vector<Tension> tension;       ///< per line, of its last leg; its datum is the line's `to` as drawn
  std::vector<double> tension_ratio;  ///< per sheave, as in Sweep; empty: all 1
  std::vector<Tension> leg_tension;   ///< of every leg, line by line
  std::vector<MetLeg> legs;           ///< Inputs::legs of them, line by line
  std::vector<double> wrap_rad;       ///< per sheave; 0 at a wheel
  std::vector<double> length_m;       ///< per line: its legs and wraps as they hang
  std::vector<double> unstretched_m;  ///< per line: sum of lengths x (1 - mean end tension x compliance)
};

/// Where leg k of a line begins and ends, and a sheave's drawn circle carried along with its body.
LegEnd from_end(const Inputs&, const Reeved&, int line, int leg_of_line);
LegEnd to_end(const Inputs&, const Reeved&, int line, int leg_of_line);
Sheave placed(const Inputs&, const Reeved&, int sheave);
Body from_body(const Inputs&, int line, int leg_of_line);
Body to_body(const Inputs&, int line, int leg_of_line);

/// What sheave or end k of a line is called: 0 its first end, sheaves + 1 its second. And a block.
std::string end_name(const Inputs&, int line, int end);
std::string block_name(int block);
/// " of line 2", where there are several.
std::string of_line(const Inputs&, int line);

/// Greatest number of sheaves on one line.
inline constexpr int most_on_a_line = 8;

/// How a leg's tension follows that of its line: carried T + sum over the line's sheaves of raised z, z the height of a
/// sheave's centre over the datum, against the load. Friction multiplies the tension on the other side of a sheave, as
/// it would be at its centre.
struct Level {
  double carried = 1;
  std::array<double, most_on_a_line> raised_N_per_m{};
};
/// Of leg k of a line.
Level level_of(const Inputs&, const Reeved&, int line, int leg_of_line);
/// What a wrap is stretched by: the mean of both sides at the sheave's centre.
double wrap_tension_N(const Inputs&, const Reeved&, int line, int sheave_of_line, Point3 centre);

/// Sets weight and direction of a line's load; `up` is its direction where there is none.
void load(Tension&, Vec3 load_N_per_m, Vec3 up);

/// Hangs one line between the places in `lines` at its tension there; legs hung before are the start. Unsolved where a
/// leg cannot hang at that tension, a point lies within a sheave, the line would be slack or lifts off a sheave.
tl::expected<void, Unsolved> hang_line(const Inputs&, int line, Reeved& lines);

/// The same where only a `share` of its sheaves' radii counts, and a line that lifts off a sheave is let be: its wrap
/// is below zero. For a solver on its way.
tl::expected<void, Unsolved> hang_legs(const Inputs&, int line, Reeved& lines, double share);
/// Where a hanging line lifts off a sheave, or a wheel on a block off its line.
tl::expected<void, Unsolved> stays_on(const Inputs&, int line, const Reeved& lines);

/// A wrap above this is a wrap below zero seen modulo a turn: no line turns three quarters round one sheave.
inline constexpr double greatest_wrap_rad = 1.5 * 3.14159265358979323846;

/// Changes per metre of travel, exact; zero at travel < 0.
struct Rates {
  double slope{};                       ///< dz/dx of the wheel's path with the line's pull
  double carried_N_per_m{};             ///< of the weight on the trolley's wheel
  std::vector<double> tension_N_per_m;  ///< per line: of Tension::at_N
  std::vector<Move> blocks;             ///< of the block's own point and about it
};

struct Station {
  Pose pose;
  Reeved lines;
  mainline::Shape shape;
  double carried_N{};         ///< by the trolley's wheel
  double retraction_slope{};  ///< dT/dE, N/m, toward greater extension; 0 where the tension is held
  std::vector<double>
      flow;  ///< per sheave: line that passes it toward its `from`, per metre of travel; 0 without friction
  std::vector<double> fleet_rad;              ///< per sheave, the greater size of both sides; 0 at a wheel
  std::vector<Vec3> held_N, held_couple_N_m;  ///< per block, as in BlockPlace
  Rates rates;
};

}  // namespace fairlead::reeving
