// Sheets of a rig whose secondary anchor is held by legs, guys or a pole.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/drawing/overlap.hpp"
#include "report/drawing/symbols.hpp"
#include "report/tables/parts.hpp"
#include "report/views/scene.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "tests/report/sheets/held_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

TEST(HeldSheets, NoLetteringOverlapsNothingRunsThroughItAndNothingLeavesTheFrame) {
  for (const Dossier* dossier :
       {&hung(), &hung_reduced(), &swivelled(), &guyed(), &far_guyed(), &bridled(), &loosely_guyed()})
    for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b})
      for (const Sheet& sheet : set_of(*dossier, paper)) {
        for (const std::string& fault : faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}))
          ADD_FAILURE() << dossier->judged.rig.layout.project.title.value << ", " << sheet.title << ": " << fault;
        EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << sheet.title;
      }
}

/// Lines of the members' type, as drawn.
std::vector<std::pair<Paper, Paper>> member_lines(const Sheet& sheet) {
  std::vector<std::pair<Paper, Paper>> lines;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* stroke = std::get_if<Stroke>(&entity);
        stroke && stroke->pen.type == LineType::long_dash_short_dash && stroke->path.size() == 2)
      lines.push_back({stroke->path.front(), stroke->path.back()});
  return lines;
}

/// The share of a member that a view draws from its anchor in its true direction; 0: none of it.
double drawn_share(const Sheet& sheet, const View& view, const Rig& rig, const Member& member) {
  const Paper from = view.of(rig.layout.anchors[static_cast<std::size_t>(member.anchor)].position.value),
              whole = view.of(member.to.value) - from;
  double most = 0;
  for (const auto& [a, b] : member_lines(sheet)) {
    const Paper drawn = b - a;
    if (length(a - from) > 1e-6 || dot(drawn, whole) < 0) continue;
    if (std::abs(cross(drawn, whole)) > 1e-6 * length(drawn) * length(whole)) continue;
    most = std::max(most, length(drawn) / length(whole));
  }
  return most;
}

TEST(HeldSheets, MembersRunFromTheirAnchorTowardTheirFarEndInBothViews) {
  for (const Dossier* dossier : {&guyed(), &far_guyed(), &bridled()}) {
    const Rig& rig = dossier->judged.rig;
    const Sheet sheet = one_sheet(*dossier);
    for (const Member& member : rig.layout.members)
      for (const char* name : {"elevation", "plan"}) {
        const View& view = view_named(sheet, name);
        // The pole is seen end on in plan.
        if (length(view.of(member.to.value - rig.layout.anchors[secondary].position.value)) < 1) continue;
        const double share = drawn_share(sheet, view, rig, member);
        EXPECT_GT(share, 0.01) << member.id.value << " in " << name;
        EXPECT_LE(share, 1 + 1e-9) << member.id.value << " in " << name;
        if (share > 1 - 1e-9) continue;
        EXPECT_NE(everything(sheet).find(member.id.value + ", broken off in "), std::string::npos)
            << member.id.value << " ends short in " << name << " and no note says so";
      }
  }
}

TEST(HeldSheets, AFarFootIsCutOffRatherThanMakingTheViewsSmaller) {
  Layout alone = far_guyed().judged.rig.layout;
  alone.members.clear();
  alone.anchors[secondary].mbs_N = Real{60e3, {}};
  const double scale = view_named(one_sheet(judged_layout(alone)), "elevation").scale;
  const Sheet sheet = one_sheet(far_guyed());
  EXPECT_EQ(view_named(sheet, "elevation").scale, scale);
  const Rig& rig = far_guyed().judged.rig;
  const Member &upstream = rig.layout.members[1], &pole = rig.layout.members[0];
  EXPECT_LT(drawn_share(sheet, view_named(sheet, "elevation"), rig, upstream), 0.5);
  EXPECT_NEAR(drawn_share(sheet, view_named(sheet, "elevation"), rig, pole), 1, 1e-9) << "there is room for it";
  const std::string all = everything(sheet), far = words::shown(rig.layout, upstream.to, Style{});
  EXPECT_NE(all.find("Guy G1, broken off in both views, is " +
                     fmt_metres(norm(upstream.to.value - rig.layout.anchors[secondary].position.value)) +
                     " long and runs on to " + far),
            std::string::npos);
  EXPECT_EQ(everything(one_sheet(bridled())).find("broken off"), std::string::npos);
}

TEST(HeldSheets, EveryMemberIsNamedInTheElevationAndSetOut) {
  const Sheet sheet = one_sheet(guyed());
  std::string all;
  for (const Sheet& each : set_of(guyed())) all += everything(each);
  for (const Member& member : guyed().judged.rig.layout.members) {
    EXPECT_TRUE(says(sheet, (member.kind == MemberKind::pole ? "Pole " : "Guy ") + member.id.value));
    EXPECT_NE(all.find(member.id.value + " far end"), std::string::npos);
    EXPECT_NE(all.find(fmt_metres(member.to.value.x)), std::string::npos);
  }
  EXPECT_TRUE(says(sheet, "leg, guy or pole, to its far end"));
}

