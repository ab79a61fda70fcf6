#include "report/drawing/place.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "report/drawing/symbols.hpp"

namespace fairlead::drawing {

using std::numbers::pi;

void Obstacles::add(const Drawing& drawing, std::size_t from_entity) {
  for (std::size_t i = from_entity; i < drawing.entities.size(); ++i)
    std::visit([this](const auto& entity) { add(entity); }, drawing.entities[i]);
}

void Obstacles::add(const Stroke& stroke) {
  const auto& p = stroke.path;
  const auto segment = [&](Paper a, Paper b) {
    segments_.push_back({a, b, bounds(a, b).grown(1e-9)});
    segment_squares_.add(segments_.back().box, segments_.size() - 1);
  };
  for (std::size_t i = 1; i < p.size(); ++i) segment(p[i - 1], p[i]);
  if (stroke.closed && p.size() > 2) segment(p.back(), p.front());
}

void Obstacles::add(const Label& label) {
  // Descenders hang below the baseline: a text above another keeps off them too.
  constexpr double margin_mm = 0.5;
  add(text_quad(label, *font_, margin_mm));
}

void Obstacles::add(const Quad& keep_clear) {
  texts_.push_back({keep_clear, bounds(keep_clear)});
  text_squares_.add(texts_.back().box, texts_.size() - 1);
}

bool Obstacles::clear_of_texts(const Quad& text) const {
  const Box box = bounds(text);
  return !text_squares_.any(
      box, [&](std::size_t i) { return box.overlaps(texts_[i].box) && overlap(text, texts_[i].quad); });
}

bool Obstacles::clear(const Quad& text) const {
  const Box box = bounds(text);
  return clear_of_texts(text) && !segment_squares_.any(box, [&](std::size_t i) {
    const Segment& s = segments_[i];
    return box.overlaps(s.box) && crosses(text, s.a, s.b);
  });
}

bool Obstacles::over_text(Paper from, Paper to) const {
  const Box box = bounds(from, to).grown(1e-9);
  return text_squares_.any(
      box, [&](std::size_t i) { return box.overlaps(texts_[i].box) && crosses(texts_[i].quad, from, to); });
}

int Obstacles::crossings(Paper from, Paper to) const {
  // A leader starts on what it names: the first half millimetre does not count.
  const double whole = length(to - from);
  if (!(whole > 0.5)) return 0;
  const Paper start = from + (0.5 / whole) * (to - from);
  const Box box = bounds(start, to).grown(1e-9);
  int count = 0;
  segment_squares_.any(box, [&](std::size_t i) {
    const Segment& s = segments_[i];
    count += box.overlaps(s.box) && meet(start, to, s.a, s.b);
    return false;
  });
  return count;
}

namespace {

constexpr double line_pitch = 1.6, shelf_gap_mm = 0.9, text_clear_mm = 0.9;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (char c : text) {
    if (c == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += c;
    }
  }
  return lines;
}

struct Extent {
  double width{}, height{};
};
Extent extent(const Canvas& canvas, const Callout& c) {
  const auto lines = lines_of(c.text);
  Extent e{0, c.cap_mm + static_cast<double>(lines.size() - 1) * line_pitch * c.cap_mm};
  for (const auto& line : lines) e.width = std::max(e.width, canvas.width(line, c.cap_mm));
  return e;
}

/// One way to put a callout: its text's lower left corner, and the leader with its shelf under the text.
struct Spot {
  Paper target, text;
  Paper elbow;  ///< where the leader meets the shelf
  Paper shelf_end;
  double cost{};
};

Quad text_area(const Spot& s, Extent e, double margin_mm) {
  return quad(Box{s.text.x_mm, s.text.y_mm, s.text.x_mm + e.width, s.text.y_mm + e.height}.grown(margin_mm));
}

void add_spots(const Callout& c, Paper target, double already, Extent e, std::vector<Spot>& all) {
  for (double reach : {5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0, 37.0, 45.0})
    for (double degrees : {60.0, 45.0, 75.0, 30.0, 15.0})
      for (int side : {1, -1})
        for (int up : {1, -1}) {
          const double angle = degrees * pi / 180;
          const Paper elbow =
              target + (c.target_radius_mm + reach) * Paper{side * std::cos(angle), up * std::sin(angle)};
          const double left = side > 0 ? elbow.x_mm : elbow.x_mm - e.width;
          Spot s{
              target, {left, elbow.y_mm + shelf_gap_mm}, elbow, elbow + Paper{side * e.width, 0}, already + 3 + reach};
          s.cost += degrees < 20 ? 4 : degrees < 40 ? 1 : 0;
          s.cost += up < 0 ? 0.5 : 0;
          all.push_back(s);
        }
}

/// In rising cost, so that the search for the cheapest free one can stop early.
std::vector<Spot> spots(const Callout& c, Extent e) {
  constexpr double other_target = 0.4;  // a target further down the list must save this much leader
  std::vector<Spot> all;
  for (std::size_t i = 0; i < c.targets.size(); ++i)
    add_spots(c, c.targets[i], other_target * static_cast<double>(i), e, all);
  std::stable_sort(all.begin(), all.end(), [](const Spot& a, const Spot& b) { return a.cost < b.cost; });
  return all;
}

Paper leader_start(const Callout& c, Paper target, Paper toward) {
  if (c.target_radius_mm == 0) return target;
  return target + (c.target_radius_mm / length(toward - target)) * (toward - target);
}

/// What spots are judged against.
struct Surroundings {
  const Obstacles& standing;  ///< what was there before any callout
  const Obstacles& placed;    ///< callouts placed before this one
  const Box& within;
  const std::vector<Paper>& targets;  ///< of all callouts: a text on another's target would shut its leader out
};

constexpr double barred = std::numeric_limits<double>::infinity();

/// A leader over a line of the drawing is read; one over another leader leads astray, and nearly any other place is
/// better, a balloon too.
constexpr double crossed_line = 6, crossed_leader = 100;

/// Infinite where the spot is not free of these. `lines_count`: lines may not run through the text either.
double cost(const Callout& c, const Spot& s, const Quad& text, const Obstacles& obstacles, bool lines_count,
            double crossed) {
  if (!(lines_count ? obstacles.clear(text) : obstacles.clear_of_texts(text))) return barred;
  const Paper start = leader_start(c, s.target, s.elbow);
  if (obstacles.over_text(start, s.elbow) || obstacles.over_text(s.elbow, s.shelf_end)) return barred;
  return crossed * (obstacles.crossings(start, s.elbow) + obstacles.crossings(s.elbow, s.shelf_end));
}

/// What a spot costs whatever callouts are placed: it is asked in every round, and worked out once.
double standing_cost(const Callout& c, const Spot& s, Extent e, const Surroundings& around, bool lines_count) {
  const Quad text = text_area(s, e, text_clear_mm);
  if (!around.within.contains(bounds(text))) return barred;
  const double here = cost(c, s, text, around.standing, lines_count, crossed_line);
  if (!std::isfinite(here)) return barred;
  const Box covered = bounds(text).grown(1);
  const auto shut_out =
      std::count_if(around.targets.begin(), around.targets.end(), [&](Paper t) { return covered.contains(t); });
  return here + s.cost + 25 * static_cast<double>(shut_out);
}

/// Ways to put one callout, in rising cost, with what each costs before callouts are placed: NaN where not asked yet.
struct Ways {
  std::vector<Spot> spots;
  Extent extent;
  bool lines_count = true;
  std::vector<double> standing = std::vector<double>(spots.size(), std::numeric_limits<double>::quiet_NaN());

