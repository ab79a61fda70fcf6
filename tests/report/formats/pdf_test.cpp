// The PDF as other programs read it: qpdf, poppler and mupdf are the judges here, not the writer's own code.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <regex>
#include <set>
#include <sstream>

#include "report/drawing/canvas.hpp"
#include "report/drawing/symbols.hpp"
#include "report/formats/files.hpp"
#include "report/formats/pdf.hpp"
#include "tests/scratch.hpp"

namespace fairlead::formats {
namespace {

using namespace drawing;
namespace fs = std::filesystem;

const Font& font() {
  static const Font opened = Font::open().value();
  return opened;
}

struct Ran {
  int status{};
  std::string output;  ///< standard output and error
};
Ran run(const std::string& command) {
  Ran ran;
  std::FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return {-1, "no pipe"};
  char buffer[4096];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, pipe)) ran.output.append(buffer, n);
  const int status = ::pclose(pipe);
  ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return ran;
}

/// A sheet that measures: a level line of 10 m of site in a view of 1:50, framed, lettered, in several layers.
Sheet measuring_sheet(double scale = 50) {
  Sheet sheet{"Measured Ø", 420, 297, {}};
  const Canvas canvas(sheet.drawing, font());
  const View view{"elevation", {1, 0, 0}, {0, 0, 1}, {100, 0, 50}, {100, 150}, scale};
  canvas.line({view.of(Point3{100, 0, 50}), view.of(Point3{110, 0, 50})},
              {0.7, LineType::continuous, Layer::main_line});
  canvas.line({{50, 50}, {150, 50}}, {0.25, LineType::dash_double_dot, Layer::envelope});
  canvas.box({20, 10, 410, 287}, {0.7, LineType::continuous, Layer::title_block});
  canvas.text({60, 100}, "Żółć Ø16, 10.000 m ≤ Σ ⌀ ǭ", 3.5, Layer::text);
  canvas.text({60, 120}, "upright", 5, Layer::notes, Align::left, std::acos(-1) / 2);
  arrow(canvas, {200, 60}, {240, 80}, {0.35, LineType::continuous, Layer::loads});
  return sheet;
}

DocumentInfo info() {
  return {"HG-L2-ARR Línea 2", "M. Okafor", "layout a.toml", "", "fairlead 0.1.0", Date{2026, 10, 30}};
}

std::string written(const std::vector<Sheet>& sheets, const std::string& name) {
  const auto bytes = pdf(sheets, font(), info());
  EXPECT_TRUE(bytes.has_value()) << bytes.error().message;
  static const Scratch folder;
  EXPECT_TRUE(write_whole(folder / name, bytes.value_or("")).has_value());
  return folder / name;
}

/// Length in millimetres of the widest level stroke of that line width that mupdf sees; its unit is the point.
double longest_level_stroke_mm(const std::string& path, double width_mm) {
  const std::string trace = run("mutool trace " + path + " 1").output;
  const std::regex stroke(R"re(<stroke_path linewidth="([^"]+)"[^>]*transform="([^"]+)">([\s\S]*?)</stroke_path>)re");
  const std::regex point(R"re(<(?:moveto|lineto) x="([^"]+)" y="([^"]+)")re");
  double longest = 0;
  for (std::sregex_iterator s(trace.begin(), trace.end(), stroke), end; s != end; ++s) {
    if (std::abs(std::stod((*s)[1]) - width_mm) > 1e-6) continue;
    const double x_scale = std::stod((*s)[2]);
    const std::string body = (*s)[3];
    std::vector<double> x, y;
    for (std::sregex_iterator p(body.begin(), body.end(), point); p != end; ++p) {
      x.push_back(std::stod((*p)[1]) * x_scale * 25.4 / 72);
      y.push_back(std::stod((*p)[2]));
    }
    if (x.size() == 2 && y[0] == y[1]) longest = std::max(longest, std::abs(x[1] - x[0]));
  }
  return longest;
}

// Half of the last digit that the sheet's own claim has: 200.00 mm.
constexpr double half_digit_mm = 0.005;

