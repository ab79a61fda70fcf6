#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>

#include "report/drawing/overlap.hpp"
#include "report/sheets/arrangement.hpp"
#include "report/sheets/arrangement_parts.hpp"
#include "report/sheets/furniture.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double scales[] = {20, 50, 100, 200, 500, 1000};  // of ISO 5455's series
constexpr double gap_mm = 3, most_slack_mm = 36;
constexpr const char* title = "General arrangement of the arrest end";
constexpr std::string_view document_type = "Arrangement drawing";

bool applies(const Dossier&) { return true; }

/// Which lettering stands beside the views: all of it; all but cautions; the findings and notes; nothing but the key of
/// the balloons. What finds no room there goes onto sheets of its own.
enum class Lists { beside_views, cautions_elsewhere, table_elsewhere, elsewhere };

/// The corners of a sheet: the views at its upper left, the title block at its lower right, and the width between.
struct Places {
  Box field, corner;
  double left_mm{};

  /// The title block takes all the width, and the legend finds no room either.
  bool upright() const { return left_mm <= 0; }
};

/// Views as they were drawn, for the placing of their names takes the time and other lettering beside them leaves them
/// as they are.
struct DrawnViews {
  double scale{};
  Spacing spacing{};
  bool with_detail{};
  Paper top_left;
  double slack_mm{};
  Drawing drawing;
  std::vector<std::string> key;
};

/// A scene with the views of it drawn so far.
struct Shown {
  views::Scene scene;
  std::vector<DrawnViews> drawn;
};

struct Try {
  const Dossier& dossier;
  const Style& style;
  const Office& office;
  Shown& shown;
  Stationery paper;
  Places places;
  double scale{};
  Lists lists{};
  Saying least{};  ///< no less may be said of the findings
  Spacing spacing{};
  std::size_t kept_right{};  ///< of the lettering: table and findings stay together where there is a column for them
};

const DrawnViews& draw_views(const Try& t, const ViewGroup& group, bool with_detail, Paper top_left, double slack_mm) {
  auto& drawn = t.shown.drawn;
  const auto same = std::find_if(drawn.begin(), drawn.end(), [&](const DrawnViews& d) {
    return d.scale == t.scale && d.spacing == t.spacing && d.with_detail == with_detail && d.top_left == top_left &&
           d.slack_mm == slack_mm;
  });
  if (same != drawn.end()) return *same;
  DrawnViews& views = drawn.emplace_back(DrawnViews{t.scale, t.spacing, with_detail, top_left, slack_mm, {}, {}});
  views.key = group.draw(Canvas(views.drawing, t.office.font), top_left, slack_mm);
  return views;
}

/// How much is said and how large.
struct Lettering {
  Saying findings;
  Typography notes, cautions;
};
constexpr Typography large{note_cap_mm, note_cap_mm}, small{small_cap_mm, note_cap_mm},
    tight{small_cap_mm, note_cap_mm, 2};
constexpr Lettering letterings[] = {{Saying::in_full, large, large},        {Saying::in_full, large, small},
                                    {Saying::in_full, large, tight},        {Saying::in_full, small, tight},
                                    {Saying::in_full, tight, tight},        {Saying::faults_in_full, small, tight},
                                    {Saying::faults_in_full, tight, tight}, {Saying::by_name, tight, tight}};

std::vector<Block> blocks_of(const Try& t, const std::vector<std::string>& key, const Lettering& how) {
  if (t.lists == Lists::elsewhere) return key.empty() ? std::vector<Block>{} : std::vector{balloons(key)};
  std::vector<Block> blocks;
  if (t.lists < Lists::table_elsewhere) blocks.push_back(setting_out_and_loads(t.dossier, t.style));
  blocks.push_back(findings_summary(t.dossier, t.style, how.findings));
  blocks.push_back(notes(t.dossier, t.style, t.shown.scene, t.office, key, how.notes));
  if (t.lists == Lists::beside_views) {
    blocks.push_back(cautions(how.cautions));
    blocks.push_back(not_looked_at(how.cautions));
  }
  return blocks;
}

/// Two regions filled with lettering.
struct Lettered {
  std::vector<Block> blocks;
  Region left, right;
};

/// As much lettering, as large, as fits two regions; none where even the least does not. `more` goes with it.
std::unique_ptr<Lettered> fitting(const Try& t, const Canvas& canvas, const std::vector<std::string>& key,
                                  const Lettering& how, const Box& left, const Box& right,
                                  const std::vector<Block>& more) {
  auto lettered = std::make_unique<Lettered>(Lettered{blocks_of(t, key, how), {left, {}}, {right, {}}});
  lettered->blocks.insert(lettered->blocks.end(), more.begin(), more.end());
  if (!share(canvas, lettered->blocks, lettered->left, lettered->right, t.kept_right)) return nullptr;
  return lettered;
}

