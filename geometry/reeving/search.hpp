// The search for the balance of a pose.
#pragma once

#include "geometry/reeving/balance.hpp"

namespace fairlead::reeving {

class Search {
 public:
  /// The balance's station is what it works on.
  Search(const Inputs& in, const SweepInputs& sweep, const Outlet& outlet, double travel_m, Balance& balance,
         Station& at)
      : in_(in), sweep_(sweep), outlet_(outlet), travel_m_(travel_m), balance_(balance), at_(at) {}

  /// From a solved neighbour at from_m, along its rates. False where that comes to no stable balance.
  bool go_on(double from_m);
  /// From where the blocks are drawn.
  tl::expected<void, Unsolved> begin();
  /// The Jacobian's factors where the balance was found.
  const Square& factored() const { return jacobian_; }

 private:
  /// Newton's iteration, damped: to the balance nearest by.
  bool newton();
  /// Lets the blocks move as in a thick fluid, thinner toward the end: downhill, near a stable balance.
  bool relax();
  bool take(std::span<const double> step, double least_part);
  void place_start();
  bool tauten();
  bool grow();
  /// Stands a block where it goes back to when pushed?
  bool stable();
  double imbalance() const;
  Unsolved why_not();
  std::optional<Unsolved> indifferent();

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  double travel_m_;
  Balance& balance_;
  Station& at_;
  Square jacobian_;
  std::vector<double> spare_m_;
  double miss_{};
  int steps_{};
};

}  // namespace fairlead::reeving