TEST(Pdf, TenMetresAtOneToFiftyMeasureTwoHundredMillimetresInAnotherProgram) {
  EXPECT_NEAR(longest_level_stroke_mm(written({measuring_sheet()}, "scale.pdf"), 0.7), 200, half_digit_mm);
}

TEST(Pdf, AScaleFalsifiedByOnePercentIsSeen) {
  const double measured = longest_level_stroke_mm(written({measuring_sheet(50.5)}, "false.pdf"), 0.7);
  EXPECT_GT(std::abs(measured - 200), half_digit_mm);
  EXPECT_NEAR(measured, 200 / 1.01, half_digit_mm);
}

TEST(Pdf, OtherProgramsFindNothingToComplainOf) {
  const std::string path = written({measuring_sheet(), measuring_sheet()}, "check.pdf");
  const Ran qpdf = run("qpdf --check " + path);
  EXPECT_EQ(qpdf.status, 0) << qpdf.output;
  EXPECT_NE(qpdf.output.find("No syntax or stream encoding errors"), std::string::npos) << qpdf.output;
  const Ran poppler = run("pdftotext " + path + " /dev/null && pdftoppm -r 30 " + path + " " + path);
  EXPECT_EQ(poppler.status, 0);
  EXPECT_EQ(poppler.output, "");
  const Ran mupdf = run("mutool draw -F png -r 30 -o /dev/null " + path);
  // Debian builds mutool without colour profiles, and it says so of every file.
  const std::string spoken =
      std::regex_replace(mupdf.output, std::regex("warning: ICC support is not available\n|page .*\n"), "");
  EXPECT_EQ(spoken, "");
}

TEST(Pdf, TheFontIsEmbeddedInPartWithAMapToUnicode) {
  const std::string fonts = run("pdffonts " + written({measuring_sheet()}, "fonts.pdf")).output;
  EXPECT_TRUE(std::regex_search(
      fonts, std::regex(R"([A-Z]{6}\+DejaVuSansCondensed,Book +CID TrueType +Identity-H +yes yes yes)")))
      << fonts;
  EXPECT_EQ(std::count(fonts.begin(), fonts.end(), '\n'), 3) << "one font only:\n" << fonts;
}

TEST(Pdf, ItsTextReadsBackCharacterByCharacter) {
  const std::string text = run("pdftotext -layout " + written({measuring_sheet()}, "text.pdf") + " -").output;
  EXPECT_NE(text.find("Żółć Ø16, 10.000 m ≤ Σ ⌀ ǭ"), std::string::npos) << text;
}

// The o with ogonek and macron is a composite of a composite: libharu alone would lose one of its marks. Its ink is
// compared with that of a file whose font is embedded whole.
TEST(Pdf, PartsOfPartsOfAGlyphAreDrawn) {
  const auto ink = [](const std::string& text) {
    Sheet sheet{"glyph", 40, 40, {}};
    Canvas(sheet.drawing, font()).text({5, 15}, text, 15, Layer::text);
    const std::string grey = run("mutool draw -F pgm -r 100 -o - " + written({sheet}, "glyph.pdf")).output;
    return std::count_if(grey.end() - 150 * 150, grey.end(),
                         [](char c) { return static_cast<unsigned char>(c) < 128; });
  };
  const auto o = ink("o"), with_ogonek = ink("ǫ"), with_both = ink("ǭ");
  EXPECT_GT(with_ogonek, o + 20);
  EXPECT_GT(with_both, with_ogonek + 20);
}

TEST(Pdf, PrintersAreAskedForTrueSizeAndReadersForBookmarks) {
  const std::string path = written({measuring_sheet(), measuring_sheet()}, "catalog.pdf");
  const std::string text = run("qpdf --qdf --object-streams=disable " + path + " -").output;
  EXPECT_NE(text.find("/PrintScaling /None"), std::string::npos);
  EXPECT_NE(text.find("/PageMode /UseOutlines"), std::string::npos);
  const std::string outline = run("mutool show " + path + " outline").output;
  EXPECT_EQ(std::count(outline.begin(), outline.end(), '\n'), 2) << outline;
  EXPECT_NE(outline.find("Measured Ø"), std::string::npos) << outline;
}

