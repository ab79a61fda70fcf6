// The sheet of the main line: what it draws lies where the line and the wheels on it were solved to lie.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <numbers>
#include <set>

#include "geometry/studies/setting_out.hpp"
#include "report/sheets/main_line_curves.hpp"
#include "report/sheets/main_line_plots.hpp"
#include "report/words/numbers.hpp"
#include "tests/laws/moved.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;
using mainline::Loading;
using mainline::StatePath;

constexpr std::string_view kind = "main-line";

const Dossier& set_out(const std::string& file) {
  static std::map<std::string, Dossier> all;
  const auto [at, made] = all.try_emplace(file, shipped_dossier(file));
  if (made) at->second.setting_out = setting_out(at->second.judged.rig);
  return at->second;
}

std::string all_words(const std::vector<Sheet>& sheets) {
  std::string all;
  for (const Sheet& sheet : sheets) all += everything(sheet);
  return all;
}

const Label& label_of(const Sheet& sheet, const std::string& text) {
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity); label && label->text == text) return *label;
  throw std::runtime_error("no " + text);
}

/// Everything that is lettered and drawn for one plot: from its title's baseline down to the next one's, in its column.
struct Region {
  const Sheet& sheet;
  Box box;
};
Region region_of(const Sheet& sheet, const std::string& title, double height_mm, double width_mm) {
  const Label& label = label_of(sheet, title);
  return {sheet, {label.at.x_mm, label.at.y_mm - height_mm, label.at.x_mm + width_mm, label.at.y_mm}};
}

/// The strokes of one pen, samples of it beside its name left out: those lie level.
std::vector<std::vector<Paper>> strokes(const Region& region, Pen pen) {
  std::vector<std::vector<Paper>> all;
  for (const auto& entity : region.sheet.drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke || stroke->pen.type != pen.type || stroke->pen.width_mm != pen.width_mm ||
        stroke->pen.layer != pen.layer || stroke->closed || !region.box.contains(bounds(stroke->path)) ||
        bounds(stroke->path).width() < 20.5)
      continue;
    all.push_back(stroke->path);
  }
  return all;
}

/// A straight scale told by two figures of an axis.
struct Scale {
  double at_mm{}, value{}, per_mm{};
  double operator()(double mm) const { return value + (mm - at_mm) * per_mm; }
};
/// `up`: by the figures that end left of the area, else by those centred under it.
Scale scale_of(const Region& region, bool up, const std::string& first, const std::string& second) {
  const auto place = [&](const std::string& text) {
    for (const auto& entity : region.sheet.drawing.entities)
      if (const auto* label = std::get_if<Label>(&entity);
          label && label->layer == Layer::grid && label->text == text && region.box.contains(label->at))
        return up ? label->at.y_mm + label->cap_mm / 2 : label->at.x_mm + font().width_mm(text, label->cap_mm) / 2;
    throw std::runtime_error("no figure " + text);
  };
  const auto number = [](std::string text) {
    if (text.starts_with("\u2212")) text = "-" + text.substr(std::string("\u2212").size());
    return std::atof(text.c_str());
  };
  const double a = place(first), b = place(second);
  return {a, number(first), (number(second) - number(first)) / (b - a)};
}

const StatePath& path_of(const Rig& rig, Loading loading, mainline::Weather weather) {
  const auto& line = *rig.main_line.solved();
  for (const StatePath& path : line.paths)
    if (path.loading == loading && line.states[static_cast<std::size_t>(path.state)].weather == weather) return path;
  throw std::runtime_error("no such path");
}

constexpr std::pair<Loading, Pen> loadings[] = {
    {Loading::empty, {0, LineType::dashed, Layer::braking_line}},
    {Loading::lightest, {0, LineType::long_dash_short_dash, Layer::envelope}},
    {Loading::heaviest, {0, LineType::dash_double_dot, Layer::envelope}},
};

/// Of the demo, which has one line cold, the tighter, and one warm.
const Sheet& demo_sheet() {
  static const Sheet sheet = one_sheet(shipped_dossier("marten_ridge.toml"), PaperSize::a3, kind);
  return sheet;
}
const Rig& demo_rig() { return shipped_dossier("marten_ridge.toml").judged.rig; }
Region demo_section() { return region_of(demo_sheet(), "LONG SECTION OF THE MAIN LINE", 125, 224); }

