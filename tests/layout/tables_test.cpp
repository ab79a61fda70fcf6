// What the tables of the sections drive beside the reader: schema, starting layout, help, assumptions.
#include <nlohmann/json.hpp>

#include "geometry/layout/layout_fields.hpp"
#include "geometry/layout/outline.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

TEST(LayoutSchema, TheStoredCopyIsTheGeneratedOne) {
  EXPECT_EQ(file_text(top / "geometry/layout/layout.schema.json"), layout_schema())
      << "write layout_schema() to geometry/layout/layout.schema.json";
}

using Json = nlohmann::ordered_json;

// Where a schema describes the table of this key: in the items of a list, or as the second form of a sheave in a route.
const Json& table_of(const Json& schema, Outline::Kind kind) {
  if (kind == Outline::Kind::route) return schema.at("items").at("anyOf").at(1);
  return kind == Outline::Kind::tables ? schema.at("items") : schema;
}

void expect_described(const Json& schema, const Outline& table, std::size_t& keys) {
  EXPECT_EQ(schema.at("type"), "object") << table.key.name;
  EXPECT_EQ(schema.at("additionalProperties"), false) << table.key.name;
  std::vector<std::string> required;
  for (const Outline& outline : table.keys) {
    const std::string name(outline.key.name);
    ++keys;
    if (outline.key.need == Need::required && outline.key.of.empty()) required.push_back(name);
    ASSERT_TRUE(schema.at("properties").contains(name)) << name;
    const Json& described = schema.at("properties").at(name);
    EXPECT_EQ(described.at("description"), outline.key.says) << name;
    if (!outline.keys.empty()) expect_described(table_of(described, outline.kind), outline, keys);
  }
  EXPECT_EQ(schema.value("required", std::vector<std::string>{}), required) << table.key.name;
  EXPECT_EQ(schema.at("properties").size(), table.keys.size()) << table.key.name;
}

TEST(LayoutSchema, IsJsonThatDescribesEveryKeyOfEverySectionAndNoOther) {
  const Json schema = Json::parse(layout_schema());
  EXPECT_EQ(schema.at("$schema"), "http://json-schema.org/draft-07/schema#");
  std::size_t keys = 0;
  expect_described(schema, layout_outline(), keys);
  EXPECT_GT(keys, 100u);
}

TEST(LayoutSchema, SaysWhatAValueMayBe) {
  const Json sections = Json::parse(layout_schema()).at("properties");
  const auto key = [&](const char* section, const char* name) {
    const Json& schema = sections.at(section);
    return (schema.contains("items") ? schema.at("items") : schema).at("properties").at(name);
  };
  EXPECT_EQ(key("line", "material").at("enum"), Json({"steel", "fibre", "webbing"}));
  EXPECT_EQ(key("brake_trolley", "mass").at("type"), Json({"number", "string"}));
  EXPECT_EQ(key("brake_trolley", "mass").at("exclusiveMinimum"), 0);
  EXPECT_EQ(key("brake_unit", "tolerance").at("exclusiveMaximum"), 1);
  EXPECT_EQ(key("site", "coldest").at("type"), "string");  // a bare temperature is an error
  EXPECT_EQ(key("anchor", "position").at("anyOf").at(0).at("minItems"), 3);
  EXPECT_EQ(key("anchor", "position").at("anyOf").at(1).at("type"), "string");  // a surveyed point
  EXPECT_EQ(key("points", "unit").at("enum"), Json({"m", "mm", "ft", "US survey ft"}));
  EXPECT_EQ(key("limits", "fleet_angle").at("required"), Json({"at", "basis"}));
  EXPECT_EQ(key("main_line", "expansion").at("default"), "12e-6 /K");
  EXPECT_EQ(key("block", "centre_of_mass").at("default"), Json({"0 mm", "0 mm", "0 mm"}));
  EXPECT_EQ(key("structure", "clear_of").at("items").at("enum"), Json({"lines", "block", "rider"}));
  EXPECT_EQ(key("structure", "size").at("items").at("exclusiveMinimum"), 0);
  EXPECT_EQ(key("member", "may_be_lost").at("type"), "boolean");
  const Json one_measure = sections.at("support_line").at("items").at("allOf").at(0).at("oneOf");
  EXPECT_EQ(one_measure, Json::parse(R"([{"required": ["ea"]}, {"required": ["construction"]}])"));
  // Which of them an anchor needs depends on its members.
  const Json one_mark = sections.at("anchor").at("items").at("allOf").at(0);
  EXPECT_EQ(one_mark, Json::parse(R"({"not": {"required": ["wll", "mbs"]}})"));
}

