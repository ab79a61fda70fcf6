#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const auto& may = rig.layout.brake_unit.rider_mass_kg;
  const Given<Range>& come = rig.layout.riders.mass_kg;
  Finding finding{.check = &rider_mass, .subject = {Item::Kind::rider, 0}, .place = come.place};
  finding.facts = {{"lightest", Quantity{come.value.low, Dimension::mass}},
                   {"heaviest", Quantity{come.value.high, Dimension::mass}}};
  if (!may) {
    leave_not_judged(finding, "the brake unit gives no rider_mass");
  } else {
    finding.facts.push_back({"from", Quantity{may->value.low, Dimension::mass}});
    finding.facts.push_back({"to", Quantity{may->value.high, Dimension::mass}});
    finding.verdict =
        come.value.low >= may->value.low && come.value.high <= may->value.high ? Verdict::pass : Verdict::fail;
  }
  out.push_back(finding);
}

}  // namespace

const Check rider_mass{.name = "rider-mass",
                       .title = "The brake unit may stop every rider that comes",
                       .sentence = "from {lightest} to {heaviest} come; the brake unit may stop {from} to {to}",
                       .formula = "riders' masses within the brake unit's rider_mass",
                       .source = "own definition",
                       .remedy = "send only riders whom the unit may stop, or take another unit",
                       .dimension = Dimension::none,
                       .run = run};

}  // namespace fairlead
