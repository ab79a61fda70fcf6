// The DXF read back by a reader of its own: pairs, sections, handles, and the drawing in them. Source DXF.
#include <gtest/gtest.h>

#include <limits>
#include <map>
#include <regex>
#include <set>

#include "report/formats/dxf.hpp"
#include "tests/report/formats/every_primitive.hpp"

namespace fairlead::formats {
namespace {

using namespace drawing;

struct Pair {
  int code{};
  std::string value;
};
using Pairs = std::vector<Pair>;

/// Throws where a line does not end in CR LF, holds a byte that is not ASCII, or a code has no value.
Pairs pairs_of(const std::string& file) {
  Pairs pairs;
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < file.size();) {
    const std::size_t end = file.find("\r\n", at);
    if (end == std::string::npos) throw std::runtime_error("a last line without its end");
    lines.push_back(file.substr(at, end - at));
    for (const char c : lines.back())
      if (c < 0x20 || c > 0x7E) throw std::runtime_error("not a printed ASCII character in: " + lines.back());
    at = end + 2;
  }
  if (lines.size() % 2 != 0) throw std::runtime_error("a code without a value");
  for (std::size_t i = 0; i < lines.size(); i += 2) pairs.push_back({std::stoi(lines[i]), lines[i + 1]});
  return pairs;
}

/// A part of the file that begins with a 0: its kind and what it holds.
struct Object {
  std::string kind;
  Pairs pairs;

  std::vector<std::string> all(int code) const {
    std::vector<std::string> values;
    for (const Pair& pair : pairs)
      if (pair.code == code) values.push_back(pair.value);
    return values;
  }
  std::string first(int code) const { return all(code).empty() ? "" : all(code).front(); }
  std::vector<Paper> points(int x_code) const {
    std::vector<Paper> points;
    for (std::size_t i = 0; i + 1 < pairs.size(); ++i)
      if (pairs[i].code == x_code && pairs[i + 1].code == x_code + 10)
        points.push_back({std::stod(pairs[i].value), std::stod(pairs[i + 1].value)});
    return points;
  }
};

/// By section, in order; throws where sections are not closed.
using File = std::vector<std::pair<std::string, std::vector<Object>>>;
File file_of(const std::string& text) {
  File file;
  std::vector<Object> objects;
  for (const Pair& pair : pairs_of(text)) {
    if (pair.code == 0)
      objects.push_back({pair.value, {}});
    else if (!objects.empty())
      objects.back().pairs.push_back(pair);
    else if (pair.code != 999)
      throw std::runtime_error("stands before everything: " + pair.value);
  }
  bool open = false;
  for (Object& object : objects) {
    if (object.kind == "SECTION") {
      if (open) throw std::runtime_error("a section in a section");
      file.push_back({object.first(2), {}});
      file.back().second.push_back(std::move(object));
      open = true;
    } else if (object.kind == "ENDSEC") {
      open = false;
    } else if (object.kind != "EOF") {
      if (!open) throw std::runtime_error("outside of all sections: " + object.kind);
      file.back().second.push_back(std::move(object));
    }
  }
  if (open || objects.empty() || objects.back().kind != "EOF") throw std::runtime_error("not closed");
  return file;
}

std::vector<Object> section(const File& file, const std::string& name) {
  for (const auto& [of, objects] : file)
    if (of == name) return {objects.begin() + 1, objects.end()};
  throw std::runtime_error("no section " + name);
}

std::string written(const std::vector<Sheet>& sheets) {
  const auto text = dxf(sheets, font(), info());
  EXPECT_TRUE(text.has_value()) << text.error().message;
  return text.value_or("");
}

std::vector<Object> entities_of(const std::vector<Sheet>& sheets) {
  return section(file_of(written(sheets)), "ENTITIES");
}

/// What a program shows of a text: \U+XXXX as UTF-8.
std::string decoded(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.compare(i, 3, "\\U+") != 0) {
      out += text[i];
      continue;
    }
    const auto code = std::stoul(text.substr(i + 3, 4), nullptr, 16);
    if (code < 0x80)
      out += static_cast<char>(code);
    else if (code < 0x800)
      out.append({static_cast<char>(0xC0 | code >> 6), static_cast<char>(0x80 | (code & 0x3F))});
    else
      out.append({static_cast<char>(0xE0 | code >> 12), static_cast<char>(0x80 | (code >> 6 & 0x3F)),
                  static_cast<char>(0x80 | (code & 0x3F))});
    i += 6;
  }
  return out;
}

