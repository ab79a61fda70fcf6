// The main line from support to support: its long section, its tension, and where it drives a load by itself.
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <memory>

#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/main_line_marks.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

/// Also where it is not solved, for its tables then say why: a set without the sheet would not.
bool applies(const Dossier&) { return true; }

constexpr double title_mm = 8.5, gap_mm = 1.5;

/// Over a plot's area: its title, what it says beneath that, and the names of its curves.
double head_mm(const Canvas& canvas, const ChainagePlot& plot, double width_mm) {
  const Box none = plot_box({}), box{0, none.bottom, none.width(), none.top};
  return title_mm + note_cap_mm + gap_mm + more_names_mm(canvas, box, plot.curves, width_mm);
}

using Marker = std::function<std::vector<Callout>(const Canvas&, const Box&)>;

/// `mark`: draws into the plot and says what is to be named in it. What finds no room there is a balloon with its text
/// in the key.
Block plot_block(ChainagePlot of, double least_mm, Marker mark, std::vector<std::string>& key) {
  const auto plot = std::make_shared<const ChainagePlot>(std::move(of));
  const auto draw = [plot, mark, &key](const Canvas& canvas, Paper top_left, double width_mm) {
    canvas.text(top_left - Paper{0, title_cap_mm}, plot->title, title_cap_mm, Layer::text);
    canvas.text(top_left - Paper{0, title_mm + note_cap_mm / 2}, plot->says, note_cap_mm, Layer::text);
    const double right = top_left.x_mm + width_mm, top = top_left.y_mm - head_mm(canvas, *plot, width_mm);
    const double across_mm = plot->area.width_mm > 0 ? plot->area.width_mm + axes_width_mm() : width_mm;
    const Box box{top_left.x_mm, top - plot->area.height_mm - plot_box({}).height(), top_left.x_mm + across_mm, top};
    letter_behind(canvas, plot_area(box), plot->behind);
    const std::size_t before = canvas.drawing().entities.size();
    drawing::plot(canvas, box, plot->x, plot->y, plot->curves, right, plot->rules);
    const std::vector<Callout> names = mark(canvas, box);
    Obstacles obstacles(canvas.font());
    obstacles.add(canvas.drawing(), before);
    for (std::string& text :
         place(canvas, names, obstacles, plot_area(box).grown(-gap_mm / 2), static_cast<int>(key.size()) + 1))
      key.push_back(std::move(text));
  };
  return {[plot, least_mm](const Canvas& canvas) { return std::max(least_mm, canvas.width(plot->says, note_cap_mm)); },
          [plot](const Canvas& canvas, double width_mm) {
            return head_mm(canvas, *plot, width_mm) + plot->area.height_mm + plot_box({}).height();
          },
          draw, plot->title};
}

Block notes(const Dossier& dossier) {
  const Site& site = dossier.judged.rig.layout.site;
  return block_of(Paragraphs(
      "NOTES",
      {{"–",
        fmt::format("Level: the site's {} ({}). Lengths in plan along the main line.", site.axes[2],
                    site.datum ? site.datum->value : "datum not stated"),
        Layer::notes},
       {"–",
        "Every curve is calculated from what the layout gives of the line; nothing was measured as drawn. Thin: the "
        "highest of all states that temperature and the layout's ranges leave open; wide: the lowest. The tables have "
        "every state.",
        Layer::notes},
       {"–",
        "Loaded curves: the wheel of a load that is alone on the line and rolls slowly, without the braking line's "
        "pull. The empty trolley is the brake trolley alone; a rider hangs with rider trolley and brake trolley.",
        Layer::notes},
       {"–",
        "A load left alone comes to rest where its drive falls through zero; resistance may hold it before. Where "
        "the drive beyond the rest mark is positive, the main line by itself does not bring the load back to it.",
        Layer::notes},
       {"–", "Heights over ground and structures: see Clearances. Strength of the line and of its ends: see Schedules.",
        Layer::notes},
       {"–", "Calculation aid, not an approval.", Layer::notes}},
      {small_cap_mm}));
}

void put_tables(Pages& pages, const Dossier& dossier, const Style& style) {
  for (const Table& table : {tables::main_line_bare(dossier), tables::main_line_loaded(dossier),
                             tables::main_line_levels(dossier, style), tables::stringing(dossier)})
    if (!table.rows.empty() || !table.notes.empty()) pages.put(table, style);
}

constexpr double tension_mm = 40;  // usual height of its plot
/// How high the plot beneath the section is: as much as a column leaves for it, within what can be read.
double fitted_mm(const Font& font, const Block& section, const Block& usual, const Box& column) {
  constexpr double least_mm = 25, most_mm = 60, between_mm = 5;
  Drawing scratch;
  const Canvas canvas(scratch, font);
  const double left_mm = column.height() - section.height(canvas, column.width()) - between_mm -
                         usual.height(canvas, column.width()) + tension_mm;
  return left_mm >= least_mm ? std::min(left_mm, most_mm) : tension_mm;
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  const Rig& rig = dossier.judged.rig;
  Pages pages(dossier, office, out);
  if (!rig.main_line.solved()) {
    pages.begin({"Main line", "Main line drawing", "none", {}}, pages.columns());
    put_tables(pages, dossier, style);
    return;
  }
  const Box above = pages.above_title_block();
  const ChainagePlot section = long_section(rig, style, {above.width(), above.height()});
  const double section_mm = section.area.width_mm + axes_width_mm();
  // What is left beside the section holds what follows it.
  constexpr double beside_mm = 6, least_mm = 110;
  Box left = above, right = above;
  right.left += section_mm + beside_mm;
  std::vector<Box> free{left, pages.columns().back()};
  if (right.width() >= least_mm) {
    free.front().right = left.left + section_mm;
    free.insert(free.begin() + 1, right);
  }
  pages.begin({"Main line", "Main line drawing", "as shown", {}}, free);

  std::vector<std::string> key;
  const Block at_top = plot_block(
      section, section_mm,
      [&](const Canvas& canvas, const Box& box) { return mark_long_section(canvas, box, section, rig, style); }, key);
  const auto beneath = [&](double height_mm) {
    return plot_block(
        tension_plot(rig, style, section, height_mm), section_mm,
        [](const Canvas&, const Box&) { return std::vector<Callout>{}; }, key);
  };
  pages.put(at_top);
  const auto put_key = [&] {
    if (!key.empty()) pages.put(balloons(key));
  };
  // On an upright sheet what follows the section may stand on the next one.
  if (pages.upright()) put_key();
  const std::size_t told = pages.upright() ? key.size() : 0;
  pages.put(beneath(fitted_mm(office.font, at_top, beneath(tension_mm), free.front())));
  const ChainagePlot drive = drive_plot(rig, style);
  pages.put(plot_block(
      drive, least_mm,
      [&](const Canvas& canvas, const Box& box) { return mark_drives(canvas, box, drive, rig, style); }, key));
  if (key.size() > told) put_key();
  pages.put(notes(dossier));
  put_tables(pages, dossier, style);
}

}  // namespace

const SheetKind main_line_sheet{"main-line", applies, compose};

}  // namespace fairlead::sheets
