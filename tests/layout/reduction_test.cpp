// Travelling blocks and what they hang on: what is read of them, and what must agree.
#include <map>

#include "geometry/layout/items.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

// The good layout with this added before its first line, block or support line.
std::string with(const std::string& section, const std::string& added) {
  return edited("[[" + section + "]]\n", added + "\n[[" + section + "]]\n");
}

TEST(ReadReduction, ASupportLineIsReadLikeTheMainLine) {
  const SupportLine line = layout_of(good_text()).support_lines.at(0);
  EXPECT_EQ(line.id.value, "S1");
  EXPECT_EQ(line.from, AnchorId{2});
  EXPECT_EQ(line.to, AnchorId{3});
  EXPECT_EQ(line.carries, BlockId{0});
  EXPECT_EQ(line.wheel.value, (Vec3{0, 0, 0.14}));
  EXPECT_EQ(line.diameter_m, 0.010);
  EXPECT_EQ(line.mass_kg_per_m, 0.4);
  EXPECT_EQ(line.construction->value, RopeConstruction::rope_7x19);
  EXPECT_EQ(line.mbs_N->value, 55e3);
  EXPECT_EQ(line.sag_m->value, 0.2);
  EXPECT_FALSE(line.ea_N || line.tension_N || line.unstretched_length_m);
  EXPECT_DOUBLE_EQ(line.at_temperature_K, 283.15);
  const Layout measured = layout_of(edited("sag = \"0.2 m\"", "tension = \"4 kN\""));
  EXPECT_EQ(measured.support_lines[0].tension_N->value, 4000);
  EXPECT_EQ(measured.support_lines[0].tension_at.value, TensionAt::end);
  EXPECT_EQ(
      assumptions(measured),
      std::vector<std::string>{"support_line.S1.tension_at = end, a stated default (the end toward the landing is "
                               "where it is usually tensioned; common practice, no source)"});
}

TEST(ReadReduction, ABlockItsLinesAndItsSheavesHaveTheirSizes) {
  const Layout layout = layout_of(good_text());
  const Block& block = layout.blocks.at(0);
  EXPECT_EQ(block.rest_m->value, 208);
  EXPECT_EQ(block.size_m->value, (Size{0.26, 0.12, 0.18}));
  EXPECT_EQ(block.centre_of_mass.value, (Vec3{0.005, 0, -0.02}));
  EXPECT_EQ(layout.sheaves[0].frame_m->value, (Size{0.24, 0.06, 0.3048}));
  EXPECT_FALSE(layout.sheaves[1].frame_m);
  EXPECT_EQ(layout.lines[0].to_termination_m->value, 0.18);
  EXPECT_EQ(layout.lines[1].from_offset->value, (Vec3{0.08, 0, -0.0254}));
  EXPECT_FALSE(layout.lines[1].ea_N || layout.lines[1].length_m || layout.lines[1].to_offset);
  EXPECT_EQ(layout.lines[2].length_m->value, 31.5);
  EXPECT_EQ(layout.lines[2].ea_N->value, 1.1e6);
  EXPECT_EQ(layout.lines[2].to_offset->value, (Vec3{-0.08, 0, 0.025}));
  EXPECT_EQ(layout.lines[2].from_termination_m->value, 0);
}

TEST(ReadReduction, ABlockWithoutACentreOfMassHasItAtItsPointAndThatIsSaid) {
  const Layout layout = layout_of(edited("centre_of_mass = [\"5 mm\", 0, \"-20 mm\"]\n", ""));
  EXPECT_EQ(layout.blocks[0].centre_of_mass.value, (Vec3{0, 0, 0}));
  EXPECT_EQ(assumptions(layout),
            std::vector<std::string>{
                "block.B1.centre_of_mass = [0 mm, 0 mm, 0 mm], a stated default (taken at its point, not measured)"});
}

