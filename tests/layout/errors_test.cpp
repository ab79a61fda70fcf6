// Every kind of mistake in a layout that is otherwise good: its whole message, and no other.
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

constexpr const char* lengths = "write a length in m, mm, cm, km, in, \", ft, ', yd, mi, US survey ft";

TEST(LayoutErrors, AKeyOrSectionNobodyKnowsIsNamedWithItsNearest) {
  expect_each({
      {"owner = ", "ovner = \"x\"\nowner = ", "ovner", "project: unknown key \"ovner\"", "did you mean \"owner\"?"},
      {"wll = \"40 kN\"", "wll = \"40 kN\"\nwwl = \"40 kN\"", "wwl", "anchor \"A2\": unknown key \"wwl\"",
       "did you mean \"wll\"?"},
      {"wll = \"40 kN\"", "wll = \"40 kN\"\ncolour = \"red\"", "colour", "anchor \"A2\": unknown key \"colour\"",
       "known: id, position, wll, mbs, base, base_moment, cone_axis, cone_angle, movement, stiffness"},
      {"[landing]", "[bakup_brake]\n[landing]", "bakup_brake", "unknown section \"bakup_brake\"",
       "did you mean \"backup_brake\"?"},
      {"[limits]", "[limits]\nfleet_angel = 3", "fleet_angel", "limits: unknown key \"fleet_angel\"",
       "did you mean \"fleet_angle\"?"},
      {"above = ", "abuve = 1\nabove = ", "abuve", "riders envelope: unknown key \"abuve\"", "did you mean \"above\"?"},
      {"{ at = \"4 deg\"", "{ by = 1, at = \"4 deg\"", "by", "limits \"fleet_angle\": unknown key \"by\"",
       "known: at, basis"},
      {"{ sheave = \"R2\"", "{ side = 1, sheave = \"R2\"", "side", "line \"L1\": unknown key \"side\"",
       "known: sheave, turning"},
  });
}

TEST(LayoutErrors, AMissingKeyIsAskedForAtItsSection) {
  expect_each({
      {"number = \"IV-017\"\n", "", "[project]", "project: \"number\" is missing",
       "add it: number of the drawings; for example number = \"EX-001\""},
      {"position = [0, 0, 22]\n", "", "[[anchor]]", "anchor \"A1\": \"position\" is missing",
       "add it: where the load acts; for example position = [0.0, 0.0, 22.0]"},
      {"change = \"first issue\"\n", "", "[[project.history]]", "project history 1: \"change\" is missing",
       "add it: what changed; for example change = \"first issue\""},
      {"peak = \"640 N\", ", "", "{ critical_speed = \"30 m/s\" }", "brake unit eddy: \"peak\" is missing",
       "add it: greatest magnetic line tension; for example peak = \"640 N\""},
      {"sheave = \"R2\", ", "", "{ turning = \"clockwise\" }", "line \"L1\": \"sheave\" is missing",
       "add it: the sheave's id; for example sheave = \"R1\""},
      {", basis = \"smooth-drum rule\"", "", "{ at = \"1.5 deg\" }", "brake unit \"lead_angle\": \"basis\" is missing",
       "add it: which code or person sets the limit; for example basis = \"our engineer\""},
      {"at = 5, ", "", "{ basis = \"invented\" }", "limits \"design_factor\": \"at\" is missing",
       "add it: the value of the limit"},
      {"wll = \"40 kN\"\n", "", "[[anchor]]", "anchor \"A2\": one of \"wll\" and \"mbs\" is missing",
       "give exactly one"},
      {"tension = [\"14.5 kN\", \"3500 lbf\"]\ntension_at = \"start\"\n", "", "[main_line]",
       "main line: one of \"tension\", \"sag\" and \"unstretched_length\" is missing", "give exactly one"},
  });
}