constexpr double half_digit_mm = 0.5e-6;  // of what is written

TEST(Dxf, ItIsOfReleaseR2000InMillimetresWithItsSectionsInOrder) {
  const File file = file_of(written({every_primitive()}));
  std::vector<std::string> names;
  for (const auto& [name, objects] : file) names.push_back(name);
  EXPECT_EQ(names, (std::vector<std::string>{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"}));
  const Pairs& header = file.front().second.front().pairs;
  std::map<std::string, std::string> variables;
  for (std::size_t i = 0; i + 1 < header.size(); ++i)
    if (header[i].code == 9) variables[header[i].value] = header[i + 1].value;
  EXPECT_EQ(variables["$ACADVER"], "AC1015");
  EXPECT_EQ(variables["$INSUNITS"], "4");
  EXPECT_EQ(variables["$MEASUREMENT"], "1");
  EXPECT_EQ(variables["$LTSCALE"], "1.0");
}

TEST(Dxf, TenMetresAtOneToFiftyMeasureTwoHundredAndAFalsifiedScaleIsSeen) {
  const auto line = entities_of({every_primitive()}).front().points(10);
  ASSERT_EQ(line.size(), 2u);
  EXPECT_NEAR(length(line[1] - line[0]), 200, 2 * half_digit_mm);
  EXPECT_NEAR(line[0].y_mm, 150, half_digit_mm);
  const auto falsified = entities_of({every_primitive(50.5)}).front().points(10);
  EXPECT_NEAR(length(falsified[1] - falsified[0]), 200 / 1.01, 2 * half_digit_mm);
}

TEST(Dxf, EveryHandleIsOnceAndEveryOwnerAndPointerIsThere) {
  const std::string text = written({every_primitive(), every_primitive()});
  std::set<unsigned long> handles, named;
  unsigned long seed = 0;
  for (const auto& [name, objects] : file_of(text))
    for (const Object& object : objects)
      for (std::size_t i = 0; i < object.pairs.size(); ++i) {
        const auto& [code, value] = object.pairs[i];
        if (name == "HEADER") {
          if (code == 5) seed = std::stoul(value, nullptr, 16);
          continue;
        }
        if ((code == 5 && object.kind != "DIMSTYLE") || (code == 105 && object.kind == "DIMSTYLE")) {
          EXPECT_TRUE(handles.insert(std::stoul(value, nullptr, 16)).second) << value;
        } else if (code == 330 || code == 340 || code == 350 || code == 390) {
          named.insert(std::stoul(value, nullptr, 16));
        }
      }
  named.erase(0);  // of what has no owner
  for (const auto handle : named) EXPECT_TRUE(handles.contains(handle)) << handle;
  EXPECT_GT(handles.size(), 50u);
  EXPECT_EQ(seed, *handles.rbegin() + 1) << "the first handle nobody has";
}

TEST(Dxf, EveryTableHoldsAsManyRecordsAsItSaysAndWhatIsUsed) {
  const File file = file_of(written({every_primitive()}));
  std::map<std::string, std::set<std::string>> records;
  std::string table;
  std::size_t promised = 0;
  std::vector<std::string> tables;
  for (const Object& object : section(file, "TABLES")) {
    if (object.kind == "TABLE") {
      table = object.first(2);
      tables.push_back(table);
      promised = std::stoul(object.first(70));
    } else if (object.kind == "ENDTAB") {
      EXPECT_EQ(records[table].size(), promised) << table;
    } else {
      EXPECT_EQ(object.kind, table);
      records[table].insert(object.first(2));
    }
  }
  EXPECT_EQ(tables, (std::vector<std::string>{"VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE",
                                              "BLOCK_RECORD"}));
  EXPECT_EQ(records["LAYER"].size(), layer_count + 1u);
  for (const Object& entity : section(file, "ENTITIES")) {
    EXPECT_TRUE(records["LAYER"].contains(entity.first(8))) << entity.first(8);
    if (entity.kind == "LWPOLYLINE") {
      EXPECT_TRUE(records["LTYPE"].contains(entity.first(6))) << entity.first(6);
    }
    if (entity.kind == "TEXT") {
      EXPECT_TRUE(records["STYLE"].contains(entity.first(7))) << entity.first(7);
    }
  }
}

TEST(Dxf, EveryPrimitiveIsThereInTheOrderOfDrawing) {
  const Sheet sheet = every_primitive();
  const auto entities = entities_of({sheet});
  std::size_t i = 0;
  const auto next = [&](const char* kind) -> const Object& {
    if (i >= entities.size()) throw std::runtime_error("too few entities");
    EXPECT_EQ(entities[i].kind, kind);
    return entities[i++];
  };
  const auto expect_path = [](const std::vector<Paper>& found, const std::vector<Paper>& path) {
    ASSERT_EQ(found.size(), path.size());
    for (std::size_t p = 0; p < path.size(); ++p) EXPECT_LE(length(found[p] - path[p]), 2 * half_digit_mm);
  };
  for (const auto& entity : sheet.drawing.entities) {
    if (const auto* label = std::get_if<Label>(&entity)) {
      const Object& text = next("TEXT");
      EXPECT_EQ(decoded(text.first(1)), label->text);
      EXPECT_EQ(text.first(8), layer_name(label->layer));
      EXPECT_NEAR(std::stod(text.first(40)), label->cap_mm, half_digit_mm);
      expect_path(text.points(10), {label->at});
      // Fitted between the ends of its baseline.
      EXPECT_EQ(text.first(72), "5");
      expect_path(text.points(11), {label->at + polar(font().width_mm(label->text, label->cap_mm), label->angle_rad)});
      continue;
    }
    const Stroke& stroke = std::get<Stroke>(entity);
    if (stroke.fill != Fill::none) {
      const Object& hatch = next("HATCH");
      EXPECT_EQ(hatch.first(2), "SOLID");
      EXPECT_EQ(hatch.first(8), layer_name(stroke.pen.layer));
      EXPECT_EQ(hatch.first(93), std::to_string(stroke.path.size()));
      auto boundary = hatch.points(10);
      boundary.erase(boundary.begin());  // the elevation point
      expect_path(boundary, stroke.path);
      EXPECT_EQ(hatch.first(62), stroke.fill == Fill::ink ? "" : stroke.fill == Fill::tint ? "254" : "255");
    }
    if (!(stroke.pen.width_mm > 0)) continue;
    const Object& line = next("LWPOLYLINE");
    EXPECT_EQ(line.first(8), layer_name(stroke.pen.layer));
    EXPECT_NEAR(std::stod(line.first(370)) / 100, stroke.pen.width_mm, 1e-9);
    EXPECT_EQ(std::stoi(line.first(70)) % 2 == 1, stroke.closed);
    expect_path(line.points(10), stroke.path);
  }
  EXPECT_EQ(i, entities.size());
}

TEST(Dxf, LineWeightsAreThoseTheReleaseHas) {
  // Source DXF; hundredths of a millimetre.
  const std::set<int> weights{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100};
  for (const Object& entity : entities_of({every_primitive()}))
    if (entity.kind == "LWPOLYLINE") {
      EXPECT_TRUE(weights.contains(std::stoi(entity.first(370)))) << entity.first(370);
    }
}

TEST(Dxf, ALinesTypeTimesItsScaleIsItsDashes) {
  const Sheet sheet = every_primitive();
  const File file = file_of(written({sheet}));
  std::map<std::string, std::vector<double>> types;
  for (const Object& object : section(file, "TABLES"))
    if (object.kind == "LTYPE") {
      double whole = 0;
      for (const std::string& length : object.all(49)) {
        types[object.first(2)].push_back(std::stod(length));
        whole += std::abs(std::stod(length));
      }
      EXPECT_NEAR(std::stod(object.first(40)), whole, 1e-9) << object.first(2);
    }
  std::vector<Object> lines;
  for (const Object& entity : section(file, "ENTITIES"))
    if (entity.kind == "LWPOLYLINE") lines.push_back(entity);
  std::size_t i = 0;
  std::set<std::string> used;
  for (const auto& entity : sheet.drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke || !(stroke->pen.width_mm > 0)) continue;
    const Object& line = lines.at(i++);
    used.insert(line.first(6));
    const auto& type = types[line.first(6)];
    const auto dash = dashes(stroke->pen.type, stroke->pen.width_mm, path_length(stroke->path, stroke->closed));
    ASSERT_EQ(type.size(), dash.size()) << line.first(6);
    for (std::size_t d = 0; d < dash.size(); ++d) {
      // Half the scale's last digit times the longest dash of a type, 24.
      EXPECT_NEAR(std::abs(type[d]) * std::stod(line.first(48)), dash[d], 24 * half_digit_mm);
      EXPECT_EQ(type[d] > 0, d % 2 == 0) << "a dash, then a gap";
    }
  }
  EXPECT_EQ(used.size(), 5u) << "every type there is";
}

TEST(Dxf, NoTextIsACommandOfItsReader) {
  std::string found;
  for (const Object& entity : entities_of({every_primitive()}))
    if (entity.kind == "TEXT" && entity.first(1).starts_with("<a>")) found = entity.first(1);
  EXPECT_EQ(found, "<a> & \"b\" 'c' \\U+005CP %\\U+0025d \\U+005EJ 5 %");
}

TEST(Dxf, SheetsStandSideBySideEachUnderItsNamedView) {
  const auto alone = entities_of({every_primitive()}), both = entities_of({every_primitive(), every_primitive()});
  ASSERT_EQ(both.size(), 2 * alone.size());
  const auto first = both.front().points(10), second = both[alone.size()].points(10);
  EXPECT_NEAR(second[0].x_mm - first[0].x_mm, 440, 2 * half_digit_mm);
  EXPECT_NEAR(second[0].y_mm, first[0].y_mm, half_digit_mm);
  std::vector<std::string> views;
  std::vector<Paper> centres;
  for (const Object& object : section(file_of(written({every_primitive(), every_primitive()})), "TABLES"))
    if (object.kind == "VIEW") views.push_back(object.first(2)), centres.push_back(object.points(10).front());
  EXPECT_EQ(views, (std::vector<std::string>{"SHEET 1", "SHEET 2"}));
  EXPECT_EQ(centres[1], (Paper{440 + 210, 148.5}));
}

TEST(Dxf, ASheetInGreyHasNoColour) {
  Sheet sheet = every_primitive();
  sheet.grey = true;
  const std::set<std::string> without_colour{"7", "9", "254", "255"};
  for (const Object& entity : entities_of({sheet})) EXPECT_TRUE(without_colour.contains(entity.first(62)));
}

TEST(Dxf, ItSaysWhatItIsMadeFromAndBy) {
  const Pairs pairs = pairs_of(written({every_primitive()}));
  ASSERT_GE(pairs.size(), 3u);
  for (int i = 0; i < 3; ++i) EXPECT_EQ(pairs[static_cast<std::size_t>(i)].code, 999);
  EXPECT_EQ(pairs[0].value, "HG-L2-ARR L\\U+00EDnea 2 <a & b>");
  EXPECT_EQ(pairs[1].value, "layout a.toml, SHA-256 0123");
  EXPECT_EQ(pairs[2].value, "fairlead 0.1.0");
}

TEST(Dxf, SameSheetsSameBytes) { EXPECT_EQ(written({every_primitive()}), written({every_primitive()})); }

TEST(Dxf, WhatCannotBeWrittenIsRefused) {
  Sheet bad = every_primitive(), strange = every_primitive();
  Canvas(bad.drawing, font()).line({{0, 0}, {std::numeric_limits<double>::infinity(), 5}}, {0.25});
  const auto not_finite = dxf({bad}, font(), info());
  ASSERT_FALSE(not_finite.has_value());
  EXPECT_EQ(not_finite.error().message, "a drawing holds a number that is not finite");
  Canvas(strange.drawing, font()).text({10, 10}, "中 anchor", 2.5, Layer::text);
  EXPECT_FALSE(dxf({strange}, font(), info()).has_value());
  EXPECT_FALSE(dxf({}, font(), info()).has_value());
}

}  // namespace
}  // namespace fairlead::formats