TEST(ReadReduction, TheTrolleysAttachmentAndTheLimitsAreSI) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.brake_trolley.wheelbase_m->value, 0.24);
  EXPECT_EQ(layout.brake_trolley.mbs_N->value, 40e3);
  EXPECT_FALSE(layout.brake_trolley.wll_N);
  EXPECT_NEAR(layout.brake_trolley.side_pull->at, 0.087266463, 5e-10);  // 5 deg
  const Limits& limits = layout.limits;
  EXPECT_EQ(limits.line_clearance_m->at, 0.1);
  EXPECT_DOUBLE_EQ(limits.line_to_line_m->at, 0.0508);
  EXPECT_EQ(limits.line_to_main_line_m->at, 0.11);
  EXPECT_EQ(limits.block_clearance_m->at, 0.15);
  EXPECT_EQ(limits.rider_clearance_m->at, 0.5);
  EXPECT_EQ(limits.rider_line_clearance_m->at, 0.6);
  EXPECT_EQ(limits.block_run_m->at, 1);
  EXPECT_EQ(limits.lift_share->at, 0.5);
  EXPECT_EQ(limits.main_line_factor->at, 3);
  EXPECT_EQ(limits.main_line_factor->basis, "invented");
}

TEST(ReadReduction, AnEndBearsOnWhatItsConnectorJoins) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(bearing_of(layout, layout.lines[0].from), LineEnd{BrakeTrolleyEnd{}});
  EXPECT_EQ(bearing_of(layout, layout.lines[0].to), LineEnd{AnchorId{2}});
  const auto joined_to = [](const std::string& what) {
    const Layout joined =
        layout_of(edited("joins = [\"L1\", \"brake_trolley\"]", "joins = [\"L1\", \"" + what + "\"]"));
    return bearing_of(joined, joined.lines[0].from);
  };
  EXPECT_EQ(joined_to("B1"), LineEnd{BlockId{0}});
  EXPECT_EQ(joined_to("A4"), LineEnd{AnchorId{3}});
  EXPECT_EQ(joined_to("L3"), std::nullopt);
}

TEST(ReadReduction, TheBlocksOnALineAreThoseItEndsOnAndRunsOverEachOnce) {
  const Layout layout = layout_of(good_text());
  for (const Line& line : layout.lines) EXPECT_EQ(blocks_on(layout, line), std::vector<BlockId>{BlockId{0}});
  const Layout elsewhere =
      layout_of(edited("on = \"B1\"\noffset = [\"-40 mm\", 0, \"1 in\"]", "on = \"brake_trolley\"\noffset = [0, 0, 0]",
                       edited("tails = \"1.2 m\"", "length = \"60 m\"", edited("rest = \"208 m\"\n", ""))));
  EXPECT_EQ(blocks_on(elsewhere, elsewhere.lines[0]), std::vector<BlockId>{});
}

TEST(ReadReduction, ALineWithoutALengthClosesOnABlockThatRestsSomewhere) {
  const Layout layout = layout_of(good_text());
  EXPECT_EQ(layout.lines[0].closed_by, BlockId{0});
  EXPECT_EQ(layout.lines[1].closed_by, std::nullopt);  // the braking line
  EXPECT_EQ(layout.lines[2].closed_by, std::nullopt);  // its length is given
}

// Two blocks one behind the other: L0 lies on both, L1 on the first only. Whichever is asked first, each gets its own.
TEST(ReadReduction, EachOfTwoBlocksClosesALineOfItsOwnInAnyOrder) {
  const std::string line =
      "[[line]]\nid = \"L0\"\nmaterial = \"fibre\"\nfrom = \"B1\"\nroute = [\"R3\"]\nto = \"A3\"\ndiameter = \"8 mm\"\n"
      "mass = \"0.04 kg/m\"\n";
  const std::string block =
      "\n[[block]]\nid = \"B2\"\nmass = \"2 kg\"\nrest = \"211 m\"\n\n[[sheave]]\nid = \"R3\"\non = \"B2\"\n"
      "offset = [0, 0, 0]\naxle = [0, 1, 0]\npitch_diameter = \"0.1 m\"\n\n";
  for (const std::string& text : {with("line", line) + block, good_text() + block + line}) {
    const Layout layout = layout_of(text);
    std::map<std::string, std::optional<BlockId>> closed_by;
    for (const Line& one : layout.lines) closed_by[one.id.value] = one.closed_by;
    EXPECT_EQ(closed_by["L0"], BlockId{1});
    EXPECT_EQ(closed_by["L1"], BlockId{0});
  }
}

