// How a line or cable ends, and what that leaves of its strength. Its table: termination_fields.hpp.
#pragma once

#include "geometry/layout/given.hpp"

namespace fairlead {

/// From poured_socket to clips: of steel wire rope. From eye_splice to sewn: of fibre and webbing.
enum class TerminationKind { poured_socket, swaged, sleeve_splice, wedge, clips, eye_splice, knot, sewn, other };

bool is_of_steel(TerminationKind);
bool is_of_fibre(TerminationKind);

struct Termination {
  Given<TerminationKind> kind;
  std::optional<Real> efficiency;                     ///< share it holds of the breaking strength, above 0, at most 1
  std::optional<Real> clips, turnback_m, torque_N_m;  ///< of clips: how many, length turned back, of their nuts
  Place place{};
};

/// The published share that a kind holds of the breaking strength of steel wire rope of this diameter; nullopt where
/// none is known: for fibre and webbing, for "other", and for a sleeve splice on rope above 1 in. Of a range the least
/// (a wedge socket: 75 to 95 %). Source: US Army TM 5-3810-305-10, table 4, read.
std::optional<double> published_efficiency(TerminationKind, double diameter_m);

/// As given, or else as published.
std::optional<double> efficiency_of(const Termination&, double diameter_m);

}  // namespace fairlead
