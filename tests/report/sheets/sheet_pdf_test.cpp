// The finished drawing as other programs read it: scale, lettering, fonts, the same bytes twice.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <regex>

#include "report/formats/files.hpp"
#include "report/formats/pdf.hpp"
#include "report/views/scene.hpp"
#include "tests/report/sheets/demo_sheets.hpp"
#include "tests/scratch.hpp"

namespace fairlead::sheets {
namespace {

using namespace drawing;

struct Ran {
  int status{};
  std::string output;
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

/// The whole set, or one kind of sheet of it.
std::string bytes_of(PaperSize paper, std::optional<std::string_view> only = {}) {
  return formats::pdf(compose(demo(), Style{}, {font(), paper}, only), font(),
                      {"Heron Gully", "", "", "", "fairlead", {}})
      .value();
}

/// The sheet as a file that goes with the test.
class Drawn {
 public:
  explicit Drawn(PaperSize paper, std::optional<std::string_view> only = {}) {
    EXPECT_TRUE(formats::write_whole(path(), bytes_of(paper, only)).has_value());
  }
  std::string path() const { return folder_ / "sheet.pdf"; }

 private:
  Scratch folder_;
};

TEST(SheetPdf, OtherProgramsFindNothingToComplainOf) {
  for (const PaperSize paper : {PaperSize::a3, PaperSize::ansi_b}) {
    const Drawn drawn(paper);
    const Ran qpdf = run("qpdf --check " + drawn.path());
    EXPECT_EQ(qpdf.status, 0) << qpdf.output;
    EXPECT_EQ(run("pdftotext " + drawn.path() + " /dev/null").output, "");
    EXPECT_EQ(run("pdftoppm -r 20 " + drawn.path() + " > /dev/null").output, "");
    const std::string fonts = run("pdffonts " + drawn.path()).output;
    EXPECT_TRUE(std::regex_search(fonts, std::regex("Identity-H +yes yes yes"))) << fonts;
    const std::string size = run("pdfinfo " + drawn.path()).output;
    EXPECT_NE(size.find(paper == PaperSize::a3 ? "1190.55 x 841.89 pts (A3)" : "1224 x 792 pts"), std::string::npos)
        << size;
  }
}

TEST(SheetPdf, ASetIsNoLargerThanAMailTakes) {
  // 1.5 MB is a tenth of what mail programs refuse.
  EXPECT_LT(bytes_of(PaperSize::a3).size(), 1'500'000u);
}

TEST(SheetPdf, SameLayoutSameBytes) { EXPECT_EQ(bytes_of(PaperSize::a3), bytes_of(PaperSize::a3)); }

/// Where poppler finds a word: its centre's x in millimetres of paper, once for every time it stands there.
std::vector<double> centres_mm(const std::string& path, const std::string& word) {
  const std::string boxes = run("pdftotext -bbox " + path + " -").output;
  std::vector<double> centres;
  const std::regex form(R"re(<word xMin="([^"]+)" yMin="[^"]+" xMax="([^"]+)" yMax="[^"]+">([^<]*)</word>)re");
  for (std::sregex_iterator w(boxes.begin(), boxes.end(), form), end; w != end; ++w)
    if ((*w)[3] == word) centres.push_back((std::stod((*w)[1]) + std::stod((*w)[2])) / 2 * 25.4 / 72);
  return centres;
}

/// Greatest extent along x of a curve of at least a hundred points drawn with a line of that width, by mupdf.
double longest_stroke_mm(const std::string& path, double width_mm) {
  const std::string trace = run("mutool trace " + path + " 1").output;
  // std::regex recurses for every character of a match, so it finds the head of a path and never its body.
  const std::regex stroke(R"re(<stroke_path linewidth="([^"]+)"[^>]*transform="([^ "]+)[^"]*">)re");
  const std::regex point(R"re(<(?:moveto|lineto) x="([^"]+)")re");
  double longest = 0;
  for (std::sregex_iterator s(trace.begin(), trace.end(), stroke), end; s != end; ++s) {
    const auto from = static_cast<std::size_t>(s->position() + s->length());
    const std::string body = trace.substr(from, trace.find("</stroke_path>", from) - from);
    if (std::abs(std::stod((*s)[1]) - width_mm) > 1e-6 || std::count(body.begin(), body.end(), '\n') < 100) continue;
    double low = 1e9, high = -1e9;
    for (std::sregex_iterator p(body.begin(), body.end(), point); p != end; ++p) {
      const double x = std::stod((*p)[1]) * std::stod((*s)[2]) * 25.4 / 72;
      low = std::min(low, x), high = std::max(high, x);
    }
    longest = std::max(longest, high - low);
  }
  return longest;
}

// The main line of the elevation, from where the view begins to the landing support, is the longest curve of its width.
// Tolerance: half of the last digit of a measure to 0.01 mm.
TEST(SheetPdf, TheMainLineMeasuresItsLengthAtTheScaleOfTheTitleBlock) {
  const Drawn drawn(PaperSize::a3);
  const Rig& rig = demo().judged.rig;
  const Point3 support = rig.layout.anchors[static_cast<std::size_t>(rig.layout.main_line.to)].position;
  const double metres = rig.frame.chainage_m(support) - views::scene_of(rig).from_m;
  EXPECT_GT(metres, rig.layout.brake_trolley.travel_m);
  const double measured = longest_stroke_mm(drawn.path(), extra_mm);
  EXPECT_NEAR(measured, 1000 * metres / 200, 0.005);
  EXPECT_GT(std::abs(measured - 1000 * metres / 202), 0.005) << "a scale one per cent off would not be seen";
}

TEST(SheetPdf, ChainageFiguresStandAsFarApartAsTheySay) {
  const Drawn drawn(PaperSize::a3, "general-arrangement");
  const double scale = view_named(one_sheet(demo()), "elevation").scale;
  const auto a = centres_mm(drawn.path(), "190"), b = centres_mm(drawn.path(), "215");
  ASSERT_EQ(a.size(), 1u);
  ASSERT_EQ(b.size(), 1u);
  // Three tabular digits each; poppler prints boxes to 1e-6 pt.
  EXPECT_NEAR(b[0] - a[0], 25 * 1000 / scale, 1e-3);
}

}  // namespace
}  // namespace fairlead::sheets