// 1:1000 and 1:200 stand over it, so 50 m along are 50 mm and 10 m up are 50 mm, by the figures beside it.
TEST(MainLineSection, IsToTheScalesThatStandOverIt) {
  EXPECT_TRUE(says(demo_sheet(), "1:1000 along, 1:200 up: heights 5 times the lengths"));
  const Region section = demo_section();
  EXPECT_NEAR(scale_of(section, false, "40", "140").per_mm, 1.0, 1e-9);
  EXPECT_NEAR(scale_of(section, true, "402", "412").per_mm, 0.2, 1e-9);
}

// Every point drawn and the middle between two lies on the solved path. Straight between knots a curve is off by no
// more than h2/8 of its curvature, and points are left out within the curve tolerance.
TEST(MainLineSection, EveryCurveLiesWhereItsPathWasSolved) {
  const Rig& rig = demo_rig();
  const Region section = demo_section();
  const Scale along = scale_of(section, false, "40", "140"), up = scale_of(section, true, "402", "412");
  for (const auto& [loading, pen_of] : loadings)
    for (const mainline::Weather weather : {mainline::Weather::cold, mainline::Weather::warm}) {
      const mainline::Path& path = path_of(rig, loading, weather).path;
      Pen pen = pen_of;
      pen.width_mm = weather == mainline::Weather::cold ? narrow_mm : wide_mm;
      const auto drawn = strokes(section, pen);
      ASSERT_EQ(drawn.size(), 1u);
      double steepest = 0;
      for (const auto& knot : path.knots()) steepest = std::max(steepest, std::abs(knot.curvature));
      const double step_m = path.knots()[1].x_m - path.knots()[0].x_m;
      const double tolerance_m = curve_tolerance_mm * up.per_mm + step_m * step_m / 8 * steepest;
      const auto off_m = [&](Paper at) {
        return rig.frame.origin.z + path.height_m(along(at.x_mm) - rig.frame.chainage_of_origin_m) - up(at.y_mm);
      };
      EXPECT_NEAR(along(drawn[0].front().x_mm), rig.frame.chainage_of_origin_m + path.from_m(), 1e-6);
      EXPECT_NEAR(along(drawn[0].back().x_mm), rig.frame.chainage_of_origin_m + path.to_m(), 1e-6);
      // A hair off along is as much off up as the line is steep; 1e-6 is far more than rounding leaves.
      for (std::size_t i = 1; i + 1 < drawn[0].size(); ++i) {
        EXPECT_NEAR(off_m(drawn[0][i]), 0, 1e-6);
        EXPECT_NEAR(off_m(0.5 * (drawn[0][i - 1] + drawn[0][i])), 0, tolerance_m);
      }
    }
}

TEST(MainLineSection, BareLineAndChordRunFromSupportToSupport) {
  const Rig& rig = demo_rig();
  const Region section = demo_section();
  const Scale along = scale_of(section, false, "40", "140"), up = scale_of(section, true, "402", "412");
  const auto& states = rig.main_line.solved()->states;
  const auto supports = [&](const std::vector<Paper>& path) {
    const auto place = [&](AnchorId id) { return rig.layout.anchors[static_cast<std::size_t>(id)].position.value; };
    const Point3 from = place(rig.layout.main_line.from), to = place(rig.layout.main_line.to);
    EXPECT_NEAR(up(path.front().y_mm), from.z, 1e-6);
    EXPECT_NEAR(up(path.back().y_mm), to.z, 1e-6);
    EXPECT_NEAR(along(path.back().x_mm) - along(path.front().x_mm), std::hypot(to.x - from.x, to.y - from.y), 1e-6);
  };
  for (const double width_mm : {narrow_mm, wide_mm}) {
    const auto drawn = strokes(section, {width_mm, LineType::continuous, Layer::main_line});
    ASSERT_EQ(drawn.size(), 1u);
    supports(drawn[0]);
    const mainline::State& state = states.at(width_mm == narrow_mm ? 1 : 2);  // measured, cold, warm
    for (const Paper at : drawn[0]) {
      const double x_m = std::clamp(along(at.x_mm) - rig.frame.chainage_of_origin_m, 0.0, rig.frame.span_m);
      EXPECT_NEAR(rig.frame.origin.z + line_at(state.cable, state.bare, x_m).z_m, up(at.y_mm), 1e-6);
    }
  }
  const auto chord = strokes(section, {narrow_mm, LineType::dash_dot, Layer::dimensions});
  ASSERT_EQ(chord.size(), 1u);
  supports(chord[0]);
}