/// Fills the regions with the first lettering that fits; false where none does.
bool letter(const Try& t, const Canvas& canvas, const std::vector<std::string>& key, const Box& left, const Box& right,
            const std::vector<Block>& more = {}) {
  for (const Lettering& how : letterings) {
    if (how.findings > t.least) break;
    const auto fits = fitting(t, canvas, key, how, left, right, more);
    if (!fits) continue;
    sheets::draw(canvas, fits->left);
    sheets::draw(canvas, fits->right);
    return true;
  }
  return false;
}

/// The first of several left regions in which the largest lettering that can fit at all fits. Asked before the names
/// in the views are placed, which takes the time; their key may still want room, and then the lettering gets smaller.
std::optional<Box> best_left(const Try& t, const std::vector<Box>& lefts, const Box& right,
                             const std::vector<Block>& more = {}) {
  Drawing scratch;
  const Canvas canvas(scratch, t.office.font);
  for (const Lettering& how : letterings) {
    if (how.findings > t.least) break;
    for (const Box& left : lefts)
      if (fitting(t, canvas, {}, how, left, right, more)) return left;
  }
  return std::nullopt;
}

/// Views over their enlarged detail at the left, lettering at the right above the title block. The views may be wider
/// than what stands beside the title block; the lettering then makes room.
std::optional<Body> with_detail(Try t) {
  t.kept_right = 2;
  const auto window = views::redirect_window(t.shown.scene);
  if (!window) return std::nullopt;
  const Box &field = t.places.field, &corner = t.places.corner;
  const ViewGroup group(t.shown.scene, t.style, t.paper, t.office.font, t.scale, t.spacing, window);
  Body body{title, document_type, {}, {}};
  const Canvas canvas(body.drawing, t.office.font);
  const double room = field.height() - group.height_mm() - gap_mm;
  const auto band = DetailBand::fit(t.shown.scene, *window, canvas, t.places.left_mm, room, t.scale);
  if (!band) return std::nullopt;
  const double views_mm = std::max(t.places.left_mm, group.width_mm()), slack = room - band->height_mm();
  if (field.left + views_mm > field.right) return std::nullopt;
  const Box right{std::max(corner.left, field.left + views_mm + gap_mm), corner.top + gap_mm, field.right, field.top};
  // What the views can spare between them and the detail serves the lettering only if it needs it.
  const double band_top = field.bottom + band->height_mm() + gap_mm;
  const Box none{field.left, band_top, field.left, band_top};
  const Box strip{field.left, band_top, field.left + t.places.left_mm, field.top - group.height_mm() - gap_mm};
  const auto left = best_left(t, {none, strip}, right);
  if (!left) return std::nullopt;

  const DrawnViews& drawn = draw_views(t, group, true, {field.left + (views_mm - group.width_mm()) / 2, field.top},
                                       left->width() > 0 ? 0 : std::min(most_slack_mm, slack));
  body.drawing = drawn.drawing;
  auto key = drawn.key;
  for (std::string& text : band->draw(canvas, t.style, {field.left, field.bottom + band->height_mm()}, t.places.left_mm,
                                      static_cast<int>(key.size()) + 1))
    key.push_back(std::move(text));
  if (!letter(t, canvas, key, *left, right)) return std::nullopt;
  body.scale = fmt::format("1:{:g} (1:{:g})", t.scale, band->scale());
  return body;
}

/// Views across the sheet or in the left column, lettering wherever they leave room.
std::optional<Body> without_detail(const Try& t) {
  const Box &field = t.places.field, &corner = t.places.corner;
  const ViewGroup group(t.shown.scene, t.style, t.paper, t.office.font, t.scale, t.spacing, std::nullopt);
  if (group.width_mm() > field.width() || group.height_mm() > field.height()) return std::nullopt;
  const bool narrow = group.width_mm() <= t.places.left_mm;
  const double width = narrow ? t.places.left_mm : field.width(), below = field.top - group.height_mm() - gap_mm;
  const Box left{field.left, field.bottom, field.left + t.places.left_mm, below};
  const Box right{std::max(corner.left, field.left), corner.top + gap_mm, field.right, narrow ? field.top : below};
  if (below < corner.top + gap_mm && !narrow) return std::nullopt;
  std::vector<Block> more;
  if (!t.places.upright()) more.push_back(legend(t.shown.scene));
  if (!best_left(t, {left}, right, more)) return std::nullopt;

  const DrawnViews& drawn = draw_views(t, group, false, {field.left + (width - group.width_mm()) / 2, field.top}, 0);
  Body body{title, document_type, fmt::format("1:{:g}", t.scale), drawn.drawing};
  if (!letter(t, Canvas(body.drawing, t.office.font), drawn.key, left, right, more)) return std::nullopt;
  // So small a view may leave its names no place at all.
  if (t.places.upright() && !faults(body.drawing, t.office.font, t.paper.frame).empty()) return std::nullopt;
  return body;
}