TEST(LayoutSchema, AKindOfStructureHasItsKeysAndNoOthers) {
  const Json structure = Json::parse(layout_schema()).at("properties").at("structure").at("items");
  ASSERT_EQ(structure.at("allOf").size(), 4u);
  const Json& post = structure.at("allOf").at(1);
  EXPECT_EQ(post.at("if").at("properties").at("kind").at("const"), "post");
  EXPECT_EQ(post.at("then").at("required"), Json({"from", "to", "diameter"}));
  EXPECT_EQ(post.at("then").at("properties"),
            Json::parse(R"({"centre": false, "size": false, "bearing": false, "through": false, "normal": false,
                            "file": false, "unit": false, "origin": false, "turned": false, "radius": false})"));
}

TEST(StartingLayout, ReadsWithoutAnError) {
  EXPECT_EQ(printed_errors(new_layout()), "");
  const Layout layout = layout_of(new_layout());
  EXPECT_EQ(layout.anchors.size(), 4u);
  EXPECT_TRUE(layout.backup_brake && layout.approach && layout.landing && layout.riders.envelope);
  EXPECT_TRUE(layout.limits.fleet_angle_rad && layout.limits.design_factor && layout.brake_unit.lead_angle);
}

// A starting layout with the mark of a comment taken from these keys, wherever their section is no comment itself.
std::string uncommented(const std::string& text, const std::vector<std::string>& keys) {
  std::string out;
  bool in_comments = false;
  for (std::size_t begin = 0, end = 0; begin < text.size(); begin = end + 1) {
    end = text.find('\n', begin);
    const std::string line = text.substr(begin, end - begin);
    if (line.starts_with("[") || line.starts_with("# [")) in_comments = line.starts_with("#");
    const bool meant = std::any_of(keys.begin(), keys.end(),
                                   [&](const std::string& key) { return line.starts_with("# " + key + " = "); });
    out += (meant && !in_comments ? line.substr(2) : line) + "\n";
  }
  return out;
}

// The same with the headers of a section in comments made a section, so that its keys may follow.
std::string with_section(const std::string& section, std::string text) {
  const std::string header = "[[" + section + "]]\n";
  for (std::size_t at = 0; (at = text.find("# " + header)) != std::string::npos;) text.erase(at, 2);
  return text;
}

TEST(StartingLayout, EveryKeyInItsCommentsMayBeAddedAsItStands) {
  for (const char* key : {"creator",
                          "altitude",
                          "wind_along",
                          "chainage_zero",
                          "expansion",
                          "tension_at",
                          "groove",
                          "tails",
                          "serial",
                          "attitude",
                          "pull_angle",
                          "stroke",
                          "earliest_rest",
                          "latest_rest",
                          "plane_thickness",
                          "across_offset",
                          "extension_reserve",
                          "rest_shift",
                          "frame",
                          "ea",
                          "from_termination",
                          "to_termination",
                          "side_pull",
                          "wheelbase",
                          "line_clearance",
                          "line_to_line",
                          "line_to_main_line",
                          "block_clearance",
                          "rider_clearance",
                          "rider_line_clearance",
                          "block_run",
                          "lift_share",
                          "main_line_factor",
                          "lanyard_stiffness",
                          "moving_mass",
                          "static_resistance",
                          "held_back",
                          "couples",
                          "stop_reserve",
                          "swing",
                          "rider_load_raw",
                          "rider_load_filtered",
                          "rider_load_held",
                          "rider_load_onset",
                          "trolley_deceleration",
                          "reset_reserve",
                          "return_speed"})
    EXPECT_EQ(printed_errors(uncommented(new_layout(), {key})), "") << key;
  for (const auto& together : {std::vector<std::string>{"lanyard_stiffness", "lanyard_damping"},
                               {"bumper_stiffness", "bumper_give"},
                               {"stroke", "resistance"}})
    EXPECT_EQ(printed_errors(uncommented(new_layout(), together)), "") << together[1];
  EXPECT_NE(printed_errors(uncommented(new_layout(), {"sag"})), "");  // beside a tension
}