TEST(Pdf, EveryLayerIsAnOptionalContentGroupThatEachPageKnows) {
  const std::string path = written({measuring_sheet(), measuring_sheet()}, "layers.pdf");
  const std::string text = run("qpdf --qdf --object-streams=disable " + path + " -").output;
  for (int i = 0; i < layer_count; ++i) {
    const std::string name = "/Name (" + std::string(layer_name(static_cast<Layer>(i))) + ")";
    EXPECT_NE(text.find(name), std::string::npos) << name;
  }
  std::size_t pages = 0;
  for (std::size_t at = text.find("/Properties <<"); at != std::string::npos; at = text.find("/Properties <<", at + 1))
    ++pages;
  EXPECT_EQ(pages, 2u);
}

TEST(Pdf, ALinkLeadsToItsSheetFromTheRectangleItHas) {
  std::vector<Sheet> set{measuring_sheet(), measuring_sheet(), measuring_sheet()};
  set[0].drawing.links = {{{100, 50}, {150, 60}, 2}};
  set[2].drawing.links = {{{200, 20}, {210, 25.4}, 0}};
  const std::string path = written(set, "links.pdf");
  const std::string text = run("qpdf --qdf --object-streams=disable " + path + " -").output;
  EXPECT_EQ(run("qpdf --check " + path).status, 0);
  const auto page_objects = run("qpdf --show-pages " + path).output;
  std::vector<std::string> pages;
  const std::regex page(R"(page \d+: (\d+ \d+) R)");
  for (std::sregex_iterator p(page_objects.begin(), page_objects.end(), page), end; p != end; ++p)
    pages.push_back((*p)[1]);
  ASSERT_EQ(pages.size(), 3u) << page_objects;
  // Read off the file as it is, whose pages have those numbers.
  const std::string objects = run("mutool show " + path + " grep | grep /Link").output;
  EXPECT_EQ(std::count(objects.begin(), objects.end(), '\n'), 2) << objects;
  std::istringstream lines(objects);
  std::string forth, back;
  std::getline(lines, forth);
  std::getline(lines, back);
  const auto leads_to = [&path](const std::string& annotation) {
    std::smatch number;
    std::regex_search(annotation, number, std::regex(R"(/Dest (\d+) 0 R)"));
    return run("mutool show " + path + " " + number[1].str()).output;
  };
  EXPECT_NE(leads_to(forth).find("[ " + pages[2] + " R /Fit ]"), std::string::npos) << leads_to(forth);
  EXPECT_NE(leads_to(back).find("[ " + pages[0] + " R /Fit ]"), std::string::npos) << leads_to(back);
  std::smatch at;
  ASSERT_TRUE(std::regex_search(back, at, std::regex(R"(/Rect\[([-0-9.]+) ([-0-9.]+) ([-0-9.]+) ([-0-9.]+)\])")))
      << back;
  EXPECT_NEAR(std::stod(at[1]), 200 * 72 / 25.4, 0.01);
  EXPECT_NEAR(std::stod(at[4]), 72, 0.01);
}

TEST(Pdf, ALinkToASheetThatIsNotThereIsRefused) {
  Sheet sheet = measuring_sheet();
  sheet.drawing.links = {{{100, 50}, {150, 60}, 7}};
  const auto bytes = pdf({sheet}, font(), info());
  ASSERT_FALSE(bytes.has_value());
  EXPECT_EQ(bytes.error().message, "sheet \"Measured Ø\": a link leads to sheet 8 of 1");
}

TEST(Pdf, ItsDataComeFromTheLayoutAndNoClockIsRead) {
  const std::string about = run("TZ=UTC pdfinfo -isodates " + written({measuring_sheet()}, "info.pdf")).output;
  EXPECT_NE(about.find("Title:           HG-L2-ARR Línea 2"), std::string::npos) << about;
  EXPECT_NE(about.find("CreationDate:    2026-10-30T00:00:00Z"), std::string::npos) << about;
  EXPECT_NE(about.find("Creator:         fairlead 0.1.0"), std::string::npos) << about;
  DocumentInfo undated = info();
  undated.date.reset();
  const auto bytes = pdf({measuring_sheet()}, font(), undated).value();
  EXPECT_EQ(bytes.find("CreationDate"), std::string::npos);
}