/// What a sheet behind the arrangement holds of what did not find room beside it.
struct Holds {
  bool table{}, findings{}, cautions{};

  bool any() const { return table || findings || cautions; }
  std::string_view title() const {
    if (table && findings)
      return cautions ? "Setting out, loads, findings and cautions" : "Setting out, loads and findings";
    if (table) return cautions ? "Setting out, anchor loads and cautions" : "Setting out and anchor loads";
    if (findings) return cautions ? "Findings, notes and cautions" : "Findings and notes";
    return "Cautions";
  }
};

/// The lists that found no room, in columns, as many sheets as they need; each is called by what stands on it. sizes:
/// where the views find none either, the sheets on which they do.
std::vector<Body> lists_of(const Dossier& dossier, const Style& style, const Office& office, const views::Scene& scene,
                           Lists beside, const std::vector<std::string_view>* sizes_with_views = nullptr) {
  std::vector<Body> sheets;
  std::vector<Holds> held;
  Pages pages(dossier, office, sheets);
  pages.begin({"Cautions", document_type, "none", {}}, pages.columns());
  const auto put = [&](const Block& block, bool Holds::*what) {
    const std::size_t before = sheets.size();
    pages.put(block);
    held.resize(sheets.size());
    held.back().*what = true;
    for (std::size_t i = before; i < sheets.size(); ++i) held[i].*what = true;
  };
  if (beside >= Lists::table_elsewhere) put(setting_out_and_loads(dossier, style), &Holds::table);
  if (sizes_with_views) pages.leave_out("The general arrangement", *sizes_with_views);
  if (beside == Lists::elsewhere) {
    put(findings_summary(dossier, style, Saying::in_full), &Holds::findings);
    if (pages.upright()) put(legend(scene), &Holds::findings);
    put(notes(dossier, style, scene, office, {}, tight), &Holds::findings);
  }
  put(cautions(large), &Holds::cautions);
  put(not_looked_at(large), &Holds::cautions);
  for (std::size_t i = 0; i < sheets.size(); ++i) sheets[i].title = held[i].title();
  // Of a first sheet in columns that the first list was too wide for nothing is left.
  if (!held.front().any()) sheets.erase(sheets.begin());
  return sheets;
}

/// A sheet and how it came about.
struct Arranged {
  Body body;
  double scale{};
  Lists lists{};
};

/// Sets out one scene, at any of the scales.
class Arranger {
 public:
  Arranger(const Dossier& dossier, const Style& style, const Office& office, const Places& places)
      : dossier_(dossier), style_(style), office_(office), places_(places), paper_(stationery(office)) {}

  /// At a scale rather a closer drawing, or none of the detail, than findings without their numbers.
  std::optional<Arranged> at(Shown& shown, double scale, Lists lists) const {
    for (const Saying least : {Saying::in_full, Saying::faults_in_full, Saying::by_name})
      if (auto body = saying(shown, scale, lists, least)) return Arranged{std::move(*body), scale, lists};
    return std::nullopt;
  }
  /// At the greatest scale there is, down to the coarsest.
  std::optional<Arranged> best(Shown& shown, double coarsest, Lists lists) const {
    for (const double scale : scales)
      if (scale <= coarsest && (!office_.scale || scale == *office_.scale))
        if (auto arranged = at(shown, scale, lists)) return arranged;
    return std::nullopt;
  }
  /// The same scene at the same scales with as much beside it as there is room for.
  std::optional<Arranged> fuller(const Arranged& one, Shown& shown) const {
    for (const Lists lists : {Lists::cautions_elsewhere, Lists::table_elsewhere})
      if (auto arranged = at(shown, one.scale, lists); arranged && arranged->body.scale == one.body.scale)
        return arranged;
    return std::nullopt;
  }

  /// The office with the titles of the sheets of lists in its index.
  Office with_lists(const views::Scene& scene, Lists lists) const {
    Office office = office_;
    if (lists == Lists::beside_views) return office;
    auto& titles = titles_[static_cast<std::size_t>(lists)];
    if (titles.empty())
      for (const Body& body : lists_of(dossier_, style_, office_, scene, lists)) titles.push_back(body.title);
    office.more.insert(office.more.begin(), titles.begin(), titles.end());
    return office;
  }