TEST(LayoutErrors, OfKeysThatExcludeOneAnotherTheSecondIsRefused) {
  expect_each({
      {"wll = \"40 kN\"", "wll = \"40 kN\"\nmbs = \"200 kN\"", "mbs",
       "anchor \"A2\": \"wll\" and \"mbs\" are both given", "of \"wll\" and \"mbs\" only one may be given"},
      {"mbs = \"60 kN\"", "mbs = \"60 kN\"\nwll = \"1 t\"", "wll",
       "connector \"C1\": \"mbs\" and \"wll\" are both given", "of \"wll\" and \"mbs\" only one may be given"},
      {"eddy = ", "magnetic = [[0, 0], [9, 90]]\neddy = ", "eddy",
       "brake unit: \"magnetic\" and \"eddy\" are both given", "of \"magnetic\" and \"eddy\" only one may be given"},
  });
}

TEST(LayoutErrors, TheWrongKindOfValueIsSaidWithAnExample) {
  expect_each({
      {"owner = \"Invented Valley Rides\"", "owner = 7", "7", "project: \"owner\" is a text, not a number",
       "for example owner = \"Example Park Ltd\""},
      {"mass = \"4 kg\"", "mass = true", "true", "brake trolley: \"mass\" is a mass, not true or false",
       "for example mass = \"4 kg\""},
      {"tolerance = \"10 %\"", "tolerance = 2026-05-14", "2026-05-14",
       "brake unit: \"tolerance\" is a ratio, not a date", "for example tolerance = \"10 %\""},
      {"until = 2026-12-31", "until = \"2026-12-31\"", "\"2026-12-31\"", "waiver 1: \"until\" is a date, not a text",
       "write it without quotes, as 2026-12-31"},
      {"until = 2026-12-31", "until = 2026-12-31T10:00:00Z", "2026-12-31T10:00:00Z",
       "waiver 1: \"until\" is a date, not a time", "for example until = 2026-12-31"},
      {"position = [0, 0, 22]", "position = \"top\"", "\"top\"",
       "anchor \"A1\": \"position\" names a point, and the layout has no section [points]",
       "write [x, y, z]; for example position = [0.0, 0.0, 22.0]"},
      {"position = [0, 0, 22]", "position = 22", "22", "anchor \"A1\": \"position\" is a place [x, y, z], not a number",
       "for example position = [0.0, 0.0, 22.0]"},
      {"position = [0, 0, 22]", "position = [0, 22]", "[0, 22]", "anchor \"A1\": \"position\" has three numbers, not 2",
       "for example position = [0.0, 0.0, 22.0]"},
      {"axle = [0, 1, 0]", "axle = \"across\"", "\"across\"",
       "sheave \"R1\": \"axle\" is a direction [x, y, z], not a text", "for example axle = [0, 1, 0]"},
      {"axes = [\"east\", \"north\", \"up\"]", "axes = [\"east\", \"north\"]", "[\"east\", \"north\"]",
       "site: \"axes\" is a list of three texts", "for example axes = [\"east\", \"north\", \"up\"]"},
      {"joins = [\"L1\", \"brake_trolley\"]", "joins = \"L1\"", "\"L1\"",
       "connector \"C1\": \"joins\" is a list of two ids or more", "for example joins = [\"L1\", \"brake_trolley\"]"},
      {"route = [\"R1\", { sheave = \"R2\", turning = \"clockwise\" }]", "route = \"R1\"", "\"R1\"",
       "line \"L1\": \"route\" is a list of sheaves, not a text",
       "for example route = [{ sheave = \"R1\", turning = \"anticlockwise\" }]"},
      {"eddy = { peak = \"640 N\", critical_speed = \"30 m/s\" }", "eddy = \"640 N\"", "\"640 N\"",
       "brake unit eddy: \"eddy\" is a table, not a text",
       "for example eddy = { peak = \"640 N\", critical_speed = \"30 m/s\" }"},
      {"from = \"A1\"", "from = 1", "1", "main line: \"from\" is an id, not a number", "for example from = \"A1\""},
      {"tension_at = \"start\"", "tension_at = 1", "1", "main line: \"tension_at\" is a text, not a number",
       "for example tension_at = \"end\""},
      {"fleet_angle = { at = \"4 deg\", basis = \"invented\" }", "fleet_angle = \"4 deg\"", "\"4 deg\"",
       "limits: the limit \"fleet_angle\" does not say who set it",
       "write fleet_angle = { at = ..., basis = \"who says so\" }"},
      {"[[waiver]]", "[waiver]", "[waiver]", "waiver: \"waiver\" is a list of tables, not a table", "write [[waiver]]"},
      {"[landing]", "[[landing]]", "[[landing]]", "landing: there is only one \"landing\"", "write [landing]"},
  });
}

