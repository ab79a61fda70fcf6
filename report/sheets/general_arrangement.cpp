#include <fmt/format.h>

#include "report/sheets/arrangement.hpp"
#include "report/sheets/furniture.hpp"
#include "report/sheets/list.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double scales[] = {20, 50, 100, 200, 500, 1000};  // of ISO 5455's series
constexpr double gap_mm = 5, most_slack_mm = 36;
constexpr std::string_view title = "General arrangement of the arrest end", document_type = "Arrangement drawing";

bool applies(const Dossier&) { return true; }

/// What stands on the sheet beside its views. Lists that find no room go onto a sheet of their own.
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
};

/// How much is said and how large.
struct Lettering {
  Saying findings;
  double note_cap_mm, caution_cap_mm;
};
constexpr Lettering letterings[] = {{Saying::in_full, note_cap_mm, note_cap_mm},
                                    {Saying::in_full, note_cap_mm, small_cap_mm},
                                    {Saying::in_full, small_cap_mm, small_cap_mm},
                                    {Saying::by_name, small_cap_mm, small_cap_mm}};

std::vector<Block> blocks_of(const Try& t, const std::vector<std::string>& key, const Lettering& how) {
  std::vector<Block> blocks;
  if (t.lists == Lists::beside_views)
    blocks = {setting_out_and_loads(t.dossier, t.style), findings_summary(t.dossier, t.style, how.findings)};
  blocks.push_back(notes(t.dossier, t.style, t.scene, t.paper, key, how.note_cap_mm));
  blocks.push_back(cautions(how.caution_cap_mm));
  return blocks;
}

/// Fills the two columns with as much lettering, as large, as will fit; false where even the least does not.
bool letter(const Try& t, const Canvas& canvas, const std::vector<std::string>& key, const Box& left, const Box& right,
            bool legend_too) {
  for (const Lettering& how : letterings) {
    auto blocks = blocks_of(t, key, how);
    if (legend_too) blocks.push_back(legend(t.scene));
    Region a{left, {}}, b{right, {}};
    if (!share(canvas, blocks, a, b)) continue;
    sheets::draw(canvas, a);
    sheets::draw(canvas, b);
    return true;
  }
  return false;
}

/// Views in the left column over their enlarged detail, lettering in the right one.
std::optional<Body> with_detail(const Try& t) {
  const auto window = views::redirect_window(t.scene);
  if (!window) return std::nullopt;
  const Box& field = t.places.field;
  const ViewGroup group(t.scene, t.style, t.paper, t.office.font, t.scale, window);
  Body body{title, document_type, {}, {}};
  const Canvas canvas(body.drawing, t.office.font);
  const double room = field.height() - group.height_mm() - gap_mm;
  if (group.width_mm() > t.places.left_mm) return std::nullopt;
  const auto band = DetailBand::fit(t.scene, *window, canvas, t.places.left_mm, room, t.scale);
  if (!band) return std::nullopt;
  auto key = group.draw(canvas, {field.left + (t.places.left_mm - group.width_mm()) / 2, field.top},
                        std::min(most_slack_mm, room - band->height_mm()));
  for (std::string& text : band->draw(canvas, t.style, {field.left, field.bottom + band->height_mm()}, t.places.left_mm,
                                      static_cast<int>(key.size()) + 1))
    key.push_back(std::move(text));
  const Box right{t.places.corner.left, t.places.corner.top + gap_mm, field.right, field.top};
  if (!letter(t, canvas, key, {field.left, 0, field.left + t.places.left_mm, 0}, right, false)) return std::nullopt;
  body.scale = fmt::format("1:{:g} (1:{:g})", t.scale, band->scale());
  return body;
}

/// Views across the sheet or in the left column, lettering wherever they leave room.
std::optional<Body> without_detail(const Try& t) {
  const Box &field = t.places.field, &corner = t.places.corner;
  const ViewGroup group(t.scene, t.style, t.paper, t.office.font, t.scale, std::nullopt);
  if (group.width_mm() > field.width() || group.height_mm() > field.height()) return std::nullopt;
  const bool narrow = group.width_mm() <= t.places.left_mm;
  const double width = narrow ? t.places.left_mm : field.width(), below = field.top - group.height_mm() - gap_mm;
  Body body{title, document_type, fmt::format("1:{:g}", t.scale), {}};
  const Canvas canvas(body.drawing, t.office.font);
  const auto key = group.draw(canvas, {field.left + (width - group.width_mm()) / 2, field.top}, 0);
  const Box left{field.left, field.bottom, field.left + t.places.left_mm, below};
  const Box right{corner.left, corner.top + gap_mm, field.right, narrow ? field.top : below};
  if (!letter(t, canvas, key, left, right, true)) return std::nullopt;
  return body;
}

/// The lists alone, across a whole sheet, as many sheets as they need.
void add_lists(const Dossier& dossier, const Style& style, const Office& office, const Places& places,
               std::vector<Body>& out) {
  const Block lists[] = {setting_out_and_loads(dossier, style), findings_summary(dossier, style, Saying::in_full)};
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
  for (const Lists lists : {Lists::beside_views, Lists::elsewhere})
    for (const double scale : scales) {
      const Try t{dossier, style, office, scene, paper, places, scale, lists};
      auto body = with_detail(t);
      if (!body) body = without_detail(t);
      if (!body) continue;
      out.push_back(std::move(*body));
      if (lists == Lists::elsewhere) add_lists(dossier, style, office, places, out);
      return;
    }
}

}  // namespace

const SheetKind general_arrangement{"general-arrangement", applies, compose};

}  // namespace fairlead::sheets