TEST(HeldSheets, ASectionShowsThemToo) {
  EXPECT_FALSE(member_lines(one_sheet(guyed(), PaperSize::a3, "clearances")).empty());
}

// What pulls at the node and what holds it are in balance in every row of the two tables. The node is held in small
// movements, so the members' directions are those drawn; forces are close to 1e-12 of the greatest.
TEST(HeldSheets, TheForcesOfARowBalanceTheLoadOfTheSameCase) {
  for (const Dossier* dossier : {&guyed(), &loosely_guyed()}) {
    const Rig& rig = dossier->judged.rig;
    const loads::Loads& loads = *rig.loads.solved();
    const Table table = tables::member_cases(*dossier, secondary);
    ASSERT_EQ(table.rows.size(), loads.cases.size());
    int held = 0, slack = 0;
    for (std::size_t c = 0; c < table.rows.size(); ++c) {
      Vec3 sum = loads.cases[c].on_anchor_N[secondary];
      double greatest_N = norm(sum);
      bool numbers = true;
      for (std::size_t m = 0; m < rig.layout.members.size(); ++m) {
        const Cell& cell = table.rows[c][2 + m];
        if (const auto* force = std::get_if<Quantity>(&cell)) {
          sum = sum + force->si * unit(rig.layout.members[m].to.value - rig.layout.anchors[secondary].position.value);
          greatest_N = std::max(greatest_N, std::abs(force->si));
        } else if (std::get<std::string>(cell) == "slack") {
          ++slack;
          EXPECT_LT(std::abs(loads.cases[c].in_member_N[m]), 1e-9 * norm(loads.cases[c].on_anchor_N[secondary]));
        } else {
          numbers = false;
        }
      }
      if (!numbers) continue;
      ++held;
      EXPECT_LT(norm(sum), 1e-9 * greatest_N) << loads.cases[c].name;
    }
    EXPECT_GT(held, 3);
    if (dossier == &loosely_guyed()) {
      EXPECT_GT(slack, 0);
    }
  }
}

TEST(HeldSheets, CasesOfOneActionStandTogetherUnderItsName) {
  const Table table = tables::member_cases(guyed(), secondary);
  std::vector<std::string> actions;
  for (const auto& row : table.rows)
    if (const auto* action = std::get_if<std::string>(&row[0])) actions.push_back(*action);
  ASSERT_GT(actions.size(), 2u);
  std::vector<std::string> once = actions;
  std::sort(once.begin(), once.end());
  EXPECT_EQ(std::unique(once.begin(), once.end()), once.end()) << "every action has one group";
  EXPECT_TRUE(tables::member_cases(guyed(), 0).rows.empty()) << "no member holds P1";
}

TEST(HeldSheets, AnAnchorHeldByMembersIsRatedByTheWorstOfThem) {
  const Sheet loads = one_sheet(guyed(), PaperSize::a3, "anchor-loads");
  double most = 0;
  std::string worst;
  for (const Finding& finding : guyed().judged.findings)
    if (finding.check->name == "member-utilisation" && finding.value > most) {
      most = finding.value;
      worst = words::id_of(guyed().judged.rig.layout, finding.subject);
    }
  const std::string all = everything(loads);
  EXPECT_NE(all.find("rated by its members: " + worst + " " + words::shown(most, Dimension::ratio, Style{}) + " of "),
            std::string::npos);
  EXPECT_TRUE(says(loads, "by its members"));
  EXPECT_EQ(all.find("utilisation not judged"), std::string::npos);
}

TEST(HeldSheets, OneMemberWithoutACapacityLeavesItsAnchorUnrated) {
  const Finding* worst = tables::worst_member(bridled(), secondary);
  ASSERT_TRUE(worst);
  EXPECT_EQ(words::id_of(bridled().judged.rig.layout, worst->subject), "B1R");
  EXPECT_EQ(words::outcome_of(*worst), words::Outcome::not_judged);
  EXPECT_TRUE(says(one_sheet(bridled(), PaperSize::a3, "anchor-loads"), "rated by its members: B1R not judged"));
}

/// Circles of a balloon's size.
int balloons_on(const Sheet& sheet) {
  return static_cast<int>(
      std::count_if(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [](const auto& e) {
        const auto* stroke = std::get_if<Stroke>(&e);
        return stroke && stroke->closed && stroke->path.size() > 8 && stroke->pen.layer == Layer::text &&
               std::abs(bounds(stroke->path).width() - 2 * balloon_radius_mm) < 0.05;
      }));
}

TEST(HeldSheets, EveryBalloonHasItsEntryInTheKeyOfItsSheet) {
  int seen = 0;
  for (const char* name : {"marten_ridge", "sable_weir", "heron_gully"}) {
    const Sheet sheet = one_sheet(judged_layout(layout_of(name)));
    const int balloons = balloons_on(sheet);
    seen += balloons;
    for (int number = 1; number <= balloons; ++number)
      EXPECT_TRUE(says(sheet, fmt::format("({})", number))) << name << ", balloon " << number;
  }
  EXPECT_GT(seen, 0);
}

}  // namespace
}  // namespace fairlead::sheets