TEST(Pdf, SameSheetsSameBytes) {
  EXPECT_EQ(pdf({measuring_sheet()}, font(), info()).value(), pdf({measuring_sheet()}, font(), info()).value());
}

TEST(Pdf, DashesReachTheFileAsFractionsOfAMillimetre) {
  const std::string trace = run("mutool trace " + written({measuring_sheet()}, "dash.pdf") + " 1").output;
  // 100 mm of 05.1 at 0.25 mm: 11 periods of 8.5 mm and a dash of 6 mm are 99.5 mm, stretched by 100/99.5.
  std::smatch found;
  ASSERT_TRUE(std::regex_search(trace, found, std::regex(R"re(dash="([0-9.]+) ([0-9.]+) ([0-9.]+))re")))
      << trace.substr(0, 2000);
  EXPECT_NEAR(std::stod(found[1]), 6 * 100 / 99.5, 1e-4);
  EXPECT_NEAR(std::stod(found[2]), 0.75 * 100 / 99.5, 1e-4);
  EXPECT_NEAR(std::stod(found[3]), 0.125 * 100 / 99.5, 1e-4);
}

TEST(Pdf, ANumberThatIsNotFiniteIsRefused) {
  for (double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    Sheet in_line = measuring_sheet(), in_label = measuring_sheet(), in_size = measuring_sheet();
    Canvas(in_line.drawing, font()).line({{0, 0}, {bad, 5}}, {0.25, LineType::continuous, Layer::grid});
    Canvas(in_label.drawing, font()).text({bad, 5}, "R1", 2.5, Layer::text);
    in_size.width_mm = bad;
    for (const Sheet& sheet : {in_line, in_label, in_size}) {
      const auto bytes = pdf({sheet}, font(), info());
      ASSERT_FALSE(bytes.has_value());
      EXPECT_EQ(bytes.error().message, "a drawing holds a number that is not finite");
    }
  }
}

TEST(Pdf, ACharacterTheFontLacksIsRefusedByName) {
  Sheet sheet = measuring_sheet();
  Canvas(sheet.drawing, font()).text({10, 10}, "中 anchor", 2.5, Layer::text);
  const auto bytes = pdf({sheet}, font(), info());
  ASSERT_FALSE(bytes.has_value());
  EXPECT_EQ(bytes.error().message,
            "sheet \"Measured Ø\": \"中 anchor\" holds U+4E2D, which the font " + font().path() + " does not have");
}

TEST(Pdf, APageBeyondLibharusReachIsRefusedWithItsError) {
  Sheet sheet = measuring_sheet();
  sheet.width_mm = 9000;
  const auto bytes = pdf({sheet}, font(), info());
  ASSERT_FALSE(bytes.has_value());
  EXPECT_TRUE(bytes.error().message.starts_with("libharu refuses")) << bytes.error().message;
}

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(WriteWhole, AFailureLeavesTheOldFileAndNoOther) {
  const Scratch folder;
  const fs::path inside = folder / "";
  ASSERT_TRUE(write_whole(inside / "set.pdf", "old").has_value());
  EXPECT_EQ(read(inside / "set.pdf"), "old");
  ASSERT_TRUE(write_whole(inside / "set.pdf", "new").has_value());
  EXPECT_EQ(read(inside / "set.pdf"), "new");

  fs::create_directory(inside / "taken");
  fs::create_directory(inside / "taken" / "by");
  const auto over_folder = write_whole(inside / "taken", "x");
  ASSERT_FALSE(over_folder.has_value());
  EXPECT_EQ(over_folder.error().message, (inside / "taken").string() + ": cannot be put in place: Is a directory");
  const auto nowhere = write_whole(inside / "no" / "set.pdf", "x");
  ASSERT_FALSE(nowhere.has_value());
  EXPECT_EQ(nowhere.error().message,
            (inside / "no" / "set.pdf").string() + ": cannot be created: No such file or directory");
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(inside)) names.insert(entry.path().filename());
  EXPECT_EQ(names, (std::set<std::string>{"set.pdf", "taken"}));
}

}  // namespace
}  // namespace fairlead::formats