 private:
  std::optional<Body> saying(Shown& shown, double scale, Lists lists, Saying least) const {
    const Office office = with_lists(shown.scene, lists);
    const auto spaced = [&](Spacing spacing) {
      return Try{dossier_, style_, office, shown, paper_, places_, scale, lists, least, spacing};
    };
    auto body = with_detail(spaced(Spacing::ample));
    if (!body) body = with_detail(spaced(Spacing::close));
    if (!body) body = without_detail(spaced(Spacing::ample));
    return body;
  }

  const Dossier& dossier_;
  const Style& style_;
  const Office& office_;
  const Places& places_;
  Stationery paper_;
  mutable std::array<std::vector<std::string>, 4> titles_;  ///< by what stands beside the views; empty: not asked yet
};

Places places_of(const Office& office, const Layout& layout) {
  const Stationery paper = stationery(office);
  Places places{paper.field(), title_corner(paper, layout)};
  places.left_mm = places.corner.left - gap_mm - places.field.left;
  return places;
}

/// The sheets on which the views find room.
std::vector<std::string_view> sizes_with_room(const Dossier& dossier, const Style& style, const Office& office) {
  std::vector<std::string_view> sizes;
  for (Office other = office; const PaperSize size : paper_sizes) {
    other.paper = size;
    const Places places = places_of(other, dossier.judged.rig.layout);
    Shown shown{views::scene_of(dossier.judged.rig), {}};
    if (Arranger(dossier, style, other, places).best(shown, std::end(scales)[-1], Lists::elsewhere) ||
        arrangement_in_parts(style, other, places.corner, dossier.judged.rig, scales, 1))
      sizes.push_back(stationery(size).name);
  }
  return sizes;
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  Shown shown{views::scene_of(rig), {}};
  const Places places = places_of(office, rig.layout);
  const Arranger arranger(dossier, style, office, places);
  // Rather lists on a sheet of their own than views of less than half the size.
  auto best = arranger.best(shown, std::end(scales)[-1], Lists::beside_views);
  const double coarsest = !best ? std::end(scales)[-1] : legible(best->scale) ? (best->scale - 1) / 2 : best->scale - 1;
  if (auto alone = arranger.best(shown, coarsest, Lists::elsewhere)) best = std::move(alone);
  // Rather in parts than too small to be read, or at another scale than the one asked for.
  if (!best || (!legible(best->scale) && !office.scale))
    if (auto parts = arrangement_in_parts(style, office, places.corner, rig, scales, out.size() + 1)) {
      Office listed = arranger.with_lists(parts->scene, Lists::elsewhere);
      std::vector<std::string> titles;
      for (std::size_t i = 1; i < parts->sheets.size(); ++i) titles.push_back(parts->sheets[i].title);
      listed.more.insert(listed.more.begin(), titles.begin(), titles.end());
      const std::string first = parts->sheets.front().title;
      listed.first = first;
      std::move(parts->sheets.begin(), parts->sheets.end(), std::back_inserter(out));
      for (Body& body : lists_of(dossier, style, listed, parts->scene, Lists::elsewhere))
        out.push_back(std::move(body));
      return;
    }
  // Far ends are shown as far as that scale bears it.
  for (const views::MemberReach reach : views::member_reaches(rig)) {
    if (!best) break;
    Shown wider{views::scene_of(rig, reach), {}};
    auto arranged = arranger.at(wider, best->scale, Lists::elsewhere);
    if (best->lists == Lists::beside_views)
      if (auto whole = arranger.at(wider, best->scale, best->lists)) arranged = std::move(whole);
    if (!arranged) continue;
    best = std::move(arranged);
    shown = std::move(wider);
    break;
  }
  if (best && best->lists == Lists::elsewhere)
    if (auto fuller = arranger.fuller(*best, shown)) best = std::move(fuller);
  const Lists lists = best ? best->lists : Lists::elsewhere;
  if (best) out.push_back(std::move(best->body));
  if (lists == Lists::beside_views) return;
  const auto sizes = best ? std::vector<std::string_view>{} : sizes_with_room(dossier, style, office);
  Office listed = arranger.with_lists(shown.scene, lists);
  if (best && lists == Lists::elsewhere) listed.first = title;
  for (Body& body : lists_of(dossier, style, listed, shown.scene, lists, best ? nullptr : &sizes))
    out.push_back(std::move(body));
}

}  // namespace

std::span<const double> arrangement_scales() { return scales; }

const SheetKind general_arrangement{"general-arrangement", applies, compose};

}  // namespace fairlead::sheets