TEST(MainLineSection, NamesSupportsMarksAndPlatformWithTheLayoutsNumbers) {
  for (const std::string& file : shipped_layouts()) {
    const Layout& layout = shipped_dossier(file).judged.rig.layout;
    const std::string all = everything(one_sheet(shipped_dossier(file), PaperSize::a3, kind));
    const auto told = [](double m) { return words::travel(m, Style{}); };
    std::vector<std::string> expected{
        "Rest mark CH " + told(layout.brake_trolley.rest_m),
        "End of planned travel CH " + told(layout.brake_trolley.rest_m + layout.brake_trolley.travel_m),
        "Backup brake engages, CH " + told(layout.backup_brake->engages_m),
        "level " + told(layout.landing->platform_level_m)};
    for (const AnchorId id : {layout.main_line.from, layout.main_line.to}) {
      const Anchor& anchor = layout.anchors[static_cast<std::size_t>(id)];
      expected.push_back("Support " + anchor.id.value + ",");
      expected.push_back("level " + told(anchor.position.value.z));
    }
    for (const std::string& text : expected) EXPECT_NE(all.find(text), std::string::npos) << file << ": " << text;
  }
}

// Both plots are as long as the section and stand under the same chainages.
TEST(MainLineTension, EveryCurveHasTheHorizontalTensionThatWasSolved) {
  const Rig& rig = demo_rig();
  const Region plot = region_of(demo_sheet(), "HORIZONTAL TENSION UNDER THE LOAD", 95, 224);
  const Scale along = scale_of(plot, false, "40", "140"), up = scale_of(plot, true, "20000", "25000");
  EXPECT_NEAR(scale_of(demo_section(), false, "40", "140")(0), along(0), 1e-9);
  for (const auto& [loading, pen_of] : loadings)
    for (const mainline::Weather weather : {mainline::Weather::cold, mainline::Weather::warm}) {
      const mainline::Path& path = path_of(rig, loading, weather).path;
      Pen pen = pen_of;
      pen.width_mm = weather == mainline::Weather::cold ? narrow_mm : wide_mm;
      const auto drawn = strokes(plot, pen);
      ASSERT_EQ(drawn.size(), 1u);
      ASSERT_GT(drawn[0].size(), 2u);
      for (const Paper at : drawn[0]) {
        const double x_m = along(at.x_mm) - rig.frame.chainage_of_origin_m;
        const auto& knots = path.knots();
        const auto knot = std::min_element(knots.begin(), knots.end(), [&](const auto& a, const auto& b) {
          return std::abs(a.x_m - x_m) < std::abs(b.x_m - x_m);
        });
        EXPECT_NEAR(knot->x_m, x_m, 1e-6);
        EXPECT_NEAR(knot->H_N, up(at.y_mm), 1e-6 * knot->H_N);
      }
    }
}

// Where a curve of the drive meets the zero line, that load comes to rest: found on the solved path by another search.
TEST(MainLineDrive, FallsThroughZeroWhereTheLoadComesToRest) {
  const Rig& rig = demo_rig();
  const Region plot = region_of(demo_sheet(), "DRIVE ABOUT THE REST MARK", 110, 160);
  const Scale along = scale_of(plot, false, "170", "180"), up = scale_of(plot, true, "0", "0.01");
  int met = 0;
  for (const auto& [loading, pen_of] : loadings)
    for (const mainline::Weather weather : {mainline::Weather::cold, mainline::Weather::warm}) {
      const StatePath& one = path_of(rig, loading, weather);
      Pen pen = pen_of;
      pen.width_mm = weather == mainline::Weather::cold ? narrow_mm : wide_mm;
      const auto drawn = strokes(plot, pen);
      ASSERT_EQ(drawn.size(), 1u);
      for (std::size_t i = 1; i < drawn[0].size(); ++i) {
        const Paper a = drawn[0][i - 1], b = drawn[0][i];
        if (!(up(a.y_mm) >= 0 && up(b.y_mm) < 0)) continue;
        ++met;
        const double share = up(a.y_mm) / (up(a.y_mm) - up(b.y_mm));
        const double slope_mm = (a.y_mm - b.y_mm) / (b.x_mm - a.x_mm);  // down per mm along
        // What is left out of the curve moves it by its tolerance, and so its zero; as much again for the knots.
        EXPECT_NEAR(along(a.x_mm + share * (b.x_mm - a.x_mm)),
                    one.rest_points_m.back() + rig.frame.chainage_of_origin_m,
                    2 * curve_tolerance_mm / slope_mm * along.per_mm);
      }
    }
  EXPECT_EQ(met, 6);
}