TEST(LayoutErrors, AQuantityOfAnotherDimensionOrWithoutItsUnitIsRefused) {
  expect_each({
      {"wll = \"40 kN\"", "wll = \"3 ton\"", "\"3 ton\"", "anchor \"A2\": \"ton\" may mean 1000 kg, 2000 lb or 2240 lb",
       "write \"3 t\", \"6000 lb\" or \"6720 lb\""},
      {"diameter = \"16 mm\"", "diameter = \"16 kg\"", "\"16 kg\"",
       "main line: \"kg\" is a mass, and a length is wanted", lengths},
      {"diameter = \"16 mm\"", "diameter = \"16,5 mm\"", "\"16,5 mm\"", "main line: there is a comma in the number",
       "write \"16.5 mm\""},
      {"diameter = \"16 mm\"", "diameter = nan", "nan", "main line: the number is not finite", lengths},
      {"diameter = \"16 mm\"", "diameter = inf", "inf", "main line: the number is not finite", lengths},
      {"position = [0, 0, 22]", "position = [0, -inf, 22]", "-inf", "anchor \"A1\": the number is not finite", lengths},
      {"at = \"4 deg\"", "at = 1.5", "1.5",
       "limits \"fleet_angle\": 1.5 without a unit could be degrees, or the 85.9 degrees that 1.5 radians are",
       "write \"1.5 deg\" or \"1.5 rad\""},
      {"coldest = \"-15 C\"", "coldest = -15", "-15", "site: -15 without a unit could be C, F or K",
       "write \"-15 C\", \"-15 F\" or \"-15 K\""},
      {"expansion = \"11.5e-6 /K\"", "expansion = 11.5e-6", "11.5e-6", "main line: a unit is missing",
       "write a thermal expansion in /K, /C, /F"},
      {"position = [216, 0, 9]", "position = [216, 0, \"9 kN\"]", "\"9 kN\"",
       "anchor \"A4\": \"kN\" is a force, and a length is wanted", lengths},
      {"[\"9 m\", \"90 N\"]", "[\"9 s\", \"90 N\"]", "\"9 s\"", "brake unit: \"s\" is a time, and a length is wanted",
       lengths},
  });
}

TEST(LayoutErrors, ANumberOutsideItsBoundsIsRefused) {
  expect_each({
      {"mass = \"4 kg\"", "mass = \"0 kg\"", "\"0 kg\"", "brake trolley: \"mass\" must be above 0", ""},
      {"mass = \"4 kg\"", "mass = -4", "-4", "brake trolley: \"mass\" must be above 0", ""},
      {"travel = \"14 m\"", "travel = 0", "0", "brake trolley: \"travel\" must be above 0", ""},
      {"tails = \"1.2 m\"", "tails = \"-1 mm\"", "\"-1 mm\"", "line \"L1\": \"tails\" must not be negative", ""},
      {"tolerance = \"10 %\"", "tolerance = \"100 %\"", "\"100 %\"",
       "brake unit: \"tolerance\" must lie from 0 to below 1.000", ""},
      {"at_temperature = \"59 F\"", "at_temperature = \"59 K\"", "\"59 K\"",
       "main line: \"at_temperature\" must lie from -90.0 °C to 90.0 °C", ""},
      {"at = 5,", "at = 0,", "0", "limits \"design_factor\": \"at\" must be above 0", ""},
      {"mass = [\"30 kg\", \"265 lb\"]", "mass = [\"0 kg\", \"265 lb\"]", "\"0 kg\"",
       "riders: \"mass\" must be above 0", ""},
      {"[\"9 m\", \"90 N\"]", "[\"9 m\", \"-90 N\"]", "\"-90 N\"", "brake unit: \"retraction\" must not be negative",
       ""},
  });
}

