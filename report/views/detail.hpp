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

/// Draws the window at 1:scale, cut off at its frame, with its dimensions and names.
/// `lower_left`: of the frame. Returns the key of its balloons.
std::vector<std::string> draw_detail(const drawing::Canvas&, const Scene&, const DetailWindow&, double scale,
                                     drawing::Paper lower_left, const Style&, int first_balloon);

/// The frame that marks the window in another view, and its letter.
void mark_detail(const drawing::Canvas&, const Scene&, const DetailWindow&, const drawing::View&);

}  // namespace fairlead::views
