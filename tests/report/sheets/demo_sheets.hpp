// The demo rig as it is, as it cannot be solved, and as it fails; and what a sheet says.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>

#include "report/drawing/overlap.hpp"
#include "report/sheets/sheet.hpp"
#include "tests/demo_layout.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead::sheets {

inline const drawing::Font& font() {
  static const drawing::Font opened = drawing::Font::open().value();
  return opened;
}

inline Dossier judged(const std::vector<Override>& overrides) {
  Dossier dossier;
  dossier.judged = judge(demo_layout(overrides));
  return dossier;
}
inline const Dossier& demo() {
  static const Dossier dossier = judged({});
  return dossier;
}
/// A brake trolley so light that its line lifts it off the main line.
inline const Dossier& unsolved() {
  static const Dossier dossier = judged({{"brake_trolley.mass", "0.5 kg"}});
  return dossier;
}
/// Nothing that a layout may leave out is in it.
inline const Dossier& sparse() {
  static const Dossier dossier = [] {
    Layout layout = demo_layout();
    layout.landing.reset();
    layout.backup_brake.reset();
    layout.riders.envelope.reset();
    layout.site.datum.reset();
    layout.project.date.reset();
    layout.project.creator.reset();
    layout.project.checker.reset();
    layout.project.history.clear();
    layout.limits = {};
    Dossier made;
    made.judged = judge(layout);
    return made;
  }();
  return dossier;
}
/// Wrong in several ways at once: limits no rig meets.
inline const Dossier& failing() {
  static const Dossier dossier = judged({{"limits.fleet_angle", "{ at = \"0.001 deg\", basis = \"none\" }"},
                                         {"limits.anchor_utilisation", "{ at = \"1 %\", basis = \"none\" }"},
                                         {"limits.extension_reserve", "{ at = \"9 m\", basis = \"none\" }"}});
  return dossier;
}

/// A shipped layout, judged once for all tests of the program.
inline const Dossier& shipped_dossier(const std::string& file) {
  static std::map<std::string, Dossier> all;
  const auto [at, made] = all.try_emplace(file);
  if (made) at->second.judged = judge(shipped_layout(file));
  return at->second;
}

/// The whole set of a dossier that lives as long as the program, drawn once.
inline const std::vector<drawing::Sheet>& set_of(const Dossier& kept, PaperSize paper = PaperSize::a3,
                                                 Units units = Style{}.units) {
  static std::map<std::tuple<const Dossier*, PaperSize, Units>, std::vector<drawing::Sheet>> all;
  const auto [at, made] = all.try_emplace({&kept, paper, units});
  if (made) at->second = compose(kept, Style{units}, {font(), paper});
  return at->second;
}

/// The general arrangement, which then is the only sheet of its set.
inline drawing::Sheet one_sheet(const Dossier& dossier, PaperSize paper = PaperSize::a3,
                                std::string_view kind = "general-arrangement") {
  auto set = compose(dossier, Style{}, {font(), paper}, kind);
  if (set.empty()) throw std::runtime_error("no such sheet");
  return std::move(set.front());
}

inline const drawing::View& view_named(const drawing::Sheet& sheet, const std::string& name) {
  for (const drawing::View& view : sheet.drawing.views)
    if (view.name == name) return view;
  throw std::runtime_error("no view " + name);
}

/// True where one label is this text.
inline bool says(const drawing::Sheet& sheet, const std::string& text) {
  return std::any_of(sheet.drawing.entities.begin(), sheet.drawing.entities.end(), [&](const auto& entity) {
    const auto* label = std::get_if<drawing::Label>(&entity);
    return label && label->text == text;
  });
}

/// All of a sheet's labels in the order they were set, joined by blanks: wrapped text reads on in it.
inline std::string everything(const drawing::Sheet& sheet) {
  std::string all;
  for (const auto& entity : sheet.drawing.entities)
    if (const auto* label = std::get_if<drawing::Label>(&entity)) all += label->text + ' ';
  return all;
}

/// What leaves the frame: texts, and the layers of strokes. The title block stands on it.
inline std::vector<std::string> outside_frame(const drawing::Sheet& sheet, PaperSize paper) {
  using namespace drawing;
  const Box frame = stationery(paper).frame;
  std::vector<std::string> outside;
  for (const auto& entity : sheet.drawing.entities) {
    const auto* label = std::get_if<Label>(&entity);
    const auto* stroke = std::get_if<Stroke>(&entity);
    if ((label ? label->layer : stroke->pen.layer) == Layer::title_block) continue;
    if (!frame.contains(label ? bounds(text_quad(*label, font())) : bounds(stroke->path)))
      outside.push_back(label ? label->text : std::string(layer_name(stroke->pen.layer)));
  }
  return outside;
}

/// The centring marks as far as they lie inside the frame: the frame's own strokes that are not its line.
inline std::vector<drawing::Box> centring_marks(const drawing::Sheet& sheet, const drawing::Box& frame) {
  using namespace drawing;
  std::vector<Box> all;
  for (const auto& entity : sheet.drawing.entities) {
    const auto* stroke = std::get_if<Stroke>(&entity);
    if (!stroke || stroke->pen.layer != Layer::title_block || stroke->pen.width_mm != extra_mm || stroke->closed)
      continue;
    const Box ends = bounds(stroke->path);
    const double across = ends.width() > 0 ? 0 : extra_mm / 2, along = extra_mm / 2 - across;
    const Box ink{std::max(ends.left - across, frame.left), std::max(ends.bottom - along, frame.bottom),
                  std::min(ends.right + across, frame.right), std::min(ends.top + along, frame.top)};
    if (ink.width() > 0 && ink.height() > 0) all.push_back(ink);
  }
  return all;
}

/// What comes nearer to a centring mark than the mark is wide: texts, with what rises above their capitals, and the
/// layers of strokes. The frame is its own.
inline std::vector<std::string> near_centring_marks(const drawing::Sheet& sheet, const drawing::Box& frame) {
  using namespace drawing;
  constexpr double ascenders = 0.05;  // of the cap height: 1556 - 1493 of 1493 (source FONT)
  std::vector<std::string> near;
  for (const Box& mark : centring_marks(sheet, frame))
    for (const auto& entity : sheet.drawing.entities) {
      if (const auto* label = std::get_if<Label>(&entity)) {
        if (overlap(text_quad(*label, font(), ascenders * label->cap_mm), quad(mark.grown(extra_mm))))
          near.push_back(label->text);
        continue;
      }
      const auto& stroke = std::get<Stroke>(entity);
      const bool of_frame = stroke.pen.width_mm == extra_mm || !frame.overlaps(bounds(stroke.path));
      if (stroke.pen.layer == Layer::title_block && of_frame) continue;
      const Quad about = quad(mark.grown(extra_mm + stroke.pen.width_mm / 2));
      bool meets = stroke.fill != Fill::none && overlap(quad(bounds(stroke.path)), about);
      for (std::size_t i = stroke.closed ? 0 : 1; i < stroke.path.size(); ++i)
        meets = meets || crosses(about, stroke.path[i == 0 ? stroke.path.size() - 1 : i - 1], stroke.path[i]);
      if (meets) near.emplace_back(layer_name(stroke.pen.layer));
    }
  return near;
}

inline std::string fmt_metres(double metres) { return fmt::format("{:.3f}", metres); }

}  // namespace fairlead::sheets
