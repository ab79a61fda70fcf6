// How lines and cables end: what is read of it, what a kind holds, and what it must agree with.
#include "geometry/layout/termination_fields.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

using Kind = TerminationKind;

constexpr double inch = 0.0254;

/// The good layout whose third line, of steel and 6 mm, begins so.
std::string steel_with(const std::string& end) {
  return edited("material = \"steel\"\n", "material = \"steel\"\nfrom_end = " + end + "\n");
}
/// Its first line, of fibre, likewise.
std::string fibre_with(const std::string& end) {
  return edited("material = \"fibre\"\n", "material = \"fibre\"\nfrom_end = " + end + "\n");
}

TEST(ReadTermination, ClipsHaveTheirCountTheirTurnbackAndTheirTorqueInSI) {
  const Layout layout = layout_of(
      edited("[main_line]\n",
             "[main_line]\nfrom_end = { kind = \"clips\", clips = 4, turnback = \"18 in\", torque = \"130 ft lb\" }\n"
             "to_end = { kind = \"poured socket\", efficiency = \"97 %\" }\n"));
  const Termination& from = *layout.main_line.from_end;
  EXPECT_EQ(from.kind.value, Kind::clips);
  EXPECT_EQ(from.clips->value, 4);
  EXPECT_DOUBLE_EQ(from.turnback_m->value, 0.4572);
  EXPECT_NEAR(from.torque_N_m->value, 176.2563, 5e-5 + 130 * 5e-8);  // 130 x 1.355818, its seventh digit rounded
  EXPECT_EQ(from.kind.place.line, from.place.line);
  const Termination& to = *layout.main_line.to_end;
  EXPECT_EQ(to.efficiency->value, 0.97);
  EXPECT_EQ(efficiency_of(to, layout.main_line.diameter_m), 0.97) << "what is given beats what is published";
  EXPECT_FALSE(to.clips || to.turnback_m || to.torque_N_m);
}

TEST(ReadTermination, EveryLineAndCableMayHaveOneAtEitherEnd) {
  const std::string wedge = "to_end = { kind = \"wedge\" }\n";
  const auto in = [&](const std::string& section) { return layout_of(edited(section, section + wedge)); };
  EXPECT_EQ(in("[main_line]\n").main_line.to_end->kind.value, Kind::wedge);
  EXPECT_EQ(in("[[support_line]]\n").support_lines.at(0).to_end->kind.value, Kind::wedge);
  const std::string beside =
      "[[parallel_line]]\nid = \"M2\"\nfrom = \"A1\"\nto = \"A2\"\ndiameter = \"16 mm\"\nmass = \"1 kg/m\"\n"
      "ea = \"11 MN\"\nsag = \"4 m\"\nat_temperature = \"10 C\"\n";
  EXPECT_EQ(layout_of(good_text() + beside + wedge).parallel_lines.at(0).to_end->kind.value, Kind::wedge);
  const Layout layout = layout_of(edited("material = \"steel\"\n", "material = \"steel\"\n" + wedge));
  EXPECT_EQ(layout.lines.at(2).to_end->kind.value, Kind::wedge);
  EXPECT_FALSE(layout.lines[2].from_end || layout.lines[0].to_end || layout.lines[1].to_end);
  const Layout maker =
      layout_of(edited("material = \"fibre\"\n", "material = \"fibre\"\nsheave_strength = \"88 %\"\n"));
  EXPECT_EQ(maker.lines.at(0).sheave_strength->value, 0.88);
}

// Source TM5-3810.
TEST(Termination, ASteelKindHoldsWhatIsPublished) {
  for (const double diameter_m : {0.006, 0.016, 0.032}) {
    EXPECT_EQ(published_efficiency(Kind::poured_socket, diameter_m), 1.00);
    EXPECT_EQ(published_efficiency(Kind::swaged, diameter_m), 0.95);
    EXPECT_EQ(published_efficiency(Kind::wedge, diameter_m), 0.75) << "the least of 75 to 95 %";
    EXPECT_EQ(published_efficiency(Kind::clips, diameter_m), 0.80);
    for (const Kind kind : {Kind::eye_splice, Kind::knot, Kind::sewn, Kind::other})
      EXPECT_EQ(published_efficiency(kind, diameter_m), std::nullopt);
  }
  EXPECT_EQ(published_efficiency(Kind::sleeve_splice, 0.008), 0.95);
  EXPECT_EQ(published_efficiency(Kind::sleeve_splice, inch), 0.95) << "up to 1 in";
  EXPECT_EQ(published_efficiency(Kind::sleeve_splice, 25.4 * 1e-3), 0.95) << "which is 25.4 mm";
  EXPECT_EQ(published_efficiency(Kind::sleeve_splice, 0.0255), std::nullopt) << "and no further";
}

TEST(Termination, EveryKindIsOfSteelOrOfFibreOrOther) {
  for (const Choice<Kind>& choice : choices_of<Kind>) {
    EXPECT_EQ(is_of_steel(choice.value) + is_of_fibre(choice.value), choice.value == Kind::other ? 0 : 1)
        << choice.word;
    EXPECT_EQ(published_efficiency(choice.value, 0.012).has_value(), is_of_steel(choice.value)) << choice.word;
  }
}

TEST(TerminationErrors, AKindThatNeedsAnEfficiencySaysSoAndTakesOne) {
  for (const std::string kind : {"eye splice", "knot", "sewn", "other"}) {
    const std::string bare = fibre_with("{ kind = \"" + kind + "\" }");
    EXPECT_NE(printed_errors(bare).find("error: line \"L1\" from end: \"efficiency\" is missing, and no figure is "
                                        "published for \"" +
                                        kind + "\"\n"),
              std::string::npos)
        << printed_errors(bare);
    const Layout layout = layout_of(fibre_with("{ kind = \"" + kind + "\", efficiency = 0.8 }"));
    EXPECT_EQ(efficiency_of(*layout.lines[0].from_end, 0.008), 0.8);
  }
  EXPECT_NE(printed_errors(steel_with("{ kind = \"other\" }")).find("\"efficiency\" is missing"), std::string::npos);
}

TEST(TerminationErrors, AnEfficiencyIsAboveNothingAndAtMostTheWhole) {
  for (const std::string wrong : {"0", "1.01", "\"101 %\"", "-0.5"})
    EXPECT_NE(printed_errors(steel_with("{ kind = \"swaged\", efficiency = " + wrong + " }"))
                  .find("line \"L3\" from end: \"efficiency\" must be above 0 and at most "),
              std::string::npos)
        << wrong;
  EXPECT_EQ(printed_errors(steel_with("{ kind = \"swaged\", efficiency = 1 }")), "");
}

}  // namespace
}  // namespace fairlead
