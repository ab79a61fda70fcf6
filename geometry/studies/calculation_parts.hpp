// The steps of a calculation, each made by the formula it prints. Only calculation's own files include it.
#pragma once

#include "geometry/studies/calculation.hpp"

namespace fairlead::calculating {

/// A figure of the printed value; negative ones keep their sign.
Figure figure(std::string symbol, std::string says, std::string from, double value, int decimals, std::string unit);

/// `formula`: the right side with its symbols in braces, "{vx} * {me} / ({me} + {mB})". The result's value is worked
/// out.
CalculationStep step(std::string title, Figure result, std::string_view formula, std::vector<Figure> inputs,
                     std::optional<double> solver, std::string source);

/// The speed with which the rider of that corner arrives; nothing where no push-off is given or he stalls.
void add_approach(const Rig&, int corner, std::vector<CalculationStep>&);
/// Contact, brake and the first deceleration in the corner that governs the stopping travel.
void add_contact(const Rig&, int corner, std::vector<CalculationStep>&);
/// Where the rider who comes to rest farthest stays.
void add_rest(const Rig&, std::vector<CalculationStep>&);
void add_reset(const Rig&, std::vector<CalculationStep>&);
void add_backup(const Rig&, std::vector<CalculationStep>&);
/// The anchor of the redirect nearest the trolley, in the case that loads it most; none where more acts on it than
/// lines over its sheaves and ends of lines.
std::optional<AnchorCalculation> redirect_anchor(const Rig&);

}  // namespace fairlead::calculating
