// What moved between two surveys of the same rig, both laid on the layout by the same control points.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/asbuilt/placing.hpp"
#include "geometry/rig/inputs.hpp"

namespace fairlead {

/// An earlier survey, as it was read.
struct EarlierSurvey {
  std::string points_file;
  std::vector<SurveyPoint> points;
  double uncertainty_m{};  ///< standard, of every coordinate, > 0
  std::string points_sha256{};
  std::size_t points_left_out = 0;  ///< as in Survey
};

enum class Moved {
  moved,        ///< beyond moved_beyond of its uncertainty along one axis at least
  not_shown,    ///< that it stood still is not shown either
  not_believed  ///< one of the two surveys is not
};

constexpr std::string_view keyword(Moved moved) {
  if (moved == Moved::moved) return "moved";
  return moved == Moved::not_shown ? "not shown to have moved" : "not believed";
}

/// A point that stood still is taken for moved in 5 % of pairs of surveys at most: 1 - 0.05/3 of a normal number, two
/// sides, for each of three axes (BONF36).
inline constexpr double moved_beyond = 2.394;
/// What moved along one axis by so many of its uncertainties is called so in 95 % of pairs at least: moved_beyond and
/// 1.645, the one-sided 95 %.
inline constexpr double shows_from = moved_beyond + 1.645;

/// One point that both surveys have and the layout knows.
struct Movement {
  std::string id;
  int mark = -1;                    ///< index into set_out_points; -1: a peg
  unsigned line{}, earlier_line{};  ///< of the two points files
  bool control = false;             ///< fitted to in both, which takes a part of its own movement away
  Vec3 by_m;                        ///< along, to the left and up of the design
  Vec3 uncertainty_m;               ///< standard, of the three, of both surveys and their fits
  Moved moved = Moved::not_believed;
};

struct Since {
  EarlierSurvey survey;
  Placing placing;                               ///< of the earlier survey
  std::vector<Movement> movements;               ///< in the order of the later file
  std::vector<std::string> only_now, only_then;  ///< known points of one survey alone
};

/// Standard uncertainty of each placed point along, across and up of the frame, by a thousand draws, which tell a
/// standard deviation to 2 %.
std::vector<Vec3> place_uncertainty_m(const Placing&, const Frame&, std::uint64_t seed);

/// The first numbers of a draw, one vector a point.
std::vector<Vec3> normal_vectors(std::uint64_t seed, std::uint64_t draw, std::size_t count);

/// `uncertainty_m`: of the later placing, by place_uncertainty_m.
Since moved_since(EarlierSurvey, Placing earlier, const Placing& later, const std::vector<Vec3>& uncertainty_m,
                  const Frame&, std::uint64_t seed);

}  // namespace fairlead