TEST(MainLineCurves, AHeavierLoadLiesLowerEverywhereAndTightensTheLineMore) {
  for (const std::string& file : shipped_layouts()) {
    const Rig& rig = shipped_dossier(file).judged.rig;
    // chord, bare, empty, lightest, heaviest: each with its highest and its lowest; tensions have no chord.
    const auto high = heights(rig, 0), taut = tensions(rig, 0);
    ASSERT_EQ(high.size(), 9u);
    ASSERT_EQ(taut.size(), 8u);
    for (std::size_t of = 3; of + 2 < high.size(); ++of)
      for (std::size_t i = 0; i < high[of].values.size(); ++i)
        EXPECT_LT(high[of + 2].values[i].y_mm, high[of].values[i].y_mm) << file << high[of + 2].name;
    for (std::size_t of = 2; of + 2 < taut.size(); ++of)
      for (std::size_t i = 0; i < taut[of].values.size(); ++i)
        EXPECT_GT(taut[of + 2].values[i].y_mm, taut[of].values[i].y_mm) << file << taut[of + 2].name;
  }
}

// What is drawn for all states encloses every one of them, and the states that it is of are named.
TEST(MainLineCurves, HighestAndLowestEncloseEveryState) {
  const Rig& rig = shipped_dossier("larch_spur.toml").judged.rig;
  const auto high = heights(rig, 0);
  for (std::size_t l = 0; l < std::size(loadings); ++l)
    for (const StatePath& path : rig.main_line.solved()->paths) {
      if (path.loading != loadings[l].first) continue;
      const auto &upper = high[3 + 2 * l].values, &lower = high[4 + 2 * l].values;
      for (std::size_t i = 0; i < upper.size(); ++i) {
        const double z_m = rig.frame.origin.z + path.path.knots()[i].z_m;
        EXPECT_LE(z_m, upper[i].y_mm);
        EXPECT_GE(z_m, lower[i].y_mm);
      }
    }
  EXPECT_EQ(high[7].name, "heaviest rider, highest: cold, tightest");
  EXPECT_EQ(high[8].name, "heaviest rider, lowest: warm, slackest");
}

TEST(SectionScales, AreOfTheSeriesFitAndExaggerateNoMoreThanTheSagNeeds) {
  const std::set<double> times{1, 2, 5, 10, 20};
  const auto of_series = [](double scale) {
    while (scale >= 10) scale /= 10;
    return std::abs(scale - 1) < 1e-9 || std::abs(scale - 2) < 1e-9 || std::abs(scale - 5) < 1e-9;
  };
  for (const double span_m : {30.0, 99.9, 200.0, 740.0, 2500.0})
    for (const double high_m : {1.0, 12.0, 150.0, 900.0})
      for (const double sag_m : {0.001, 0.8, 3.0, 60.0}) {
        const drawing::Size room{350, 110};
        const SectionScales scales = section_scales(span_m, high_m, sag_m, room);
        EXPECT_TRUE(of_series(scales.along) && of_series(scales.up)) << scales.along << ' ' << scales.up;
        EXPECT_TRUE(times.contains(scales.times())) << scales.times();
        EXPECT_LE(1000 * span_m / scales.along, room.width_mm);
        EXPECT_LE(1000 * high_m / scales.up, room.height_mm);
        // Less would not show 10 mm of sag.
        for (const double less : times)
          if (less < scales.times() && of_series(scales.along / less)) {
            EXPECT_LT(1000 * sag_m * less / scales.along, 10);
          }
      }
  const SectionScales demo = section_scales(200, 14, 2.57, {350, 110});
  EXPECT_EQ(demo.along, 1000);
  EXPECT_EQ(demo.up, 200);
}

TEST(MainLineSheet, StaysInsideItsFrameAndOverlapsNothingOnAnyPaper) {
  for (const std::string& file : shipped_layouts())
    for (const PaperSize paper : paper_sizes)
      for (const Units units : {Units::both, Units::us})
        for (const Sheet& sheet : compose(set_out(file), Style{units}, {font(), paper}, kind)) {
          EXPECT_EQ(outside_frame(sheet, paper), std::vector<std::string>{}) << file;
          EXPECT_EQ(sheet.left_out, std::vector<std::string>{}) << file;
          const Box whole{0, 0, sheet.width_mm, sheet.height_mm};
          EXPECT_EQ(faults(sheet.drawing, font(), whole), std::vector<std::string>{}) << file;
        }
}

