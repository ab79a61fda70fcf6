// The SVG (source SVG) read back by a reader of its own: every line and text, in millimetres, where the drawing has it.
#include <gtest/gtest.h>

#include <limits>
#include <map>
#include <regex>
#include <set>

#include "report/formats/svg.hpp"
#include "tests/report/formats/every_primitive.hpp"

namespace fairlead::formats {
namespace {

using namespace drawing;

struct Element {
  std::string name, text;
  std::map<std::string, std::string> has;
  std::vector<int> within;  ///< the elements it stands in, outermost first

  double number(const std::string& attribute) const { return std::stod(has.at(attribute)); }
};

std::string unescaped(std::string text) {
  for (const auto& [code, character] : {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}})
    text = std::regex_replace(text, std::regex(code), character);
  return text;
}

/// Elements in the order they begin in. Throws where the file is not well formed: a tag that is not closed by its own
/// name, an attribute without quotes, a stray "<" or "&".
std::vector<Element> elements_of(const std::string& file) {
  static const std::regex tag(R"re(^<(/?)([A-Za-z]+)((?:\s+[A-Za-z:-]+="[^"<]*")*)\s*(/?)>)re");
  static const std::regex attribute(R"re(([A-Za-z:-]+)="([^"]*)")re");
  static const std::regex entity(R"(&(?!(lt|gt|quot|amp);))");
  if (std::regex_search(file, entity)) throw std::runtime_error("an & that begins no entity");
  std::vector<Element> all;
  std::vector<int> open;
  std::size_t at = file.find("?>\n");
  if (at == std::string::npos) throw std::runtime_error("no declaration");
  at += 3;
  while (at < file.size()) {
    const std::size_t next = file.find('<', at);
    if (!open.empty()) all[static_cast<std::size_t>(open.back())].text += unescaped(file.substr(at, next - at));
    if (next == std::string::npos) break;
    std::smatch found;
    const std::string rest = file.substr(next, file.find('>', next) - next + 1);
    if (!std::regex_search(rest, found, tag)) throw std::runtime_error("no tag: " + rest);
    if (found[1] == "/") {
      if (open.empty() || all[static_cast<std::size_t>(open.back())].name != found[2])
        throw std::runtime_error("closes what is not open: " + rest);
      open.pop_back();
    } else {
      Element element{found[2], "", {}, open};
      const std::string attributes = found[3];
      for (std::sregex_iterator a(attributes.begin(), attributes.end(), attribute), end; a != end; ++a)
        if (!element.has.emplace((*a)[1], unescaped((*a)[2])).second) throw std::runtime_error("twice: " + rest);
      all.push_back(element);
      if (found[4] != "/") open.push_back(static_cast<int>(all.size()) - 1);
    }
    at = next + rest.size();
  }
  if (!open.empty()) throw std::runtime_error("never closed: " + all[static_cast<std::size_t>(open.back())].name);
  return all;
}

std::vector<Element> named(const std::vector<Element>& all, const std::string& name) {
  std::vector<Element> found;
  for (const Element& element : all)
    if (element.name == name) found.push_back(element);
  return found;
}

/// The points of a path, as written: y downward.
std::vector<Paper> points_of(const Element& path) {
  static const std::regex point(R"(([-0-9.]+),([-0-9.]+))");
  std::vector<Paper> points;
  const std::string& d = path.has.at("d");
  for (std::sregex_iterator p(d.begin(), d.end(), point), end; p != end; ++p)
    points.push_back({std::stod((*p)[1]), std::stod((*p)[2])});
  return points;
}

std::string written(const std::vector<Sheet>& sheets) {
  const auto text = svg(sheets, font(), info());
  EXPECT_TRUE(text.has_value()) << text.error().message;
  return text.value_or("");
}

constexpr double half_digit_mm = 0.5e-4;  // of what is written

TEST(Svg, ASheetHasItsSizeInMillimetresAndAMillimetreAsItsUnit) {
  const Element root = elements_of(written({every_primitive()})).front();
  EXPECT_EQ(root.name, "svg");
  EXPECT_EQ(root.has.at("xmlns"), "http://www.w3.org/2000/svg");
  EXPECT_EQ(root.has.at("width"), "420mm");
  EXPECT_EQ(root.has.at("height"), "297mm");
  EXPECT_EQ(root.has.at("viewBox"), "0 0 420 297");
}

TEST(Svg, TenMetresAtOneToFiftyMeasureTwoHundredMillimetresAndAFalsifiedScaleIsSeen) {
  const auto line = points_of(named(elements_of(written({every_primitive()})), "path").front());
  ASSERT_EQ(line.size(), 2u);
  EXPECT_NEAR(length(line[1] - line[0]), 200, 2 * half_digit_mm);
  EXPECT_NEAR(line[0].y_mm, 297 - 150, half_digit_mm) << "y runs downward from the upper edge";
  const auto falsified = points_of(named(elements_of(written({every_primitive(50.5)})), "path").front());
  EXPECT_NEAR(length(falsified[1] - falsified[0]), 200 / 1.01, 2 * half_digit_mm);
}

TEST(Svg, EveryStrokeIsAPathWithItsPointsWidthDashesAndFill) {
  const Sheet sheet = every_primitive();
  const auto paths = named(elements_of(written({sheet})), "path");
  std::size_t i = 0;
  for (const auto& entity : sheet.drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke) continue;
    ASSERT_LT(i, paths.size());
    const Element& path = paths[i++];
    const auto points = points_of(path);
    ASSERT_EQ(points.size(), stroke->path.size());
    for (std::size_t p = 0; p < points.size(); ++p) {
      EXPECT_NEAR(points[p].x_mm, stroke->path[p].x_mm, half_digit_mm);
      EXPECT_NEAR(points[p].y_mm, 297 - stroke->path[p].y_mm, half_digit_mm);
    }
    EXPECT_EQ(path.has.at("d").ends_with('Z'), stroke->closed);
    if (stroke->pen.width_mm > 0) {
      EXPECT_NEAR(path.number("stroke-width"), stroke->pen.width_mm, half_digit_mm);
    } else {
      EXPECT_EQ(path.has.at("stroke"), "none");
    }
    const auto dash = dashes(stroke->pen.type, stroke->pen.width_mm, path_length(stroke->path, stroke->closed));
    EXPECT_EQ(path.has.contains("stroke-dasharray"), !dash.empty());
    if (!dash.empty()) {
      EXPECT_NEAR(path.number("stroke-dasharray"), dash.front(), half_digit_mm);
    }
    const std::map<Fill, std::string> fills{{Fill::none, "none"}, {Fill::tint, "#e6e6e6"}, {Fill::paper, "#ffffff"}};
    if (stroke->fill == Fill::ink)
      EXPECT_FALSE(path.has.contains("fill")) << "the group's";
    else
      EXPECT_EQ(path.has.at("fill"), fills.at(stroke->fill));
  }
  EXPECT_EQ(i, paths.size());
}

TEST(Svg, EveryTextReadsBackAtItsPlaceAndCapHeightInTheFont) {
  const Sheet sheet = every_primitive();
  const auto all = elements_of(written({sheet}));
  const auto texts = named(all, "text");
  std::size_t i = 0;
  for (const auto& entity : sheet.drawing.entities) {
    const auto* label = std::get_if<Label>(&entity);
    if (!label) continue;
    ASSERT_LT(i, texts.size());
    const Element& text = texts[i++];
    EXPECT_EQ(text.text, label->text);
    EXPECT_NEAR(text.number("x"), label->at.x_mm, half_digit_mm);
    EXPECT_NEAR(text.number("y"), 297 - label->at.y_mm, half_digit_mm);
    // DejaVu Sans Condensed: capitals of 1493 of 2048 units of the em.
    EXPECT_NEAR(text.number("font-size") * 1493 / 2048, label->cap_mm, half_digit_mm);
    EXPECT_NEAR(text.number("textLength"), font().width_mm(label->text, label->cap_mm), half_digit_mm);
    EXPECT_EQ(text.has.contains("transform"), label->angle_rad != 0);
    EXPECT_EQ(text.has.contains("fill"), label->pale);
  }
  EXPECT_EQ(i, texts.size());
  // A quarter turn against the clock, where y runs downward.
  EXPECT_EQ(texts[1].has.at("transform"), "rotate(-90 60 177)");
  const auto lettered =
      std::find_if(all.begin(), all.end(), [](const Element& e) { return e.has.contains("font-family"); });
  ASSERT_NE(lettered, all.end());
  EXPECT_EQ(lettered->has.at("font-family"), "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif");
}

TEST(Svg, WhatLiesOnALayerStandsInGroupsOfItsNameAndColourInTheOrderOfDrawing) {
  const Sheet sheet = every_primitive();
  const auto all = elements_of(written({sheet}));
  std::size_t i = 0;
  std::set<std::string> seen;
  std::vector<Element> drawn;
  for (const Element& element : all)
    if (element.name == "path" || element.name == "text") drawn.push_back(element);
  ASSERT_EQ(drawn.size(), sheet.drawing.entities.size());
  for (const auto& entity : sheet.drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    const Layer layer = stroke ? stroke->pen.layer : std::get<Label>(entity).layer;
    const Element& group = all[static_cast<std::size_t>(drawn[i].within.back())];
    EXPECT_EQ(group.has.at("class"), layer_name(layer));
    EXPECT_EQ(drawn[i].name, stroke ? "path" : "text");
    seen.insert(group.has.at("class"));
    if (layer == Layer::loads) {
      EXPECT_EQ(group.has.at("fill"), "#a60d0d");
    }
    ++i;
  }
  EXPECT_GE(seen.size(), 7u);
}

TEST(Svg, SheetsOfOneFileStandOneBelowTheOther) {
  Sheet upright{"Crew", 210, 297, {}};
  const auto all = elements_of(written({every_primitive(), upright}));
  EXPECT_EQ(all.front().has.at("width"), "420mm");
  EXPECT_EQ(all.front().has.at("height"), "604mm");
  std::vector<Element> sheets;
  for (const Element& element : all)
    if (element.has.contains("id")) sheets.push_back(element);
  ASSERT_EQ(sheets.size(), 2u);
  EXPECT_FALSE(sheets[0].has.contains("transform"));
  EXPECT_EQ(sheets[0].has.at("aria-label"), "Measured Ø");
  EXPECT_EQ(sheets[1].has.at("transform"), "translate(0 307)");
}

TEST(Svg, ASheetInGreyHasNoColour) {
  Sheet sheet = every_primitive();
  sheet.grey = true;
  const std::string text = written({sheet});
  const std::regex colour("\"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\"");
  int found = 0;
  for (std::sregex_iterator c(text.begin(), text.end(), colour), end; c != end; ++c, ++found) {
    EXPECT_EQ((*c)[1], (*c)[2]);
    EXPECT_EQ((*c)[2], (*c)[3]);
  }
  EXPECT_GT(found, 10);
}

TEST(Svg, ItSaysWhatItIsMadeFromAndBy) {
  const auto all = elements_of(written({every_primitive()}));
  EXPECT_EQ(named(all, "title").front().text, "HG-L2-ARR Línea 2 <a & b>: Measured Ø");
  EXPECT_EQ(named(all, "desc").front().text, "layout a.toml, SHA-256 0123; fairlead 0.1.0; 2026-10-30");
}

TEST(Svg, SameSheetsSameBytes) { EXPECT_EQ(written({every_primitive()}), written({every_primitive()})); }

TEST(Svg, WhatCannotBeWrittenIsRefused) {
  Sheet bad = every_primitive(), strange = every_primitive();
  Canvas(bad.drawing, font()).line({{0, 0}, {std::numeric_limits<double>::quiet_NaN(), 5}}, {0.25});
  const auto not_finite = svg({bad}, font(), info());
  ASSERT_FALSE(not_finite.has_value());
  EXPECT_EQ(not_finite.error().message, "a drawing holds a number that is not finite");
  Canvas(strange.drawing, font()).text({10, 10}, "中 anchor", 2.5, Layer::text);
  const auto unknown = svg({strange}, font(), info());
  ASSERT_FALSE(unknown.has_value());
  EXPECT_NE(unknown.error().message.find("holds U+4E2D"), std::string::npos) << unknown.error().message;
  EXPECT_FALSE(svg({}, font(), info()).has_value());
}

}  // namespace
}  // namespace fairlead::formats
