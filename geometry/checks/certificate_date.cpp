#include <fmt/format.h>

#include "geometry/checks/judged_on.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

std::string iso(const Date& date) { return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day); }

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &certificate_date, .subject = {Item::Kind::brake_unit, 0}, .verdict = Verdict::not_judged};
  const auto& due = rig.layout.brake_unit.certificate_due;
  const std::optional<Date> today = judged_on(rig.layout);
  finding.place = due ? due->place : rig.layout.brake_unit.on_place;
  finding.facts.push_back({"due", due ? iso(*due) : std::string("not given")});
  finding.facts.push_back({"date", today ? iso(*today) : std::string("not given")});
  if (!due) {
    finding.why = "no certificate_due given";
  } else if (!today) {
    finding.why = "no date to judge it at: give --date or project.date";
  } else {
    finding.verdict = *today <= due->value ? Verdict::pass : Verdict::fail;
  }
  out.push_back(finding);
}

}  // namespace

const Check certificate_date{.name = "certificate-date",
                             .title = "The brake unit's certificate is in date",
                             .sentence = "certificate due {due}, judged on {date}",
                             .formula = "date <= certificate_due",
                             .source = "own definition",
                             .remedy = "have the unit recertified before anyone rides",
                             .dimension = Dimension::none,
                             .run = run};

}  // namespace fairlead