  double standing_at(const Callout& c, std::size_t i, const Surroundings& around) {
    if (std::isnan(standing[i])) standing[i] = standing_cost(c, spots[i], extent, around, lines_count);
    return standing[i];
  }
};

/// The cheapest free spot and its cost.
std::optional<std::pair<Spot, double>> best(const Callout& c, Ways& ways, const Surroundings& around) {
  std::optional<std::pair<Spot, double>> found;
  for (std::size_t i = 0; i < ways.spots.size(); ++i) {
    const Spot& s = ways.spots[i];
    if (found && s.cost >= found->second) break;
    const double standing = ways.standing_at(c, i, around);
    if (!std::isfinite(standing) || (found && standing >= found->second)) continue;
    const double here = standing + cost(c, s, text_area(s, ways.extent, text_clear_mm), around.placed, ways.lines_count,
                                        crossed_leader);
    if (std::isfinite(here) && (!found || here < found->second)) found = {s, here};
  }
  return found;
}

void leader(const Canvas& canvas, const Callout& c, Paper target, Paper elbow) {
  const Paper start = leader_start(c, target, elbow);
  const double angle = std::atan2(start.y_mm - elbow.y_mm, start.x_mm - elbow.x_mm);
  const Pen pen{narrow_mm, LineType::continuous, c.layer};
  canvas.line({start, elbow}, pen);
  if (c.target_radius_mm > 0) {
    arrowhead(canvas, start, angle, c.layer, 2);
  } else {
    canvas.circle(start, 0.45, {0, LineType::continuous, c.layer}, Fill::ink);
  }
}

void draw(const Canvas& canvas, const Callout& c, const Spot& s, Extent e) {
  leader(canvas, c, s.target, s.elbow);
  canvas.line({s.elbow, s.shelf_end}, {narrow_mm, LineType::continuous, c.layer});
  const auto lines = lines_of(c.text);
  for (std::size_t i = 0; i < lines.size(); ++i)
    canvas.text(s.text + Paper{0, e.height - c.cap_mm - static_cast<double>(i) * line_pitch * c.cap_mm}, lines[i],
                c.cap_mm, c.layer);
}

constexpr Extent balloon_extent{2 * balloon_radius_mm, 2 * balloon_radius_mm};

/// Ways to put a numbered balloon: its leader runs straight from its rim to the target.
std::vector<Spot> balloon_spots(const Callout& c) {
  std::vector<Spot> all;
  for (const Paper target : c.targets)
    for (double reach : {7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 40.0, 50.0})
      for (int i = 0; i < 24; ++i) {
        const Paper away = polar(1, pi / 4 + i * pi / 12);
        const Paper centre = target + (c.target_radius_mm + reach) * away;
        const Paper rim = centre - balloon_radius_mm * away;
        all.push_back({target, centre - Paper{balloon_radius_mm, balloon_radius_mm}, rim, rim, reach});
      }
  std::stable_sort(all.begin(), all.end(), [](const Spot& a, const Spot& b) { return a.cost < b.cost; });
  return all;
}

void draw_balloon(const Canvas& canvas, const Callout& c, const Spot& s, int number) {
  leader(canvas, c, s.target, s.elbow);
  balloon(canvas, s.text + Paper{balloon_radius_mm, balloon_radius_mm}, number, c.layer);
}

/// A callout to be placed, with its text on a shelf, or as a balloon, which where nothing else is left may stand on
/// lines.
struct Job {
  const Callout* callout{};
  Ways text, balloon, balloon_on_lines;
};

/// Indices of the jobs, those with the fewest free spots among their cheapest first.
std::vector<std::size_t> hardest_first(std::vector<Job>& jobs, const Surroundings& around) {
  std::vector<long> free;
  std::vector<std::size_t> order;
  for (Job& job : jobs) {
    order.push_back(order.size());
    constexpr std::size_t counted = 200;
    long count = 0;
    for (std::size_t i = 0; i < std::min(counted, job.text.spots.size()); ++i)
      count += std::isfinite(job.text.standing_at(*job.callout, i, around));
    free.push_back(count);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return free[a] < free[b]; });
  return order;
}