TEST(ReductionErrors, ALengthIsGivenOnceByTheLineOrByItsBlock) {
  const std::string nowhere = edited("rest = \"208 m\"\n", "");
  EXPECT_EQ(printed_errors(nowhere),
            error_at(nowhere, nowhere.find("[[line]]"), 8, "line \"L1\": its finished length is not known",
                     "give its \"length\", or the \"rest\" of block \"B1\""));
  const std::string two = edited("length = \"31.5 m\"\n", "");
  EXPECT_EQ(printed_errors(two), error_at(two, two.rfind("[[line]]"), 8,
                                          "line \"L3\": its finished length is not known", "give its \"length\""));
  expect_each({
      {"tails = \"1.2 m\"", "length = \"61 m\"", "\"208 m\"",
       "block \"B1\": the lengths of the lines say already where it rests",
       "leave out \"rest\", or the \"length\" of line \"L1\""},
      {"mass = \"60 g/m\"", "mass = \"60 g/m\"\nlength = \"9 m\"", "\"9 m\"",
       "line \"L2\": it runs into the brake unit, so its length follows from \"rest_extension\"",
       "leave out \"length\""},
      {"length = \"31.5 m\"", "length = \"20 cm\"", "\"20 cm\"",
       "line \"L3\": its terminations take 0.200 m and leave nothing of its length", ""},
  });
}

TEST(ReductionErrors, ABlockIsPulledAndEachOfItsSheavesHasALine) {
  expect_each({
      {"[[support_line]]", "[[block]]\nid = \"B2\"\nmass = \"1 kg\"\n\n[[support_line]]", "[[block]]",
       "block \"B2\": no line pulls it", "end a line on it, or let one run over a sheave on it"},
      {"[[line]]",
       "[[sheave]]\nid = \"R3\"\noffset = [0, 0, 0]\naxle = [0, 1, 0]\ntread_diameter = \"0.1 m\"\non = "
       "\"B1\"\n\n[[line]]",
       "\"B1\"", "sheave \"R3\": no line runs over it", "name it in the \"route\" of a line, or leave it out"},
  });
}

TEST(ReductionErrors, ABlockRidesOnOneSupportLine) {
  const std::string text =
      with("connector",
           "[[support_line]]\nid = \"S2\"\ncarries = \"B1\"\nwheel = [0, 0, 0]\nfrom = \"A3\"\nto = \"A4\"\n"
           "diameter = \"8 mm\"\nmass = \"0.3 kg/m\"\nea = \"3 MN\"\ntension = \"3 kN\"\nat_temperature = \"10 C\"\n");
  EXPECT_EQ(printed_errors(text), error_at(text, text.rfind("carries = \"B1\"") + 10, 4,
                                           "support line \"S2\": block \"B1\" rides on support line \"S1\" already",
                                           "a block rides on one support line"));
}

TEST(ReductionErrors, ASupportLineHangsBetweenTwoAnchorsAndCarriesABlock) {
  expect_each({
      {"to = \"A4\"", "to = \"A3\"", "\"A3\"", "support line \"S1\": it ends where it begins, at \"A3\"", ""},
      {"carries = \"B1\"", "carries = \"A1\"", "\"A1\"",
       "support line \"S1\": \"A1\" is an anchor, and a block is wanted", "known: B1"},
      {"carries = \"B1\"\n", "", "[[support_line]]", "support line \"S1\": \"carries\" is missing",
       "add it: the travelling block that rides on it; for example carries = \"B1\""},
      {"sag = \"0.2 m\"", "sag = [\"0.2 m\", \"0.3 m\"]", "[\"0.2 m\", \"0.3 m\"]",
       "support line \"S1\": \"sag\" is a length, not a list", "for example sag = \"0.2 m\""},
      {"sag = \"0.2 m\"\n", "", "[[support_line]]",
       "support line \"S1\": one of \"tension\", \"sag\" and \"unstretched_length\" is missing", "give exactly one"},
  });
  const std::string upright = edited("position = [216, 0, 9]", "position = [180, 0, 9]");
  EXPECT_EQ(printed_errors(upright), error_at(upright, upright.find("to = \"A4\"") + 5, 4,
                                              "support line \"S1\": \"A3\" and \"A4\" stand above one another",
                                              "a support line spans a horizontal distance"));
}

