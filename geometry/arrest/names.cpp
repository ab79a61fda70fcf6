#include "geometry/arrest/names.hpp"

#include "geometry/mainline/names.hpp"

namespace fairlead::arrest {
namespace {

bool open(const mainline::Span& span) { return span.low < span.high; }

}  // namespace

std::string_view word_for(Outcome outcome) {
  switch (outcome) {
    case Outcome::stops:
      return "stops";
    case Outcome::creeps:
      return "creeps on and never stops";
    case Outcome::lanyard_slack:
      return "swings until the lanyard goes slack";
    case Outcome::travel_exhausted:
      return "runs through the planned travel";
    case Outcome::extension_exhausted:
      return "runs the brake unit's line out";
  }
  return "unknown";
}

std::string_view word_for(FinalRest::How how) {
  switch (how) {
    case FinalRest::How::holds:
      return "stays where it stopped";
    case FinalRest::How::held_back:
      return "is held where it stopped";
    case FinalRest::How::crept_on:
      return "creeps on toward the landing";
    case FinalRest::How::rolled_back:
      return "rolls back";
    case FinalRest::How::pushed_back:
      return "is drawn back by the brake unit's retraction alone";
    case FinalRest::How::runs_on:
      return "creeps on to the end of the planned travel";
  }
  return "unknown";
}

std::string name_of(const Inputs& in, const Corner& corner) {
  std::string name(mainline::word_for(corner.heaviest ? mainline::Loading::heaviest : mainline::Loading::lightest));
  const mainline::Span& speeds = in.measured_speed_m_per_s ? *in.measured_speed_m_per_s : in.push_off_m_per_s;
  if (open(speeds)) name += corner.fastest ? ", fastest" : ", slowest";
  if (corner.wind != Wind::none) name += corner.wind == Wind::head ? ", head wind" : ", tail wind";
  if (open(in.rolling)) name += corner.high_rolling ? ", most rolling resistance" : ", least rolling resistance";
  if (open(in.brake_share)) name += corner.strong_brake ? ", strongest brake" : ", weakest brake";
  return name;
}

std::string name_of(const Inputs& in, const mainline::MainLine& main_line, const Corner& corner) {
  const mainline::StatePath& path = main_line.paths[static_cast<std::size_t>(corner.path)];
  return name_of(in, corner) + ", " +
         mainline::name_of(main_line, main_line.states[static_cast<std::size_t>(path.state)]);
}

}  // namespace fairlead::arrest