struct Placed {
  Spot spot;
  bool as_balloon{};
  double cost{};
};

/// One callout at its best free spot, or as a balloon; where even that has none, at the first spot there is.
Placed placed_at_best(Job& job, const Surroundings& around) {
  constexpr double balloon_cost = 80, no_place_cost = 1000;
  const Callout& c = *job.callout;
  if (const auto spot = best(c, job.text, around)) return {spot->first, false, spot->second};
  if (const auto spot = best(c, job.balloon, around)) return {spot->first, true, balloon_cost + spot->second};
  if (const auto spot = best(c, job.balloon_on_lines, around)) return {spot->first, true, no_place_cost + spot->second};
  return {job.balloon.spots.front(), true, 2 * no_place_cost};
}

void draw(const Canvas& canvas, const Job& job, const Placed& placed, int number) {
  if (placed.as_balloon) return draw_balloon(canvas, *job.callout, placed.spot, number);
  draw(canvas, *job.callout, placed.spot, job.text.extent);
}

/// Places jobs in an order, each keeping clear of those before it. Indexed as the jobs are.
std::vector<Placed> attempt(const Font& font, std::vector<Job>& jobs, const std::vector<std::size_t>& order,
                            const Obstacles& standing, const Box& within, const std::vector<Paper>& targets) {
  std::vector<Placed> all(jobs.size());
  Obstacles placed(font);
  for (std::size_t i : order) {
    all[i] = placed_at_best(jobs[i], {standing, placed, within, targets});
    Drawing drawn;
    draw(Canvas(drawn, font), jobs[i], all[i], 0);
    placed.add(drawn);
  }
  return all;
}

