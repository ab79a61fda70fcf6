#include "report/json/stages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::json {
namespace {

using clearance::Box;
using clearance::Gap;
using clearance::Thing;

std::string_view word_for(Thing::Kind kind) {
  switch (kind) {
    case Thing::Kind::rider:
      return "rider";
    case Thing::Kind::hands:
      return "hands";
    case Thing::Kind::line:
      return "line";
    case Thing::Kind::main_line:
      return "main line";
    case Thing::Kind::block:
      return "block";
    case Thing::Kind::sheave:
      return "sheave";
    case Thing::Kind::frame:
      return "frame";
    case Thing::Kind::unit:
      return "brake unit";
    case Thing::Kind::structure:
      return "structure";
  }
  return "unknown";
}

std::string_view word_for(clearance::Passing::Met met) {
  switch (met) {
    case clearance::Passing::Met::at_travel:
      return "at travel";
    case clearance::Passing::Met::stays_upstream:
      return "stays upstream";
    case clearance::Passing::Met::stays_downstream:
      return "stays downstream";
  }
  return "unknown";
}

void write_box(Writer& out, const Box& box) {
  out.vector("centre_m", box.centre);
  out.vector("x", box.x);
  out.vector("y", box.y);
  out.vector("z", box.z);
  out.vector("half_m", box.half_m);
}

void write_box(Writer& out, std::string_view key, const std::optional<Box>& box) {
  if (!box) return out.null(key);
  out.object(key, [&] { write_box(out, *box); });
}

void write_shape(Writer& out, const clearance::Shape& shape) {
  if (const auto* box = std::get_if<Box>(&shape)) {
    out.object("box", [&] { write_box(out, *box); });
  } else if (const auto* post = std::get_if<clearance::Post>(&shape)) {
    out.object("post", [&] {
      out.vector("from_m", post->from);
      out.vector("to_m", post->to);
      out.number("radius_m", post->radius_m);
    });
  } else {
    const auto& plane = std::get<clearance::Plane>(shape);
    out.object("plane", [&] {
      out.vector("through_m", plane.through);
      out.vector("normal", plane.normal);
    });
  }
}

void write_inputs(Writer& out, const Rig& rig) {
  if (!rig.clearance.inputs) return out.null("inputs");
  const clearance::Inputs& in = *rig.clearance.inputs;
  out.object("inputs", [&] {
    std::size_t i = 0;
    out.objects("structures", in.structures, [&](const clearance::Structure& structure) {
      out.text("id", rig.layout.structures.at(i++).id.value);
      write_shape(out, structure.shape);
      out.flag("lines", structure.lines);
      out.flag("blocks", structure.blocks);
      out.flag("rider", structure.rider);
    });
    if (in.rider) {
      out.object("rider", [&] {
        out.number("width_m", in.rider->width_m);
        out.number("length_m", in.rider->length_m);
        out.number("above_m", in.rider->above_m);
        out.number("below_m", in.rider->below_m);
        out.column("corners_m", in.rider->corners, [](const Vec3& corner) { return corner; });
        out.number("margin_m", in.rider->margin_m);
      });
    } else {
      out.null("rider");
    }
    out.objects("sheaves", in.sheaves, [&](const clearance::SheaveBody& sheave) {
      out.number("rim_radius_m", sheave.rim_radius_m);
      out.number("width_m", sheave.width_m);
      write_box(out, "frame", sheave.frame);
    });
    out.objects("blocks", in.blocks, [&](const std::optional<Box>& block) { write_box(out, "body", block); });
    write_box(out, "unit", in.unit);
    out.number("main_line_radius_m", in.main_line_radius_m);
    out.number("meeting_m", in.meeting_m);
    out.number("hands_m", in.hands_m);
    out.number("resolution_m", in.resolution_m);
    out.column("sweeps", in.sweeps, [](int sweep) { return sweep; });
    out.objects("spans", in.spans, [&](const clearance::Span& span) {
      out.count("sweep", span.sweep);
      out.flag("rider", span.rider);
      out.number("wind_on_line_N_per_m", span.wind.line_N_per_m);
      out.number("wind_on_rider_N", span.wind.rider_N);
      out.number("lean_rad", span.wind.lean_rad);
    });
    out.number("push_off_m", in.push_off_m);
  });
}

void write_thing(Writer& out, std::string_view key, const Rig& rig, Thing thing) {
  out.object(key, [&] {
    out.text("kind", word_for(thing.kind));
    out.count("index", thing.index);
    out.text("name", tables::thing(rig, thing));
  });
}

void write_gap(Writer& out, const Rig& rig, const Gap& gap) {
  write_thing(out, "a", rig, gap.a);
  write_thing(out, "b", rig, gap.b);
  write_extreme(out, "least_m", gap.least_m);
  out.count("sweep", gap.sweep);
  out.number("travel_m", gap.travel_m);
  out.vector("on_a_m", gap.on_a);
  out.vector("on_b_m", gap.on_b);
}

void write_hands(Writer& out, const Rig& rig, const std::optional<clearance::Hands>& hands) {
  if (!hands) return out.null("hands");
  out.object("hands", [&] {
    out.number("stretch_m", hands->stretch_m);
    out.object("gap", [&] { write_gap(out, rig, hands->gap); });
    out.number("inside_m", hands->inside_m);
    out.count("sweep", hands->sweep);
    out.number("travel_m", hands->travel_m);
  });
}

void write_passing(Writer& out, const Rig& rig, const clearance::Passing& passing) {
  const bool met = passing.met == clearance::Passing::Met::at_travel;
  write_thing(out, "other", rig, passing.other);
  out.count("sweep", passing.sweep);
  out.text("met", word_for(passing.met));
  out.number("travel_m", met ? std::optional<double>(passing.travel_m) : std::nullopt);
  out.objects("gaps", passing.gaps, [&](const Gap& gap) { write_gap(out, rig, gap); });
}

std::string_view word_for(clearance::Moment::When when) {
  using When = clearance::Moment::When;
  switch (when) {
    case When::contact:
      return "contact";
    case When::full_travel:
      return "full travel";
    case When::leaning_back:
      return "leaning back";
    case When::leaning_forward:
      return "leaning forward";
    case When::beside:
      return "beside";
  }
  return "unknown";
}

void write_moment(Writer& out, const Rig& rig, const clearance::Moment& moment) {
  out.text("when", word_for(moment.when));
  out.object("gap", [&] { write_gap(out, rig, moment.gap); });
}

void write_exclusion(Writer& out, const Rig& rig, const clearance::Exclusion& exclusion) {
  write_thing(out, "a", rig, exclusion.a);
  write_thing(out, "b", rig, exclusion.b);
  out.text("why", clearance::reason(exclusion.why));
  out.count("leg_a", exclusion.leg_a);
  out.count("leg_b", exclusion.leg_b);
  out.number("within_m", exclusion.within_m);
}

void write_profile(Writer& out, const clearance::Profile& profile) {
  out.count("gap", static_cast<long>(profile.gap));
  out.column("travel_m", profile.at, [](const clearance::Profile::At& at) { return at.travel_m; });
  out.column("gap_m", profile.at, [](const clearance::Profile::At& at) { return at.gap_m; });
}

}  // namespace

void write_clearance(Writer& out, const Rig& rig) {
  static const clearance::Clearances nothing;
  const clearance::Clearances* solved = rig.clearance.solved();
  const clearance::Clearances& found = solved ? *solved : nothing;
  out.object("clearance", [&] {
    write_unsolved(out, *rig.clearance.result);
    write_inputs(out, rig);
    out.objects("gaps", found.gaps, [&](const Gap& gap) { write_gap(out, rig, gap); });
    write_hands(out, rig, found.hands);
    out.objects("passings", found.passings,
                [&](const clearance::Passing& passing) { write_passing(out, rig, passing); });
    out.objects("moments", found.moments, [&](const clearance::Moment& moment) { write_moment(out, rig, moment); });
    out.objects("excluded", found.excluded,
                [&](const clearance::Exclusion& exclusion) { write_exclusion(out, rig, exclusion); });
    out.objects("profiles", found.profiles, [&](const clearance::Profile& profile) { write_profile(out, profile); });
  });
}

}  // namespace fairlead::json
