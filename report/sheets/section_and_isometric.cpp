// What elevation and plan of the arrest end leave open: the section across the main line at the secondary anchor, and
// the whole from a corner above it.
#include <fmt/format.h>

#include <algorithm>

#include "report/drawing/place.hpp"
#include "report/drawing/symbols.hpp"
#include "report/sheets/arrangement_parts.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/sheets/section.hpp"
#include "report/sheets/site_axes.hpp"
#include "report/views/isometric.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using views::Facing;
using views::Scene;

namespace {

constexpr std::string_view document_type = "Arrangement drawing";
constexpr double gap_mm = 4;

bool applies(const Dossier& dossier) { return dossier.judged.rig.main_line.solved() != nullptr; }

/// At rest: where the rig runs to at full travel would lie on it.
Scene at_rest(const Rig& rig) {
  Scene scene = views::scene_of(rig);
  scene.full.reset();
  scene.ghosts.clear();
  scene.rider_at_contact.reset();
  return scene;
}

class IsometricFigure {
 public:
  IsometricFigure(const Scene& scene, const Style& style) : scene_(scene), style_(style) {}

  drawing::Size size(const Font& font, double scale) const {
    Drawing scratch;
    const View view = views::view_of(scene_, Facing::isometric, scale, {0, 0});
    const Canvas canvas(scratch, font);
    draw_rig(canvas, view);
    const Box drawn = bounds(scratch, font);
    const double heading_mm = canvas.width(name, title_cap_mm) + 3 + canvas.width(said(scale), note_cap_mm);
    return {std::max(heading_mm, drawn.width() + 2 * names_mm), title_mm + drawn.height() + 2 * names_mm};
  }

  /// Returns the key of its balloons, which are numbered behind those there are.
  std::vector<std::string> draw(const Canvas& canvas, const Box& box, double scale, std::size_t balloons) const {
    Drawing scratch;
    const View trial = views::view_of(scene_, Facing::isometric, scale, {0, 0});
    draw_rig(Canvas(scratch, canvas.font()), trial);
    const Box drawn = bounds(scratch, canvas.font());
    const Box room{box.left, box.bottom, box.right, box.top - title_mm};
    View view = trial;
    view.at = view.at + room.centre() - drawn.centre();
    canvas.drawing().views.push_back(view);

    canvas.text({box.left, box.top - title_cap_mm - 1}, name, title_cap_mm, Layer::text);
    canvas.text({box.left + canvas.width(name, title_cap_mm) + 3, box.top - title_cap_mm - 1}, said(scale), note_cap_mm,
                Layer::text);
    Drawing mine;
    draw_rig(Canvas(mine, canvas.font()), view);
    Obstacles obstacles(canvas.font());
    obstacles.add(mine);
    auto& entities = canvas.drawing().entities;
    entities.insert(entities.end(), mine.entities.begin(), mine.entities.end());
    place_axes(canvas, scene_, view, obstacles, room);
    return place(canvas, views::callouts(scene_, view, Facing::isometric, views::Naming::brief, style_), obstacles,
                 room, static_cast<int>(balloons) + 1);
  }

 private:
  static constexpr double title_mm = 9, names_mm = 10;
  static constexpr std::string_view name = "ISOMETRIC";
  static std::string said(double scale) {
    return fmt::format("1:{:g}, foreshortened to {:.2f} along, across and up", scale, views::isometric_foreshortening);
  }

  void draw_rig(const Canvas& canvas, const View& view) const {
    views::draw_ground(canvas, scene_, view, style_);
    views::draw_rig(canvas, scene_, view, Facing::isometric);
  }

  const Scene& scene_;
  const Style& style_;
};

/// How what is shown is meant.
Block notes(const Scene& scene, bool section, bool isometric, const Style& style) {
  const auto figure = [&](double metres) { return words::shown(metres, Dimension::length, style); };
  std::vector<Paragraph> all{{"–", "Do not scale. The rig at rest, lines and main line as they hang.", Layer::notes}};
  if (auto lines = not_drawn(scene); !lines.empty()) all.push_back({"–", std::move(lines), Layer::cautions});
  if (section)
    all.push_back(
        {"–",
         fmt::format(
             "Section: what stands within {} of the redirect along the main line. The rider as far as it was searched; "
             "widths to structures are as seen along the line, never more than what is left; the nearest gap under the "
             "redirect is dimensioned with the clearances.",
             figure(SectionFigure::reach_m)),
         Layer::notes});
  if (isometric)
    all.push_back(
        {"–",
         fmt::format("Isometric: dashed lines lead plumb from what is set out to a level as low as anything "
                     "shown, {}, and on it square to the main line. Chainages are read on the scale beside it.",
                     figure(views::ground_of(scene).level_m)),
         Layer::notes});
  all.push_back({"–", "Arrows at anchors give the direction of the governing load, not its size.", Layer::notes});
  all.push_back({"–", drawn_as_symbols(scene.rig->layout), Layer::notes});
  return block_of(Paragraphs("NOTES", std::move(all), {small_cap_mm, note_cap_mm}));
}

/// Where everything stands on a sheet, and at which scales.
struct Placed {
  Box section, isometric, notes;
  double section_scale{}, isometric_scale{};
};

/// The greatest scale at which a figure has room in a box.
template <class Figure>
std::optional<double> greatest_scale(const Figure& figure, const Font& font, const Box& box) {
  for (const double scale : arrangement_scales()) {
    const drawing::Size size = figure.size(font, scale);
    if (size.width_mm <= box.width() && size.height_mm <= box.height()) return scale;
  }
  return std::nullopt;
}

/// What lies left of the title block and below what stands above it.
Box beside_title_block(const Pages& pages) {
  return {pages.field().left, pages.field().bottom, pages.corner().left - gap_mm,
          pages.above_title_block().bottom - gap_mm};
}

/// Side by side or one above the other, as large as can be; none where one sheet has no room for both at scales that
/// can be read.
class Placer {
 public:
  Placer(const SectionFigure& section, const IsometricFigure& isometric, const Block& notes, const Font& font,
         const Pages& pages)
      : isometric_(isometric), notes_(notes), font_(font) {
    const Box field = pages.field(), above = pages.above_title_block();
    Drawing scratch;
    for (const double scale : arrangement_scales()) {
      const auto [width_mm, height_mm] = section.size(font, scale);
      if (width_mm > above.width() || height_mm > field.height()) continue;
      const double right = field.left + width_mm, under = above.top - height_mm;
      const Box top_left{field.left, under, right, field.top},
          after{right + gap_mm, above.bottom, above.right, above.top};
      if (!pages.upright()) {
        const Box column = pages.right_column();
        if (under >= above.bottom || right + gap_mm <= pages.corner().left)
          offer(scale, top_left, after,
                {field.left, field.bottom, pages.corner().left - gap_mm, std::min(under, above.bottom) - gap_mm});
        if (width_mm <= column.width())
          offer(scale, {column.left, under, column.right, column.top}, pages.left_column(),
                {column.left, column.bottom, column.right, under - gap_mm});
      }
      const double over = above.bottom + notes_.height(Canvas(scratch, font), above.width());
      offer(scale, {above.left, under, above.right, above.top},
            {above.left, over + gap_mm, above.right, under - gap_mm}, {above.left, above.bottom, above.right, over});
    }
  }
  const std::optional<Placed>& best() const { return best_; }

