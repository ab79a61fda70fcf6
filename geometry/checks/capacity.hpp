// What a part may carry, and in which case it carries most.
#pragma once

#include "geometry/checks/check.hpp"

namespace fairlead {

/// A working load limit already has its factor; a breaking strength is divided by one.
struct Capacity {
  std::optional<double> force_N;
  Place place;
  std::string why;  ///< there is none
};

Capacity capacity_of(const std::optional<Real>& wll_N, const std::optional<Real>& mbs_N, const Limits&, Place part);

/// Adds the fact "case" and the travel of a load case; `otherwise`: what is said where there is none.
void add_case(Finding&, const loads::Loads&, int load_case, std::string_view otherwise);

/// How far one member is used. Pulled and pushed it may have different capacities: the one that is used more.
struct Use {
  Extreme utilisation;
  double force_N{}, capacity_N{};
  bool pushed{};
  std::string why;  ///< a capacity is missing for something it carries
};
Use use_of(const Rig&, std::size_t member, const loads::MemberDemand&);

/// Adds force, capacity and whether the member is pulled or pushed.
void add_use(Finding&, const Use&);

}  // namespace fairlead
