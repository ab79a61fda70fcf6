#include "geometry/rig/inputs.hpp"

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
    fail(rig.reeving, why);
    fail(rig.loads, why);
    return rig;
  }
  const mainline::MainLine& main_line = *rig.main_line.solved();

  const auto chain = braking_chain(rig.layout);
  if (chain) {
    rig.braking_line = chain->line;
    rig.reeved = chain->sheaves;
    rig.reeving.inputs = reeving_inputs(rig.layout, rig.frame, *chain, main_line, resolution);
  } else {
    rig.reeving.inputs = tl::unexpected(chain.error());
  }
  if (!rig.reeving.inputs) {
    fail(rig.reeving, rig.reeving.inputs.error());
  } else if (!reuse(rig.reeving, design ? &design->reeving : nullptr)) {
    rig.reeving.result = keep(reeving::solve(*rig.reeving.inputs, work));
  }
  if (!rig.reeving.solved()) {
    fail(rig.loads, after("the reeving", rig.reeving.result->error()));
    return rig;
  }

  rig.loads.inputs = loads_inputs(rig.layout, *chain);
  const bool same_before =
      design && rig.main_line.result == design->main_line.result && rig.reeving.result == design->reeving.result;
  if (!(same_before && reuse(rig.loads, &design->loads)))
    rig.loads.result = keep(loads::solve(*rig.loads.inputs, main_line, *rig.reeving.inputs, *rig.reeving.solved()));
  return rig;
}

}  // namespace fairlead