 private:
  void offer(double scale, const Box& of_section, const Box& of_isometric, const Box& of_notes) {
    Drawing scratch;
    const Canvas canvas(scratch, font_);
    constexpr double rounding_mm = 1e-6;
    constexpr double least_scale = 100;  // of a section whose dimensions can be read
    if (scale > least_scale || of_notes.width() < notes_.least_width(canvas) ||
        of_notes.height() + rounding_mm < notes_.height(canvas, of_notes.width()))
      return;
    const auto other = greatest_scale(isometric_, font_, of_isometric);
    if (other && legible(*other) && (!best_ || scale * *other < best_->section_scale * best_->isometric_scale))
      best_ = Placed{of_section, of_isometric, of_notes, scale, *other};
  }

  const IsometricFigure& isometric_;
  const Block& notes_;
  const Font& font_;
  std::optional<Placed> best_;
};

/// A figure on a sheet of its own, where one has room for it, its notes behind it.
template <class Figure>
void alone(const Figure& figure, const Block& notes, std::string title, const std::string& what, const Dossier& dossier,
           const Office& office, std::vector<Body>& out) {
  Drawing scratch;
  const Canvas canvas(scratch, office.font);
  // The notes beneath the figure.
  const auto room = [&](const Pages& on) {
    Box box = on.above_title_block();
    box.bottom += notes.height(canvas, box.width()) + gap_mm;
    return box;
  };
  Pages pages(dossier, office, out);
  const Box all = pages.above_title_block(), box = room(pages);
  const auto scale = greatest_scale(figure, office.font, box);
  Body body{std::move(title), document_type, scale ? "as shown" : "none", {}};
  if (!scale) {
    pages.begin(std::move(body), pages.columns());
    std::vector<std::string_view> sizes;
    for (Office other = office; const PaperSize size : paper_sizes) {
      other.paper = size;
      if (greatest_scale(figure, office.font, room(Pages(dossier, other, out)))) sizes.push_back(stationery(size).name);
    }
    pages.leave_out(what, sizes);
    return;
  }
  const auto key = figure.draw(Canvas(body.drawing, office.font), box, *scale, 0);
  std::vector<Box> free{{all.left, all.bottom, all.right, box.bottom - gap_mm}};
  if (!pages.upright()) free.push_back(beside_title_block(pages));
  pages.begin(std::move(body), std::move(free));
  pages.put(notes);
  if (!key.empty()) pages.put(balloons(key));
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Scene scene = at_rest(dossier.judged.rig);
  if (!scene.rest) return;
  const IsometricFigure isometric(scene, style);
  const auto section = SectionFigure::of(scene, style);
  Pages pages(dossier, office, out);
  const Block meant = notes(scene, true, true, style);
  const auto placed = section ? Placer(*section, isometric, meant, office.font, pages).best() : std::nullopt;
  if (!placed) {
    if (section)
      alone(*section, notes(scene, true, false, style), "Section at the secondary anchor",
            "The section at the secondary anchor", dossier, office, out);
    return alone(isometric, notes(scene, false, true, style), "Isometric of the arrest end", "The isometric", dossier,
                 office, out);
  }
  Body body{"Section and isometric of the arrest end", document_type, "as shown", {}};
  const Canvas canvas(body.drawing, office.font);
  auto key = section->draw(canvas, placed->section, placed->section_scale, 0);
  for (std::string& text : isometric.draw(canvas, placed->isometric, placed->isometric_scale, key.size()))
    key.push_back(std::move(text));
  pages.begin(std::move(body), {placed->notes});
  pages.put(meant);
  if (!key.empty()) pages.put(balloons(key));
}

}  // namespace

const SheetKind section_and_isometric_sheet{"section-and-isometric", applies, compose};

}  // namespace fairlead::sheets
