#include "geometry/rig/drawn.hpp"
#include "geometry/rig/inputs.hpp"
#include "geometry/rig/strength_left.hpp"

namespace fairlead {
namespace {

/// The design's result when its inputs are these very inputs and the results before it are the same objects.
template <class In, class Out>
bool reuse(Stage<In, Out>& stage, const Stage<In, Out>* design) {
  if (!design || !stage.inputs || !design->inputs || !(*stage.inputs == *design->inputs)) return false;
  stage.result = design->result;
  return true;
}

template <class In, class Out>
void fail(Stage<In, Out>& stage, const Unsolved& why) {
  stage.inputs = tl::unexpected(why);
  stage.result = std::make_shared<const Solved<Out>>(tl::unexpected(why));
}

template <class Out>
std::shared_ptr<const Solved<Out>> keep(Solved<Out> solved) {
  return std::make_shared<const Solved<Out>>(std::move(solved));
}

Unsolved after(const char* stage, const Unsolved& why) {
  return {std::string(stage) + " is not solved: " + why.why, why.residual, why.iterations};
}

Solved<double> ratio_of(const Layout& layout, const Frame& frame, const Courses& courses) {
  // The trolley's height plays no part: legs pull along.
  const Point3 trolley = frame.origin + (layout.brake_trolley.rest_m - frame.chainage_of_origin_m) * frame.along;
  return nominal_ratio(layout, frame, courses, drawn_blocks(layout, frame, courses), trolley);
}

void note(const Layout& layout, const Courses& courses, Rig& rig) {
  for (const Course& course : courses.courses) {
    rig.lines.push_back(course.item);
    rig.reeved.insert(rig.reeved.end(), course.sheaves.begin(), course.sheaves.end());
  }
  rig.bodies = bodies_of(layout, courses);
  rig.braking_line = courses.courses[static_cast<std::size_t>(courses.braking)].item.index;
}

/// As measured, also where riders are not known well enough for an arrest; else as computed.
Solved<double> fastest_of(const Rig& rig) {
  if (const arrest::Approaches* approaches = rig.approach.solved()) {
    if (approaches->fastest_m_per_s > 0) return approaches->fastest_m_per_s;
    return unsolved("no rider arrives: every one stalls short of the brake trolley");
  }
  if (const auto& measured = rig.layout.riders.arrival_speed_m_per_s) return measured->value.high;
  return tl::unexpected(after("the approach", rig.approach.result->error()));
}

void solve_arrest(Rig& rig, const mainline::MainLine& main_line, const Near& near, bool same_before, const Work& work) {
  rig.arrest.inputs = rig.approach.inputs;
  if (!rig.approach.solved()) return fail(rig.arrest, after("the approach", rig.approach.result->error()));
  if (near.hold_arrest && near.design->arrest.solved()) {
    rig.arrest = near.design->arrest;
    rig.arrest_held = true;
  } else if (!(same_before && reuse(rig.arrest, &near.design->arrest))) {
    rig.arrest.result = keep(arrest::solve(*rig.arrest.inputs, *rig.approach.solved(), main_line, *rig.reeving.inputs,
                                           *rig.reeving.solved(), work));
  }
}

}  // namespace

Rig solve(Layout layout, const Near& near, Resolution resolution, const Work& work) {
  Rig rig;
  rig.frame = frame_of(layout);
  rig.layout = std::move(layout);
  const Rig* design = near.design;

  rig.main_line.inputs = main_line_inputs(rig.layout, rig.frame, rig.assumptions);
  if (!rig.main_line.inputs) {
    fail(rig.main_line, rig.main_line.inputs.error());
  } else if (!reuse(rig.main_line, design ? &design->main_line : nullptr)) {
    rig.main_line.result = keep(mainline::solve(*rig.main_line.inputs));
  }
  if (!rig.main_line.solved()) {
    const Unsolved why = after("the main line", rig.main_line.result->error());
    fail(rig.approach, why);
    fail(rig.reeving, why);
    fail(rig.arrest, why);
    fail(rig.loads, why);
    fail(rig.clearance, why);
    return rig;
  }
  const mainline::MainLine& main_line = *rig.main_line.solved();
  const bool same_main_line = design && rig.main_line.result == design->main_line.result;

  rig.approach.inputs = arrest_inputs(rig.layout, rig.frame, main_line, rig.assumptions);
  if (!rig.approach.inputs)
    fail(rig.approach, rig.approach.inputs.error());
  else if (!(same_main_line && reuse(rig.approach, &design->approach)))
    rig.approach.result = keep(arrest::solve_approaches(*rig.approach.inputs, main_line, work));
  const auto fastest = fastest_of(rig);

  const auto courses = courses_of(rig.layout);
  const auto ratio = courses ? ratio_of(rig.layout, rig.frame, *courses) : tl::unexpected(courses.error());
  if (courses) note(rig.layout, *courses, rig);
  if (ratio) rig.nominal_ratio = *ratio;
  if (!ratio)
    rig.reeving.inputs = tl::unexpected(ratio.error());
  else if (!fastest)
    rig.reeving.inputs = tl::unexpected(fastest.error());
  else
    rig.reeving.inputs =
        reeving_inputs(rig.layout, rig.frame, *courses, *ratio, main_line, *fastest, resolution, rig.assumptions);
  if (!rig.reeving.inputs) {
    fail(rig.reeving, rig.reeving.inputs.error());
  } else if (!reuse(rig.reeving, design ? &design->reeving : nullptr)) {
    rig.reeving.result = keep(reeving::solve(*rig.reeving.inputs, work));
  }
  if (!rig.reeving.solved()) {
    const Unsolved why = after("the reeving", rig.reeving.result->error());
    fail(rig.arrest, why);
    fail(rig.loads, why);
    fail(rig.clearance, why);
    return rig;
  }
  const bool same_before = same_main_line && rig.reeving.result == design->reeving.result;

  solve_arrest(rig, main_line, near, same_before, work);

  rig.loads.inputs = loads_inputs(rig.layout, rig.frame, *courses, *rig.main_line.inputs, main_line, rig.assumptions);
  if (rig.loads.inputs) add_standing(rig.layout, *rig.loads.inputs, rig.assumptions);
  note_strength_left(rig.layout, rig.assumptions);
  if (rig.loads.inputs) rig.loads.inputs->arrested = arrested(rig.frame, main_line, rig.approach, rig.arrest);
  if (!rig.loads.inputs)
    fail(rig.loads, rig.loads.inputs.error());
  else if (!(same_before && reuse(rig.loads, &design->loads)))
    rig.loads.result =
        keep(loads::solve(*rig.loads.inputs, main_line, *rig.reeving.inputs, *rig.reeving.solved(), work));

  rig.clearance.inputs = clearance_inputs(rig.layout, rig.frame, *courses, main_line, *rig.reeving.inputs,
                                          rig.arrest.solved(), resolution, rig.assumptions);
  rig.clearance.inputs->drawn = near.drawn;
  if (!(same_before && reuse(rig.clearance, &design->clearance)))
    rig.clearance.result =
        keep(clearance::solve(*rig.clearance.inputs, *rig.reeving.inputs, *rig.reeving.solved(), work));
  return rig;
}

}  // namespace fairlead
