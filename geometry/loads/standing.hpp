// What the members of built-up anchors carry, and how every anchor stands, over all cases.
#pragma once

#include <span>

#include "geometry/loads/cases.hpp"

namespace fairlead::loads {

/// Fed with the forces on the anchors case by case, it keeps the worst of each number and the case it stands in.
class Standing {
 public:
  /// The arguments must outlive it.
  Standing(const Inputs&, const reeving::Inputs&);

  /// One sweep: its poses in order, then what lies between them. `first`: the key of its first pose.
  void begin(std::size_t poses, const CaseKey& first);
  void pose(std::size_t, const std::vector<Vec3>& on_anchor_N);
  void end(std::span<const double> travel_m, const std::vector<bool>& known);
  /// A case for itself. gap_N: per anchor, by how much the force on it may be greater beside the place looked at; all
  /// it causes is taken to grow with it, and its direction to turn as far as so much beside it can turn it.
  void single(const std::vector<Vec3>& on_anchor_N, const std::vector<double>& gap_N, const CaseKey&);

  /// The cases that govern something.
  void add_keys(std::vector<CaseKey>&) const;
  /// The members' forces in a case, and its name where one is lost.
  void describe(const CaseKey&, LoadCase&) const;
  /// `keys`: of the cases, in their order.
  void fill(const std::vector<CaseKey>& keys, Loads&) const;

 private:
  struct Worst {
    double value = -1, bound = 0;
    CaseKey at;
  };
  struct Event {
    std::string why;
    CaseKey at;
  };
  using Events = std::vector<std::optional<Event>>;

  std::vector<double> row(const std::vector<Vec3>& on_anchor_N, const CaseKey&);
  void note(std::optional<Event>&, std::string why, CaseKey at, int lost);
  void take(std::size_t column, Extreme seen, CaseKey at);
  CaseKey key_of(std::size_t pose) const;
  int lost_of(std::size_t column) const;
  bool is_pull(std::size_t column) const;
  std::size_t anchor_of(std::size_t column) const;
  std::size_t member_column(std::size_t member, int lost) const;
  Extreme extreme(std::size_t column, const std::vector<CaseKey>&) const;
  MemberDemand demand(std::size_t member, int lost, const std::vector<CaseKey>&) const;
  anchorage::Node node_of(std::size_t anchor, int lost) const;

  const Inputs& in_;
  Vec3 axes_[3];
  std::vector<std::vector<std::size_t>> members_of_;  // per anchor
  std::vector<int> may_be_lost_;                      // members
  std::vector<Worst> worst_;                          // per column
  Events slack_, not_held_;                           // per member; per anchor, then per member that may be lost
  std::vector<Vec3> table_;                           // of one sweep: column after column, numbers in x
  std::size_t poses_{};
  CaseKey first_;
};

}  // namespace fairlead::loads
