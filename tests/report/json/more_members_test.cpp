// Every key of loads, clearances and findings holds the member it is named after.
#include <gtest/gtest.h>

#include "geometry/layout/items.hpp"
#include "report/tables/tables.hpp"
#include "tests/checks/built_up.hpp"
#include "tests/report/json/members.hpp"

namespace fairlead {
namespace {

void expect_demand(const Json& json, const Extreme& demand) {
  EXPECT_TRUE(same(json["value"], demand.value) && same(json["bound"], demand.bound)) << json;
  EXPECT_EQ(json["case"], demand.pose);
}

TEST(JsonMembersToo, OfWhatHoldsWhat) {
  const Json& in = skew().json["loads"]["inputs"];
  EXPECT_EQ(in["start_anchor"], "P1");
  EXPECT_EQ(in["end_anchor"], "P2");
  EXPECT_EQ(in["unit_anchor"], "B1");
  EXPECT_EQ(in["sheave_anchors"], Json::array({"A3"}));
  EXPECT_EQ(in["line_from_anchors"], Json::array({nullptr}));
  const Json& reduction = reduced().json["loads"]["inputs"];
  EXPECT_EQ(reduction["sheave_anchors"], Json::array({"A3", nullptr, nullptr})) << "redirect, block, wheel";
  EXPECT_EQ(reduction["line_from_anchors"], Json::array({nullptr, nullptr, "A4"}));
  EXPECT_EQ(reduction["line_to_anchors"], Json::array({"A3", nullptr, "A5"}));
  for (const Recorded* recorded : {&skew(), &reduced()})
    for (std::size_t i = 0; i < recorded->rig().layout.anchors.size(); ++i) {
      const Json& anchor = recorded->json["loads"]["inputs"]["anchors"][i];
      EXPECT_EQ(anchor["id"], recorded->rig().layout.anchors[i].id.value);
      EXPECT_TRUE(same(anchor["position_m"], recorded->rig().layout.anchors[i].position.value));
    }
}

TEST(JsonMembersToo, OfEveryDemandAndCase) {
  for (const Recorded* recorded : {&skew(), &reduced()}) {
    const loads::Loads& loads = *recorded->rig().loads.solved();
    const Json& json = recorded->json["loads"];
    ASSERT_EQ(json["demands"].size(), loads.demands.size());
    for (std::size_t i = 0; i < loads.demands.size(); ++i) {
      EXPECT_TRUE(same(json["demands"][i]["force_N"], loads.demands[i].force_N.value));
      EXPECT_TRUE(same(json["demands"][i]["bound_N"], loads.demands[i].force_N.bound));
      EXPECT_EQ(json["demands"][i]["case"], loads.demands[i].force_N.pose);
    }
    ASSERT_EQ(json["lines"].size(), recorded->rig().lines.size());
    for (std::size_t i = 0; i < loads.lines.size(); ++i) {
      expect_demand(json["lines"][i]["tension_N"], loads.lines[i].tension_N);
      expect_demand(json["lines"][i]["from_N"], loads.lines[i].from_N);
      expect_demand(json["lines"][i]["to_N"], loads.lines[i].to_N);
    }
    ASSERT_EQ(json["sheaves"].size(), loads.sheaves.size());
    for (std::size_t i = 0; i < loads.sheaves.size(); ++i)
      expect_demand(json["sheaves"][i]["force_N"], loads.sheaves[i].force_N);
    ASSERT_EQ(json["blocks"].size(), loads.blocks.size());
    for (std::size_t i = 0; i < loads.blocks.size(); ++i) {
      expect_demand(json["blocks"][i]["force_N"], loads.blocks[i].force_N);
      expect_demand(json["blocks"][i]["lean_N_m"], loads.blocks[i].lean_N_m);
    }
    expect_demand(json["main_line_N"], loads.main_line.force_N);
    for (std::size_t c = 0; c < loads.cases.size(); ++c) {
      const Json& load_case = json["cases"][c];
      EXPECT_EQ(load_case["name"], loads.cases[c].name);
      EXPECT_EQ(load_case["sweep"], loads.cases[c].sweep);
      EXPECT_EQ(load_case["pose"], loads.cases[c].pose);
      EXPECT_TRUE(same(load_case["travel_m"], loads.cases[c].travel_m));
      EXPECT_TRUE(same(load_case["largest_N"], loads.cases[c].largest_N));
      EXPECT_EQ(load_case["moving"].is_null(), !loads.cases[c].moving);
      if (const auto& moving = loads.cases[c].moving) {
        EXPECT_EQ(load_case["moving"]["corner"],
                  recorded->rig().loads.inputs->arrested.corners[static_cast<std::size_t>(moving->corner)].name);
        EXPECT_TRUE(same(load_case["moving"]["t_s"], moving->t_s));
        EXPECT_TRUE(same(load_case["moving"]["rider_travel_m"], moving->rider_travel_m));
        EXPECT_TRUE(same(load_case["moving"]["unit_tension_N"], moving->unit_tension_N));
        EXPECT_TRUE(same(load_case["moving"]["lanyard_N"], moving->lanyard_N));
        EXPECT_TRUE(same(load_case["moving"]["inertia_N"], moving->inertia_N));
        EXPECT_TRUE(same(load_case["moving"]["left_along_N"], moving->left_along_N));
      }
      EXPECT_TRUE(same_column(load_case["on_anchor_N"], loads.cases[c].on_anchor_N, std::identity{}));
    }
  }
}

void expect_members(const Json& json, const std::vector<loads::MemberDemand>& members) {
  ASSERT_EQ(json.size(), members.size());
  for (std::size_t m = 0; m < members.size(); ++m) {
    expect_demand(json[m]["tension_N"], members[m].tension_N);
    expect_demand(json[m]["compression_N"], members[m].compression_N);
    EXPECT_EQ(json[m]["slack_case"], members[m].slack_case);
  }
}

TEST(JsonMembersToo, OfABuiltUpAnchor) {
  const Dossier dossier{judge(built_up(guyed_pole("wll = \"2 t\"\n", "may_be_lost = true\n"),
                                       "base = [1348, 911, 331]\ncone_axis = [4, 3, 0]\ncone_angle = \"80 deg\""))};
  const Rig& rig = dossier.judged.rig;
  const Json whole = Json::parse(json::write(dossier));
  const Json& json = whole["loads"];
  const loads::Loads& loads = *rig.loads.solved();
  expect_members(json["members"], loads.members);
  ASSERT_EQ(json["lost"].size(), 1u);
  EXPECT_EQ(json["lost"][0]["member"], "G1");
  if (loads.lost[0].not_held) {
    EXPECT_EQ(json["lost"][0]["not_held"]["why"], loads.lost[0].not_held->why);
  } else {
    expect_members(json["lost"][0]["others"], loads.lost[0].others);
  }
  const Json& stands = json["anchors"][secondary];
  const loads::AnchorDemand& demand = loads.anchors[secondary];
  expect_demand(stands["base_moment_N_m"], demand.base_moment_N_m);
  expect_demand(stands["off_axis_rad"], demand.off_axis_rad);
  expect_demand(stands["moved_along_m"], demand.moved_m[0]);
  expect_demand(stands["moved_across_m"], demand.moved_m[1]);
  expect_demand(stands["moved_up_m"], demand.moved_m[2]);
  expect_demand(stands["pull_along_N"], demand.pull_N[0]);
  expect_demand(stands["pull_across_N"], demand.pull_N[1]);
  expect_demand(stands["pull_up_N"], demand.pull_N[2]);
  for (std::size_t m = 0; m < rig.layout.members.size(); ++m) {
    const Json& in = json["inputs"]["members"][m];
    const loads::Member& member = rig.loads.inputs->members[m];
    EXPECT_EQ(in["id"], rig.layout.members[m].id.value);
    EXPECT_EQ(in["anchor"], "A3");
    EXPECT_EQ(in["pushes"], member.part.pushes);
    EXPECT_EQ(in["may_be_lost"], member.may_be_lost);
    EXPECT_TRUE(same(in["to_m"], member.part.to) && same(in["ea_N"], member.part.ea_N));
    EXPECT_TRUE(same(in["pretension_N"], member.part.pretension_N));
  }
  EXPECT_TRUE(same(json["inputs"]["footings"][secondary]["base_m"], Point3{1348, 911, 331}));
  EXPECT_TRUE(same(json["inputs"]["footings"][secondary]["cone_axis"], Vec3{4, 3, 0}));
  for (std::size_t c = 0; c < loads.cases.size(); ++c) {
    EXPECT_EQ(json["cases"][c]["lost_member"], loads.cases[c].lost);
    EXPECT_EQ(json["cases"][c]["slack_members"].size(), loads.cases[c].slack.size());
    EXPECT_TRUE(same_column(json["cases"][c]["in_member_N"], loads.cases[c].in_member_N, std::identity{}));
  }
}

void expect_gap(const Rig& rig, const Json& json, const clearance::Gap& gap) {
  EXPECT_EQ(json["a"]["name"], tables::thing(rig, gap.a));
  EXPECT_EQ(json["b"]["name"], tables::thing(rig, gap.b));
  EXPECT_EQ(json["a"]["index"], gap.a.index);
  EXPECT_TRUE(same(json["least_m"]["value"], gap.least_m.value) && same(json["least_m"]["bound"], gap.least_m.bound));
  EXPECT_EQ(json["least_m"]["pose"], gap.least_m.pose);
  EXPECT_EQ(json["sweep"], gap.sweep);
  EXPECT_TRUE(same(json["travel_m"], gap.travel_m));
  EXPECT_TRUE(same(json["on_a_m"], gap.on_a) && same(json["on_b_m"], gap.on_b)) << json;
}

TEST(JsonMembersToo, OfEveryClearance) {
  const Rig& rig = reduced().rig();
  const clearance::Clearances& found = *rig.clearance.solved();
  const Json& json = reduced().json["clearance"];
  ASSERT_EQ(json["gaps"].size(), found.gaps.size());
  for (std::size_t i = 0; i < found.gaps.size(); ++i) expect_gap(rig, json["gaps"][i], found.gaps[i]);
  ASSERT_EQ(json["passings"].size(), found.passings.size());
  for (std::size_t i = 0; i < found.passings.size(); ++i) {
    const clearance::Passing& passing = found.passings[i];
    EXPECT_EQ(json["passings"][i]["other"]["name"], tables::thing(rig, passing.other));
    EXPECT_EQ(json["passings"][i]["sweep"], passing.sweep);
    if (passing.met != clearance::Passing::Met::at_travel) continue;
    EXPECT_TRUE(same(json["passings"][i]["travel_m"], passing.travel_m));
    ASSERT_EQ(json["passings"][i]["gaps"].size(), passing.gaps.size());
    for (std::size_t g = 0; g < passing.gaps.size(); ++g)
      expect_gap(rig, json["passings"][i]["gaps"][g], passing.gaps[g]);
  }
  ASSERT_EQ(json["moments"].size(), found.moments.size());
  ASSERT_EQ(json["moments"][0]["when"], "contact");
  ASSERT_EQ(json["moments"][1]["when"], "full travel");
  for (std::size_t i = 0; i < found.moments.size(); ++i)
    expect_gap(rig, json["moments"][i]["gap"], found.moments[i].gap);
  ASSERT_TRUE(found.hands);
  EXPECT_TRUE(same(json["hands"]["stretch_m"], found.hands->stretch_m));
  EXPECT_TRUE(same(json["hands"]["inside_m"], found.hands->inside_m));
  EXPECT_TRUE(same(json["hands"]["travel_m"], found.hands->travel_m));
  EXPECT_EQ(json["hands"]["sweep"], found.hands->sweep);
  expect_gap(rig, json["hands"]["gap"], found.hands->gap);
  ASSERT_EQ(json["excluded"].size(), found.excluded.size());
  for (std::size_t i = 0; i < found.excluded.size(); ++i) {
    EXPECT_EQ(json["excluded"][i]["why"], clearance::reason(found.excluded[i].why));
    EXPECT_EQ(json["excluded"][i]["leg_a"], found.excluded[i].leg_a);
    EXPECT_EQ(json["excluded"][i]["leg_b"], found.excluded[i].leg_b);
    EXPECT_TRUE(same(json["excluded"][i]["within_m"], found.excluded[i].within_m));
  }
}

TEST(JsonMembersToo, OfWhatTheClearancesWereSolvedFrom) {
  const clearance::Inputs& in = *reduced().rig().clearance.inputs;
  const Json& json = reduced().json["clearance"]["inputs"];
  for (std::size_t i = 0; i < in.structures.size(); ++i) {
    const Json& structure = json["structures"][i];
    EXPECT_EQ(structure["id"], reduced().rig().layout.structures[i].id.value);
    EXPECT_TRUE(same(structure["lines"], in.structures[i].lines) && same(structure["rider"], in.structures[i].rider));
    EXPECT_TRUE(same(structure["blocks"], in.structures[i].blocks));
    if (const auto* box = std::get_if<clearance::Box>(&in.structures[i].shape)) {
      EXPECT_TRUE(same(structure["box"]["centre_m"], box->centre) && same(structure["box"]["half_m"], box->half_m));
      EXPECT_TRUE(same(structure["box"]["x"], box->x) && same(structure["box"]["y"], box->y));
    } else if (const auto* post = std::get_if<clearance::Post>(&in.structures[i].shape)) {
      EXPECT_TRUE(same(structure["post"]["from_m"], post->from) && same(structure["post"]["to_m"], post->to));
      EXPECT_TRUE(same(structure["post"]["radius_m"], post->radius_m));
    } else {
      const auto& plane = std::get<clearance::Plane>(in.structures[i].shape);
      EXPECT_TRUE(same(structure["plane"]["through_m"], plane.through));
      EXPECT_TRUE(same(structure["plane"]["normal"], plane.normal));
    }
  }
  EXPECT_TRUE(same(json["rider"]["width_m"], in.rider->width_m) && same(json["rider"]["length_m"], in.rider->length_m));
  EXPECT_TRUE(same(json["rider"]["above_m"], in.rider->above_m) && same(json["rider"]["below_m"], in.rider->below_m));
  EXPECT_TRUE(same(json["sheaves"][0]["rim_radius_m"], in.sheaves[0].rim_radius_m));
  EXPECT_TRUE(same(json["sheaves"][0]["width_m"], in.sheaves[0].width_m));
  EXPECT_TRUE(same(json["sheaves"][0]["frame"]["centre_m"], in.sheaves[0].frame->centre));
  EXPECT_TRUE(same(json["blocks"][0]["body"]["half_m"], in.blocks[0]->half_m));
  EXPECT_TRUE(same(json["meeting_m"], in.meeting_m) && same(json["hands_m"], in.hands_m));
  EXPECT_TRUE(same(json["resolution_m"], in.resolution_m) && same(json["main_line_radius_m"], in.main_line_radius_m));
  EXPECT_TRUE(same_column(json["sweeps"], in.sweeps, std::identity{}));
}

TEST(JsonMembersToo, OfTheLineSchedule) {
  const Rig& rig = reduced().rig();
  const Json& lines = reduced().json["lines"];
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_EQ(lines[0]["runs_over"], Json::array({"brake trolley", "R1", "R2", "A3"}));
  EXPECT_EQ(lines[2]["kind"], "support line");
  EXPECT_TRUE(lines[2]["material"].is_null() && lines[2]["cut_length_m"].is_null());
  for (std::size_t i = 0; i < 3; ++i) {
    const Item line = tables::all_lines(rig.layout)[i];
    const auto reeved = *tables::reeved_line(rig, line);
    EXPECT_EQ(lines[i]["id"], *given_id(rig.layout, line));
    EXPECT_TRUE(same(lines[i]["finished_length_m"], rig.reeving.solved()->finished_length_m[reeved]));
    EXPECT_TRUE(same(lines[i]["rest_tension_N"], rig.reeving.solved()->rest_tension_N[reeved]));
    expect_demand(lines[i]["greatest_tension_N"], rig.loads.solved()->lines[reeved].tension_N);
  }
  EXPECT_NEAR(lines[0]["cut_length_m"].get<double>(),
              reduced().json["schedules"]["lines"][0]["unloaded_length_m"].get<double>() + 1.2, 1e-8);
}

TEST(JsonMembersToo, OfEveryFinding) {
  const auto& findings = skew().dossier.judged.findings;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Json& json = skew().json["findings"][i];
    const Finding& finding = findings[i];
    EXPECT_EQ(json["check"], finding.check->name);
    EXPECT_TRUE(finding.measured ? same(json["value"], finding.value) && same(json["bound"], finding.bound)
                                 : json["value"].is_null() && json["bound"].is_null())
        << json;
    EXPECT_TRUE(finding.limit ? same(json["limit"], finding.limit->at.value) : json["limit"].is_null()) << json;
    EXPECT_TRUE(finding.at ? same(json["at_m"], *finding.at) : json["at_m"].is_null()) << json;
  }
}

}  // namespace
}  // namespace fairlead
