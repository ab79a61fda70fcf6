#include <fmt/format.h>

#include <memory>

#include "report/sheets/arrangement.hpp"
#include "report/sheets/furniture.hpp"
#include "report/sheets/list.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double scales[] = {20, 50, 100, 200, 500, 1000};  // of ISO 5455's series
constexpr double gap_mm = 3, most_slack_mm = 36;
constexpr std::string_view title = "General arrangement of the arrest end", document_type = "Arrangement drawing";

bool applies(const Dossier&) { return true; }

/// Where the lettering stands that is no part of a view: lists that find no room go onto sheets of their own.
enum class Lists { beside_views, elsewhere };

/// The corners of a sheet: the views at its upper left, the title block at its lower right, and the width between.
struct Places {
  Box field, corner;
  double left_mm{};
};

struct Try {
  const Dossier& dossier;
  const Style& style;
  const Office& office;
  const views::Scene& scene;
  Stationery paper;
  Places places;
  double scale{};
  Lists lists{};
  Saying least{};  ///< no less may be said of the findings
  Spacing spacing{};
  std::size_t kept_right{};  ///< of the lettering: table and findings stay together where there is a column for them
};

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
  if (t.lists == Lists::elsewhere) return {};
  return {setting_out_and_loads(t.dossier, t.style), findings_summary(t.dossier, t.style, how.findings),
          notes(t.dossier, t.style, t.scene, t.office, key, how.notes), cautions(how.cautions),
          not_looked_at(how.cautions)};
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
  const auto window = views::redirect_window(t.scene);
  if (!window) return std::nullopt;
  const Box &field = t.places.field, &corner = t.places.corner;
  const ViewGroup group(t.scene, t.style, t.paper, t.office.font, t.scale, t.spacing, window);
  Body body{title, document_type, {}, {}};
  const Canvas canvas(body.drawing, t.office.font);
  const double room = field.height() - group.height_mm() - gap_mm;
  const auto band = DetailBand::fit(t.scene, *window, canvas, t.places.left_mm, room, t.scale);
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

  auto key = group.draw(canvas, {field.left + (views_mm - group.width_mm()) / 2, field.top},
                        left->width() > 0 ? 0 : std::min(most_slack_mm, slack));
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
  const ViewGroup group(t.scene, t.style, t.paper, t.office.font, t.scale, t.spacing, std::nullopt);
  if (group.width_mm() > field.width() || group.height_mm() > field.height()) return std::nullopt;
  const bool narrow = group.width_mm() <= t.places.left_mm;
  const double width = narrow ? t.places.left_mm : field.width(), below = field.top - group.height_mm() - gap_mm;
  const Box left{field.left, field.bottom, field.left + t.places.left_mm, below};
  const Box right{corner.left, corner.top + gap_mm, field.right, narrow ? field.top : below};
  if (below < corner.top + gap_mm && !narrow) return std::nullopt;
  const std::vector<Block> more{legend(t.scene)};
  if (!best_left(t, {left}, right, more)) return std::nullopt;

  Body body{title, document_type, fmt::format("1:{:g}", t.scale), {}};
  const Canvas canvas(body.drawing, t.office.font);
  const auto key = group.draw(canvas, {field.left + (width - group.width_mm()) / 2, field.top}, 0);
  if (!letter(t, canvas, key, left, right, more)) return std::nullopt;
  return body;
}

/// The lists alone, across a whole sheet, as many sheets as they need.
void add_lists(const Dossier& dossier, const Style& style, const Office& office, const views::Scene& scene,
               const Places& places, std::vector<Body>& out) {
  const Block lists[] = {setting_out_and_loads(dossier, style), findings_summary(dossier, style, Saying::in_full),
                         notes(dossier, style, scene, office, {}, tight), cautions(large), not_looked_at(large)};
  const double bottom = places.corner.top + gap_mm;
  double y = bottom;
  for (const Block& block : lists) {
    Drawing scratch;
    const double height = block.height(Canvas(scratch, office.font), places.field.width());
    if (y - height < bottom) {
      out.push_back({"Setting out, anchor loads and findings", document_type, "none", {}});
      y = places.field.top;
    }
    block.draw(Canvas(out.back().drawing, office.font), {places.field.left, y}, places.field.width());
    y -= height + gap_mm;
  }
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const views::Scene scene = views::scene_of(dossier.judged.rig);
  const Stationery paper = stationery(office.paper);
  Places places{paper.field(), title_corner(paper, dossier.judged.rig.layout)};
  places.left_mm = places.corner.left - gap_mm - places.field.left;
  const auto at = [&](double scale, Lists lists, Saying least, Spacing spacing) {
    return Try{dossier, style, office, scene, paper, places, scale, lists, least, spacing};
  };
  // At each scale rather a closer drawing, or none of the detail, than findings without their numbers.
  const auto best_at = [&](double scale, Lists lists) {
    for (const Saying least : {Saying::in_full, Saying::faults_in_full, Saying::by_name}) {
      auto body = with_detail(at(scale, lists, least, Spacing::ample));
      if (!body) body = with_detail(at(scale, lists, least, Spacing::close));
      if (!body) body = without_detail(at(scale, lists, least, Spacing::ample));
      if (body) return body;
    }
    return std::optional<Body>{};
  };
  const auto best_to = [&](double coarsest, Lists lists) {
    for (const double scale : scales)
      if (scale <= coarsest)
        if (auto body = best_at(scale, lists)) return std::pair{scale, std::optional{std::move(*body)}};
    return std::pair{2 * coarsest, std::optional<Body>{}};
  };
  // Rather lists on a sheet of their own than views of less than half the size.
  auto [scale, body] = best_to(std::end(scales)[-1], Lists::beside_views);
  auto alone = best_to((scale - 1) / 2, Lists::elsewhere).second;
  const bool apart = alone || !body;
  if (alone) body = std::move(alone);
  if (body) out.push_back(std::move(*body));
  if (apart) add_lists(dossier, style, office, scene, places, out);
}

}  // namespace

const SheetKind general_arrangement{"general-arrangement", applies, compose};

}  // namespace fairlead::sheets