// Slack as nobody would leave it: it hangs 39 m deep, so its section is higher than others and its lengths smaller.
TEST(MainLineSheet, DrawsALineThatHangsFarTooDeep) {
  const Dossier dossier = judged({{"main_line.tension", "2 kN"}});
  ASSERT_TRUE(dossier.judged.rig.main_line.solved());
  for (const PaperSize paper : {PaperSize::a3, PaperSize::a4})
    for (const Sheet& sheet : compose(dossier, Style{}, {font(), paper}, kind)) {
      EXPECT_EQ(sheet.left_out, std::vector<std::string>{});
      EXPECT_EQ(faults(sheet.drawing, font(), {0, 0, sheet.width_mm, sheet.height_mm}), std::vector<std::string>{});
    }
}

TEST(MainLineSheet, NoTwoCurvesOfTheSectionHaveOnePen) {
  std::set<std::pair<LineType, double>> pens;
  for (const PlotCurve& curve : long_section(demo_rig(), Style{}, {370, 200}).curves)
    pens.insert({curve.pen.type, curve.pen.width_mm});
  EXPECT_EQ(pens.size(), 9u) << "printed in grey they must differ too";
}

TEST(MainLineSheet, SaysOfEveryPlotThatNothingOfItWasMeasured) {
  int behind = 0;
  for (const auto& entity : demo_sheet().drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity); label && label->pale)
      behind += label->text == "CALCULATED, NOT MEASURED" || label->text == "PREDICTED, UNTESTED";
  EXPECT_EQ(behind, 3);
}

// Turned by half a turn a line bears the other way; mirrored it is passed on its other side. Neither changes what lies
// along it. Tolerance: what rounding of metres at site coordinates leaves on paper, far below a printer's dot.
TEST(MainLineSheet, IsTheSameOfATurnedAndOfAMirroredSite) {
  const Sheet& is = demo_sheet();
  for (const laws::Motion& motion : {laws::Motion{false, std::numbers::pi, {}}, laws::Motion{true, 0.7, {}}}) {
    Dossier dossier;
    dossier.judged = judge(laws::moved(shipped_layout("marten_ridge.toml"), motion));
    const Sheet moved = one_sheet(dossier, PaperSize::a3, kind);
    ASSERT_EQ(moved.drawing.entities.size(), is.drawing.entities.size());
    for (std::size_t i = 0; i < is.drawing.entities.size(); ++i) {
      if (const auto* label = std::get_if<Label>(&is.drawing.entities[i])) {
        const Label& other = std::get<Label>(moved.drawing.entities[i]);
        EXPECT_EQ(other.text, label->text);
        EXPECT_LT(length(other.at - label->at), 1e-3) << label->text;
      } else {
        const Box a = bounds(std::get<Stroke>(is.drawing.entities[i]).path),
                  b = bounds(std::get<Stroke>(moved.drawing.entities[i]).path);
        EXPECT_LT(length(Paper{a.left, a.bottom} - Paper{b.left, b.bottom}), 1e-3);
        EXPECT_LT(length(Paper{a.right, a.top} - Paper{b.right, b.top}), 1e-3);
      }
    }
  }
}

TEST(MainLineSheet, SaysWhyWhereTheLineIsNotSolved) {
  Dossier dossier = judged({{"main_line.tension", "100 N"}});
  ASSERT_FALSE(dossier.judged.rig.main_line.solved());
  dossier.setting_out = setting_out(dossier.judged.rig);
  const auto set = compose(dossier, Style{}, {font()}, kind);
  ASSERT_EQ(set.size(), 1u);
  const std::string all = all_words(set);
  for (const char* table : {"MAIN LINE, BARE", "MAIN LINE, LOADED", "STRINGING THE MAIN LINE"})
    EXPECT_TRUE(says(set.front(), table)) << table;
  EXPECT_NE(all.find("Undetermined: the main line's own weight needs more than the measured tension"),
            std::string::npos)
      << all;
  EXPECT_TRUE(says(set.front(), "none")) << "nothing on it is to scale";
}

TEST(MainLineSheet, HasTheStringingOfTheSetWhichStandsThereOnce) {
  int times = 0;
  for (const Sheet& sheet : compose(set_out("marten_ridge.toml"), Style{}, {font()}))
    if (says(sheet, "STRINGING THE MAIN LINE")) {
      ++times;
      EXPECT_EQ(sheet.title, "Main line");
    }
  EXPECT_EQ(times, 1);
}

}  // namespace
}  // namespace fairlead::sheets