TEST(StartingLayout, TheStructuresInItsCommentsMayBeAddedAsTheyStand) {
  std::string text = new_layout();
  text.erase(text.rfind("# [[structure]]"), text.find("\n\n", text.rfind("# [[structure]]")) -
                                                text.rfind("# [[structure]]"));  // a scan, whose file is not there
  const Layout layout =
      layout_of(uncommented(with_section("structure", text), {"id", "kind", "centre", "size", "bearing", "from", "to",
                                                              "diameter", "through", "normal", "clear_of"}));
  ASSERT_EQ(layout.structures.size(), 3u);
  EXPECT_EQ(layout.structures[0].kind, StructureKind::box);
  EXPECT_EQ(layout.structures[1].kind, StructureKind::post);
  EXPECT_EQ(layout.structures[2].kind, StructureKind::plane);
  EXPECT_FALSE(keeps_clear(layout.structures[0], Mover::rider));
}

// The block and its support line in the comments fit the anchors and the redirect above them.
TEST(StartingLayout, ItsCommentsHoldWhatA2To1Needs) {
  std::string text = with_section("block", with_section("support_line", new_layout()));
  text = uncommented(text, {"id", "mass", "rest", "size", "carries", "wheel", "from", "to", "diameter", "ea", "tension",
                            "at_temperature"});
  text = edited("\nmass = \"2.4 kg\"", "\n# mass = \"2.4 kg\"", text);  // only of a mount
  text = edited("to = \"brake_unit\"", "to = \"B1\"", text);
  text +=
      "[[line]]\nid = \"L2\"\nmaterial = \"fibre\"\nfrom = \"B1\"\nto = \"brake_unit\"\ndiameter = \"8 mm\"\n"
      "mass = \"0.04 kg/m\"\n";
  const Layout layout = layout_of(text);
  EXPECT_EQ(layout.lines[0].closed_by, BlockId{0});
  EXPECT_EQ(layout.support_lines.at(0).carries, BlockId{0});
}

TEST(StartingLayout, NamesEveryKeyThereIs) {
  const std::string text = new_layout();
  const auto find_all = [&](const auto& again, const Outline& table) -> void {
    for (const Outline& outline : table.keys) {
      const bool section = outline.kind == Outline::Kind::table || outline.kind == Outline::Kind::tables;
      const std::string name(outline.key.name);
      EXPECT_TRUE(text.find(name + " = ") != std::string::npos ||
                  (section && text.find(name + "]") != std::string::npos))
          << name;
      if (outline.kind != Outline::Kind::route) again(again, outline);
    }
  };
  find_all(find_all, layout_outline());
}

TEST(StartingLayout, EveryStartingLimitSaysThatItMustBeChecked) {
  const Limits limits = layout_of(new_layout()).limits;
  for (const auto& limit : {limits.fleet_angle_rad, limits.anchor_utilisation, limits.design_factor})
    EXPECT_NE(limit->basis.find("check against your code"), std::string::npos) << limit->basis;
  EXPECT_NEAR(limits.fleet_angle_rad->at, 0.069813170, 5e-10);  // 4 deg
  EXPECT_EQ(limits.design_factor->at, 5);
}

TEST(KeyHelp, SaysWhatAKeyIsAndHowItIsWritten) {
  EXPECT_EQ(key_help("sheave.axle"),
            "sheave.axle: direction of its axle; any length above zero will do\n"
            "  a direction [x, y, z], of any length above zero; required\n"
            "  for example axle = [0, 1, 0]\n");
  EXPECT_EQ(key_help("anchor.wll"),
            "anchor.wll: working load limit, as marked; without members one of wll and mbs is needed\n"
            "  a load rating in N, daN, kN, MN, lbf, kip, kgf, kg, t, tonne, lb; a bare number is SI; at most one of "
            "wll, mbs\n"
            "  for example wll = \"40 kN\"\n");
  EXPECT_EQ(key_help("main_line.expansion"),
            "main_line.expansion: thermal expansion of the cable\n"
            "  a thermal expansion in /K, /C, /F; optional\n"
            "  default \"12e-6 /K\" (steel; common practice, no source)\n"
            "  for example expansion = \"12e-6 /K\"\n");
  EXPECT_EQ(key_help("line.material"),
            "line.material: steel, fibre or webbing\n"
            "  one of \"steel\", \"fibre\", \"webbing\"; required\n"
            "  for example material = \"fibre\"\n");
  EXPECT_EQ(key_help("structure.normal"),
            "structure.normal: square to the plane, out of the solid; any length above zero will do\n"
            "  a direction [x, y, z], of any length above zero; required of a plane\n"
            "  for example normal = [0, 0, 1]\n");
  EXPECT_EQ(key_help("structure.clear_of"),
            "structure.clear_of: what must keep its distance; absent: all three. A platform that riders step on leaves "
            "out 'rider'\n"
            "  a list of \"lines\", \"block\", \"rider\"; optional\n"
            "  for example clear_of = [\"lines\", \"block\"]\n");
  EXPECT_EQ(key_help("riders.envelope"),
            "riders.envelope: what a hanging rider can reach, as a box\n"
            "  a table; at most one of envelope, reach, body\n"
            "  width               across, whole\n"
            "  length              along, whole\n"
            "  above               highest reach above the main line\n"
            "  below               lowest reach below the main line\n"
            "  sideways            how far it leans to either side as riders swing; absent: they swing along the line "
            "alone\n");
}

