// The redirect and the trolley's rest mark, enlarged.
#pragma once

#include "report/views/arrest.hpp"

namespace fairlead::views {

/// What the detail shows: chainages and heights about the redirect nearest to the trolley and the rest mark.
struct DetailWindow {
  double from_m{}, to_m{}, low_m{}, high_m{};
};
std::optional<DetailWindow> redirect_window(const Scene&);
/// The same place with as much more about it as fills a frame of that size, within the chainages of the scene.
DetailWindow filling(const Scene&, const DetailWindow&, double width_m, double height_m);

/// Puts a drawing's strokes on another as far as they lie in a box. What is cut is no area any more.
void draw_clipped(const drawing::Canvas&, const drawing::Drawing&, const drawing::Box&);

/// What of a scene lies in a window, drawn at 1:scale and cut off at its frame.
struct Framed {
  drawing::View view;
  drawing::Box frame;
  std::size_t first_entity{};  ///< of the canvas's drawing
};
Framed draw_framed(const drawing::Canvas&, const Scene&, const DetailWindow&, double scale, drawing::Paper lower_left,
                   std::string name);

/// Draws the window at 1:scale, cut off at its frame, with its dimensions and names.
/// `lower_left`: of the frame. Returns the key of its balloons.
std::vector<std::string> draw_detail(const drawing::Canvas&, const Scene&, const DetailWindow&, double scale,
                                     drawing::Paper lower_left, const Style&, int first_balloon);

/// The frame that marks the window in another view.
void mark_detail(const drawing::Canvas&, const Scene&, const DetailWindow&, const drawing::View&);
/// Its letter beside the frame, where nothing else stands if there is such a place; it is one of the obstacles then.
void letter_detail(const drawing::Canvas&, const Scene&, const DetailWindow&, const drawing::View&,
                   drawing::Obstacles&);

}  // namespace fairlead::views