TEST(LayoutErrors, ARangeRunsUpAndHasTwoEnds) {
  expect_each({
      {"mass = [\"30 kg\", \"265 lb\"]", "mass = [\"130 kg\", \"265 lb\"]", "[\"130 kg\", \"265 lb\"]",
       "riders: the range runs from high to low", "write the lower end first"},
      {"mass = [\"30 kg\", \"265 lb\"]", "mass = [\"30 kg\"]", "[\"30 kg\"]", "riders: a range has two ends, not 1",
       "for example mass = [\"30 kg\", \"120 kg\"]"},
  });
}

TEST(LayoutErrors, ACurveRisesFromItsBeginning) {
  const char* example = "for example retraction = [[\"0 m\", \"60 N\"], [\"18 m\", \"115 N\"]]";
  const char* rows = "[[\"0 m\", \"60 N\"], [\"9 m\", \"90 N\"], [\"18 m\", \"115 N\"]]";
  expect_each({
      {"[\"18 m\", \"115 N\"]]", "[\"9 m\", \"115 N\"]]", "\"9 m\"",
       "brake unit: 9.000 m does not lie above 9.000 m of the row before", "let the first column rise"},
      {"[\"18 m\", \"115 N\"]]", "[\"18 m\"]]", "[\"18 m\"]", "brake unit: a row of a curve has two values", example},
      {rows, "[[0, 60]]", "[[0, 60]]", "brake unit: a curve has at least two rows", example},
      {rows, "\"60 N\"", "\"60 N\"", "brake unit: \"retraction\" is a list of rows, not a text", example},
      {"[[\"0 m\", \"60 N\"], [\"9 m\", \"90 N\"], [\"18 m\", \"115 N\"]]", "[[1, 60], [9, 90]]", "[[1, 60], [9, 90]]",
       "brake unit: \"retraction\" does not begin at extension 0",
       "let its first row say what the spring pulls at 0 m"},
      {"eddy = { peak = \"640 N\", critical_speed = \"30 m/s\" }", "magnetic = [[0, 5], [9, 90]]", "[[0, 5], [9, 90]]",
       "brake unit: \"magnetic\" does not begin at rest, where magnets do not pull",
       "let its first row be [\"0 m/s\", \"0 N\"]"},
  });
}

TEST(LayoutErrors, AnAxleWithoutLengthPointsNowhere) {
  const char* instead = "give it a direction; any length above zero will do";
  expect_each({
      {"axle = [0, 1, 0]", "axle = [0, 0, 0]", "[0, 0, 0]", "sheave \"R1\": \"axle\" is 0 long and points nowhere",
       instead},
      {"axle = [0, 1, 0]", "axle = [0, 1e-320, 0]", "[0, 1e-320, 0]",
       "sheave \"R1\": \"axle\" is 9.99989e-321 long and points nowhere", instead},
  });
}

TEST(LayoutErrors, AnEmptyOrUnprintableTextIsRefused) {
  expect_each({
      {"who = \"C. Approver\"", "who = \" \"", "\" \"", "waiver 1: \"who\" is empty",
       "for example who = \"C. Approver\""},
      {"owner = \"Invented Valley Rides\"", "owner = \"a\\u001bb\"", "\"a\\u001bb\"",
       "project: \"owner\" holds a line break or control character", "write it in one line"},
      {"basis = \"smooth-drum rule\"", "basis = \"\"", "\"\"", "brake unit \"lead_angle\": \"basis\" is empty",
       "for example basis = \"who says so\""},
  });
}

TEST(LayoutErrors, AWordThatIsNoneOfTheChoicesIsNamedWithItsNearest) {
  expect_each({
      {"material = \"fibre\"", "material = \"fiber\"", "\"fiber\"", "line \"L1\": \"material\" can not be \"fiber\"",
       "did you mean \"fibre\"?"},
      {"turning = \"clockwise\"", "turning = \"left\"", "\"left\"", "line \"L1\": \"turning\" can not be \"left\"",
       "known: anticlockwise, clockwise"},
      {"tension_at = \"start\"", "tension_at = \"End\"", "\"End\"", "main line: \"tension_at\" can not be \"End\"",
       "did you mean \"end\"?"},
  });
}

}  // namespace
}  // namespace fairlead