TEST(ReductionErrors, ABlockRestsBetweenTheAnchorsWithItsWheelsOnTheSupportLine) {
  expect_each({
      {"rest = \"208 m\"", "rest = \"220 m\"", "\"220 m\"",
       "block \"B1\": it would rest beyond the main line's anchors",
       "the main line runs from chainage 0.000 m to 220.000 m"},
      {"rest = \"208 m\"", "rest = \"216 m\"", "\"216 m\"",
       "block \"B1\": its wheels would rest at chainage 216.000 m, off support line \"S1\"",
       "it runs from chainage 180.000 m to 216.000 m"},
      {"wheel = [0.0, 0.0, \"140 mm\"]", "wheel = [-29, 0, 0]", "\"208 m\"",
       "block \"B1\": its wheels would rest at chainage 179.000 m, off support line \"S1\"",
       "it runs from chainage 180.000 m to 216.000 m"},
  });
  EXPECT_EQ(printed_errors(edited("wheel = [0.0, 0.0, \"140 mm\"]", "wheel = [-27, 0, 0]")), "");
}

TEST(ReductionErrors, AnOffsetIsCountedFromTheBlockALineEndsOn) {
  expect_each({
      {"to_termination = \"180 mm\"", "to_offset = [0, 0, 0]", "[0, 0, 0]", "line \"L1\": its \"to\" is on no block",
       "leave out \"to_offset\": it is counted from a block's point"},
      {"to_termination = \"180 mm\"", "from_offset = [0, 0, 0]", "[0, 0, 0]",
       "line \"L1\": its \"from\" is on no block", "leave out \"from_offset\": it is counted from a block's point"},
  });
  const std::string on_block = edited("joins = [\"L1\", \"brake_trolley\"]", "joins = [\"L1\", \"B1\"]");
  EXPECT_EQ(printed_errors(edited("to_termination = \"180 mm\"", "from_offset = [0, 0, 0]", on_block)), "");
}

TEST(ReductionErrors, AConnectorThatEndsALineJoinsItToOneThing) {
  expect_each({
      {"joins = [\"L1\", \"brake_trolley\"]", "joins = [\"L1\", \"brake_trolley\", \"B1\"]", "[[connector]]",
       "connector \"C1\": a line ends on it, and it joins both \"brake_trolley\" and \"B1\"",
       "let it join the line to one of them"},
      {"joins = [\"L1\", \"brake_trolley\"]", "joins = [\"L1\", \"R1\"]", "\"R1\"",
       "connector \"C1\": \"R1\" is a sheave, and a line, a block, an anchor, the brake trolley or the brake unit is "
       "wanted",
       "known: brake_trolley, brake_unit, A1, A2, A3, A4, L1, L2, L3, B1"},
  });
  // No line ends on it: it may join what it will.
  EXPECT_EQ(printed_errors(edited("from = \"C1\"", "from = \"brake_trolley\"",
                                  edited("\"L1\", \"brake_trolley\"]", "\"brake_trolley\", \"B1\"]"))),
            "");
}

TEST(ReductionErrors, SizesAreAboveZeroAndAShareOfTheWeightIsBelowOne) {
  expect_each({
      {"size = [\"260 mm\", \"120 mm\", \"180 mm\"]", "size = [\"260 mm\", \"0 mm\", \"180 mm\"]", "\"0 mm\"",
       "block \"B1\": \"size\" must be above 0", ""},
      {"frame = [\"240 mm\", \"60 mm\", \"1 ft\"]", "frame = \"240 mm\"", "\"240 mm\"",
       "sheave \"R1\": \"frame\" is a size [along, across, up], not a text",
       "for example frame = [\"240 mm\", \"60 mm\", \"320 mm\"]"},
      {"wheelbase = \"240 mm\"", "wheelbase = 0", "0", "brake trolley: \"wheelbase\" must be above 0", ""},
      {"mbs = \"40 kN\"\nstatic_resistance", "mbs = \"40 kN\"\nwll = \"1 t\"\nstatic_resistance", "wll",
       "brake trolley: \"mbs\" and \"wll\" are both given", "of \"wll\" and \"mbs\" only one may be given"},
      {"lift_share = { at = \"50 %\"", "lift_share = { at = \"100 %\"", "\"100 %\"",
       "limits \"lift_share\": \"at\" must lie from 0 to below 1.000", ""},
      {"lift_share = { at = \"50 %\", basis = \"invented\" }", "lift_share = 0.5", "0.5",
       "limits: the limit \"lift_share\" does not say who set it",
       "write lift_share = { at = ..., basis = \"who says so\" }"},
  });
}

}  // namespace
}  // namespace fairlead
