// The lines of the arrest system at one pose, as the books enter them. Only loads includes it.
#pragma once

#include "geometry/loads/books.hpp"

namespace fairlead::loads {

/// The reeving at one pose: forces of lines go on anchors, on blocks, or on the trolley, where the main line takes
/// them.
class Books::Reeved {
 public:
  Reeved(const Books& books, const reeving::Sweep&, int pose, Point3 trolley);

  Balance balance;
  std::vector<OnLine> lines;
  std::vector<OnBlock> blocks;
  double block_residual = 0;

 private:
  struct OfBlock {
    Sum sum;
    std::vector<Vec3> forces_N;
  };

  void lead(std::size_t line);
  void turn(const reeving::Sheave&, int anchor, const reeving::Turn&, Vec3 load_N_per_m);
  void pull(reeving::Body, int anchor, Point3 at, Vec3 force_N);
  void close(std::size_t block);
  Point3 centre_of(std::size_t sheave) const;

  const Books& books_;
  const reeving::Inputs& in_;
  const reeving::Sweep& sweep_;
  std::size_t pose_;
  Point3 trolley_;
  std::vector<OfBlock> of_block_;
};

}  // namespace fairlead::loads