double total(const std::vector<Placed>& all) {
  double sum = 0;
  for (const Placed& p : all) sum += p.cost;
  return sum;
}

/// Squeaky wheel optimisation (Joslin and Clements, 1999): what came out badly goes earlier in the next round.
std::vector<Placed> best_of_rounds(const Font& font, std::vector<Job>& jobs, const Obstacles& obstacles,
                                   const Box& within) {
  constexpr int rounds = 16, patience = 5;  // rounds in all, and rounds without a better one
  std::vector<Paper> targets;
  for (const Job& job : jobs) targets.push_back(job.callout->targets.front());
  std::vector<std::size_t> order = hardest_first(jobs, {obstacles, Obstacles(font), within, targets});
  std::vector<double> blame(jobs.size());
  std::vector<Placed> found;
  for (int round = 0, best_round = 0; round < rounds && round <= best_round + patience; ++round) {
    const auto all = attempt(font, jobs, order, obstacles, within, targets);
    if (found.empty() || total(all) < total(found)) {
      found = all;
      best_round = round;
    }
    for (std::size_t i = 0; i < all.size(); ++i) blame[i] = 0.7 * blame[i] + all[i].cost;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return blame[a] > blame[b]; });
  }
  return found;
}

}  // namespace

std::vector<std::string> place(const Canvas& canvas, const std::vector<Callout>& callouts, Obstacles& obstacles,
                               const Box& within, int first_number) {
  std::vector<Job> jobs;
  for (const Callout& c : callouts) {
    const Extent e = extent(canvas, c);
    const auto balloons = balloon_spots(c);
    jobs.push_back({&c, {spots(c, e), e}, {balloons, balloon_extent}, {balloons, balloon_extent, false}});
  }
  const auto placed = best_of_rounds(canvas.font(), jobs, obstacles, within);
  std::vector<std::string> key;
  const std::size_t drawn = canvas.drawing().entities.size();
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    draw(canvas, jobs[i], placed[i], first_number + static_cast<int>(key.size()));
    if (placed[i].as_balloon) key.push_back(callouts[i].text);
  }
  obstacles.add(canvas.drawing(), drawn);
  return key;
}

}  // namespace fairlead::drawing