TEST(KeyHelp, KnowsEveryKeyAndNoOther) {
  const auto ask_all = [](const auto& again, const Outline& table, const std::string& path) -> void {
    for (const Outline& outline : table.keys) {
      const std::string key = path + std::string(outline.key.name);
      const auto help = key_help(key);
      ASSERT_TRUE(help.has_value()) << key;
      EXPECT_TRUE(help->starts_with(fmt::format("{}: {}\n", key, outline.key.says))) << *help;
      again(again, outline, key + ".");
    }
  };
  ask_all(ask_all, layout_outline(), "");
  for (const char* nothing : {"", ".", "sheave.", ".axle", "sheave.axel", "axle", "sheave.axle.x", "sheave..axle"})
    EXPECT_FALSE(key_help(nothing).has_value()) << nothing;
}

TEST(Assumptions, ADefaultIsListedWithItsReasonUnlessItWasWritten) {
  EXPECT_EQ(assumptions(layout_of(good_text())), std::vector<std::string>{});
  const std::vector<std::string> expansion{
      "main_line.expansion = 12e-6 /K, a stated default (steel; common practice, no source)"};
  const Layout without = layout_of(edited("expansion = \"11.5e-6 /K\"\n", ""));
  EXPECT_EQ(assumptions(without), expansion);
  EXPECT_EQ(without.main_line.expansion_per_K, 12e-6);
}

TEST(Assumptions, ADefaultThatMeansNothingHereIsNotListed) {
  const std::string no_place = edited("tension_at = \"start\"\n", "");
  ASSERT_EQ(assumptions(layout_of(no_place)).size(), 1u);
  EXPECT_TRUE(assumptions(layout_of(no_place))[0].starts_with("main_line.tension_at = end, a stated default ("));
  EXPECT_EQ(layout_of(no_place).main_line.tension_at.value, TensionAt::end);
  const std::string sag = edited("tension = [\"14.5 kN\", \"3500 lbf\"]", "sag = \"4.2 m\"", no_place);
  EXPECT_EQ(assumptions(layout_of(sag)), std::vector<std::string>{});
}

// A table is where a typing slip would stay unseen: each has what the reader, the schema and the help need of it.
TEST(Tables, EveryKeySaysWhatItIsAndShowsAnExample) {
  const auto look = [](const auto& again, const Outline& table) -> void {
    for (const Outline& outline : table.keys) {
      const Key& key = outline.key;
      const bool section = outline.kind == Outline::Kind::table || outline.kind == Outline::Kind::tables;
      EXPECT_FALSE(key.says.empty()) << key.name;
      EXPECT_TRUE(section || !key.examples[0].empty()) << key.name;
      const bool one = key.need == Need::exactly_one || key.need == Need::at_most_one || key.need == Need::offered_one;
      EXPECT_EQ(one, key.group > 0) << key.name;
      EXPECT_EQ(key.fallback.empty(), key.because.empty()) << key.name;
      EXPECT_EQ(outline.kind == Outline::Kind::curve, key.over != Dimension::none) << key.name;
      if (!key.with.empty()) {
        EXPECT_NE(table.find(key.with), nullptr) << key.with;
      }
      again(again, outline);
    }
  };
  look(look, layout_outline());
}

}  // namespace
}  // namespace fairlead
