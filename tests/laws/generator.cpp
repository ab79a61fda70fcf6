#include "tests/laws/generator.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "geometry/layout/read.hpp"
#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::laws {
namespace {

/// A place on the rig: along the main line from its start support, across, above that support.
struct At {
  double along_m{}, across_m{}, up_m{};
};

/// Where the main line's wheel stands with the empty brake trolley on it.
double wheel_height_m(double span_m, double rise_m, double tension_N, double rest_m, double trolley_kg) {
  mainline::Cable cable{span_m, rise_m, 0, 1.05 * standard_gravity, 1 / 11e6};
  cable.unstretched_m = *mainline::length_from_tension(span_m, rise_m, cable.weight_N_per_m, cable.compliance_per_N,
                                                       tension_N, mainline::MeasuredAt::end);
  const mainline::Load trolley{rest_m, trolley_kg * standard_gravity};
  return mainline::hang_rolling(cable, {&trolley, 1})->wheels[0].z_m;
}

class Writer {
 public:
  Writer(unsigned seed, const Wanted& wanted) : draw_(seed), wanted_(wanted) {
    parts_ = wanted.parts > 0 ? wanted.parts : 1 + static_cast<int>(seed % 4);
    carried_ = parts_ > 1 && !draw_.once_in(3);
    choose();
  }

  std::string write() {
    project();
    cables();
    sheaves();
    lines();
    unit();
    riders();
    structures();
    limits();
    return std::move(text_);
  }

 private:
  double off(double most) { return wanted_.askew ? draw_.between(-most, most) : 0; }

  void choose() {
    bearing_rad_ = draw_.between(-std::numbers::pi, std::numbers::pi);
    const bool far = draw_.once_in(4);
    origin_ = {far ? draw_.between(-5e5, 5e5) : draw_.between(-900, 900),
               far ? draw_.between(-5e5, 5e5) : draw_.between(-900, 900), draw_.between(0, 1800)};
    span_m_ = draw_.between(130, 240) + wanted_.reach_m;
    rise_m_ = -draw_.between(0.045, 0.065) * span_m_;
    tension_N_ = draw_.between(15e3, 20e3) + 60 * wanted_.reach_m;
    trolley_kg_ = draw_.between(5, 7.5);
    travel_m_ = draw_.between(7, 13);
    radius_m_ = draw_.between(0.05, 0.08);
    upstream_m_ = draw_.between(2, 4) + wanted_.reach_m;
    // Per metre of unit: the block's run, what the trolley sinks under the rider, and room on both sides of it.
    const double block_from_redirect_m = (travel_m_ + 3) / parts_ + draw_.between(1.5, 3) + wanted_.reach_m;
    const double outlet_from_redirect_m =
        parts_ == 1 ? upstream_m_ + travel_m_ + draw_.between(3, 8) : block_from_redirect_m + draw_.between(5, 9);
    const double outlet_from_rest_m = std::max(outlet_from_redirect_m - upstream_m_, travel_m_ + 3.5);
    rest_m_ = span_m_ - outlet_from_rest_m - draw_.between(6, 14);
    const double wheel_m = wheel_height_m(span_m_, rise_m_, tension_N_, rest_m_, trolley_kg_);
    redirect_ = {rest_m_ - upstream_m_, off(0.015), wheel_m + draw_.between(0.8, 1.5)};
    block_ = {redirect_.along_m + block_from_redirect_m, off(0.015),
              redirect_.up_m + 2 * radius_m_ + draw_.between(-0.05, 0.12) - lowest_sheave_m()};
    outlet_ = {rest_m_ + outlet_from_rest_m, off(0.03),
               (parts_ == 1 ? redirect_.up_m + radius_m_ : block_.up_m) +
                   draw_.between(-0.2, carried_ ? 0 : 0.1)};  // no unit pulls a wheel off its support line
  }

  /// Of the block's first sheave over its point: the parts run one above the other, a sheave's diameter apart.
  double lowest_sheave_m() const { return parts_ >= 3 ? -0.08 : 0; }
  double wheel_over_block_m() const { return lowest_sheave_m() + (2 * (parts_ / 2) - 1) * 2 * radius_m_ + 0.1; }

  std::string place(At at) const {
    const double c = std::cos(bearing_rad_), s = std::sin(bearing_rad_);
    return fmt::format("[{:.4f}, {:.4f}, {:.4f}]", origin_.along_m + c * at.along_m - s * at.across_m,
                       origin_.across_m + s * at.along_m + c * at.across_m, origin_.up_m + at.up_m);
  }
  std::string direction(At at) const {
    const double c = std::cos(bearing_rad_), s = std::sin(bearing_rad_);
    return fmt::format("[{:.6f}, {:.6f}, {:.6f}]", c * at.along_m - s * at.across_m, s * at.along_m + c * at.across_m,
                       at.up_m);
  }
  std::string bearing() const { return fmt::format("{:.5f} deg", bearing_rad_ * 180 / std::numbers::pi); }

  template <class... Args>
  void add(fmt::format_string<Args...> format, Args&&... args) {
    text_ += fmt::format(format, std::forward<Args>(args)...);
    text_ += '\n';
  }
  void anchor(const char* id, At at) {
    add("[[anchor]]\nid = \"{}\"\nposition = {}\nwll = \"{:.1f} kN\"", id, place(at), draw_.between(8, 45));
  }

  void project() {
    add("[project]\nowner = \"Invented\"\ntitle = \"Arrest end {}:1\"\nnumber = \"INV-1\"\nrevision = \"A\"\n"
        "date = 2026-05-14",
        parts_);
    add("[site]\nname = \"Invented\"\naxes = [\"east\", \"north\", \"up\"]\ncoldest = \"{:.1f} C\"\nwarmest = \"{:.1f} "
        "C\"",
        draw_.between(-25, 5), draw_.between(20, 40));
    if (draw_.once_in(2)) add("wind_across = \"{:.1f} m/s\"", draw_.between(4, 12));
    if (draw_.once_in(3)) add("chainage_zero = {}", place({chainage_zero_m_ = draw_.between(-30, 20), 0, 0}));
  }

  void cables() {
    add("[main_line]\nfrom = \"P1\"\nto = \"P2\"\ndiameter = \"16 mm\"\nmass = \"1.05 kg/m\"\nea = \"11 MN\"\n"
        "mbs = \"175 kN\"\ntension_at = \"end\"\nat_temperature = \"12 C\"");
    if (draw_.once_in(8))  // two states where there is one: dear, so rarely
      add("tension = [\"{:.4f} kN\", \"{:.4f} kN\"]", tension_N_ / 1e3, tension_N_ / 1e3 + 1);
    else
      add("tension = \"{:.4f} kN\"", tension_N_ / 1e3);
    anchor("P1", {});
    anchor("P2", {span_m_, 0, rise_m_});
    anchor("A3", dead_end());
    anchor("B1", {outlet_.along_m + 0.4, outlet_.across_m, outlet_.up_m - 0.3});
    if (!carried_) return;
    const double tension_N = draw_.between(3.5e3, 6e3), from_m = redirect_.along_m - draw_.between(0.2, 0.6),
                 to_m = outlet_.along_m + draw_.between(0.4, 1.2), across_m = off(0.01);
    const double sag_m = 0.42 * standard_gravity * std::pow(to_m - from_m, 2) / (8 * tension_N);
    const double up_m = block_.up_m + wheel_over_block_m() + sag_m + draw_.between(0, 0.06);
    anchor("A4", {from_m, across_m, up_m});
    anchor("A5", {to_m, across_m + off(0.01), up_m});
    const bool written_upstream = draw_.one_of(4) > 0;
    add("[[support_line]]\nid = \"S1\"\nfrom = \"{}\"\nto = \"{}\"\ncarries = \"K1\"\n"
        "wheel = [0, {:.4f}, {:.4f}]\ndiameter = \"10 mm\"\nmass = \"0.42 kg/m\"\nea = \"4.6 MN\"\nmbs = \"68 kN\"\n"
        "tension = \"{:.3f} kN\"\ntension_at = \"{}\"\nat_temperature = \"12 C\"",
        written_upstream ? "A4" : "A5", written_upstream ? "A5" : "A4", off(0.005), wheel_over_block_m(),
        tension_N / 1e3, draw_.once_in(2) ? "start" : "horizontal");
  }

  /// Beside the redirect; of 2:1 and 4:1 where the last part is level.
  At dead_end() {
    const double last_part_m = block_.up_m + lowest_sheave_m() + (2 * parts_ - 3) * radius_m_;
    return {redirect_.along_m - 0.2, off(0.01), parts_ == 1 ? redirect_.up_m + 0.3 : last_part_m};
  }

  /// What holds a sheave on an anchor: fixed, astern of a swivel's axis like a castor, or on a link from an anchor of
  /// its own. Where it stands then its line decides: both its legs lead downstream.
  struct Held {
    std::string on, keys;
  };
  Held on_anchor(const char* id, double up_m) {
    const At centre{redirect_.along_m, redirect_.across_m + off(0.01), up_m};
    std::string keys = "position = " + place(centre);
    const int kind = wanted_.mounts ? draw_.one_of(3) : 0;
    if (kind == 0) return {"A3", std::move(keys)};
    const double reach_m = draw_.between(0.2, 0.5);
    const At upstream{centre.along_m - reach_m, centre.across_m + off(0.02), centre.up_m + draw_.between(-0.1, 0.1)};
    const std::string weighs = fmt::format("\nmass = \"{:.2f} kg\"\ncentre_of_mass = [0, {:.4f}, {:.4f}]",
                                           draw_.between(1, 4), off(0.02), draw_.between(-0.04, 0.02));
    if (kind == 1)
      return {"A3", keys + "\nmount = \"swivel\"\nswivel_axis = " + direction({off(0.1), off(0.1), 1}) +
                        "\nswivel_at = " + place(upstream) + weighs};
    std::string own = fmt::format("M{}", id);
    anchor(own.c_str(), upstream);
    return {std::move(own), fmt::format("mount = \"free\"\nlink = \"{:.3f} m\"", reach_m) + weighs};
  }

  std::string rubs() {
    if (!wanted_.friction || draw_.once_in(4)) return "";
    return fmt::format("friction = {:.3f}\n{}", draw_.between(1.01, 1.1),
                       draw_.once_in(2) ? "friction_wrap = \"180 deg\"\n" : "");
  }

  /// Over which the line runs from underneath upward and back toward the landing (a redirect), or the other way.
  void sheave(const char* id, const Held& held) {
    // Half of the axles point the other way; the route turns with them.
    const bool to_the_left = draw_.once_in(2);
    const double sign = to_the_left ? 1 : -1;
    add("[[sheave]]\nid = \"{}\"\non = \"{}\"\n{}\naxle = {}\npitch_diameter = \"{:.2f} mm\"\ngroove = \"10 mm\"\n"
        "wll = \"1 t\"",
        id, held.on, held.keys, direction({off(0.02), sign, off(0.02)}), 2e3 * radius_m_);
    text_ += rubs();
    const bool redirects = held.on != "K1";
    if (redirects && draw_.once_in(2)) add("frame = [\"0.2 m\", \"0.07 m\", \"0.22 m\"]");
    const bool clockwise = redirects != to_the_left;
    route_.push_back(
        fmt::format("{{ sheave = \"{}\", turning = \"{}\" }}", id, clockwise ? "clockwise" : "anticlockwise"));
  }

  void sheaves() {
    const auto on_block = [&](double up_m) {
      return Held{"K1", fmt::format("offset = [0, {:.4f}, {:.4f}]", off(0.01), up_m)};
    };
    sheave("R1", on_anchor("R1", redirect_.up_m));
    if (parts_ >= 2) sheave("R2", on_block(lowest_sheave_m()));
    if (parts_ >= 3) sheave("R3", on_anchor("R3", block_.up_m + lowest_sheave_m() + 2 * radius_m_));
    if (parts_ >= 4) sheave("R4", on_block(lowest_sheave_m() + 4 * radius_m_));
  }

  void line(const char* id, std::string from, std::string to, const std::string& offsets, bool reversed,
            const std::vector<std::string>& route) {
    if (reversed) std::swap(from, to);
    add("[[line]]\nid = \"{}\"\nmaterial = \"fibre\"\nfrom = \"{}\"\nto = \"{}\"\nroute = [{}]\n{}"
        "diameter = \"8 mm\"\nmass = \"{} kg/m\"\nmbs = \"38 kN\"\n{}",
        id, from, to, fmt::join(route, ", "), offsets, wanted_.line_kg_per_m,
        draw_.once_in(2) ? "ea = \"0.35 MN\"" : "");
  }

  void lines() {
    if (parts_ == 1) return line("L1", "brake_trolley", "brake_unit", "", false, route_);
    const std::string becket = fmt::format("to_offset = [-0.15, 0, {:.4f}]\n", lowest_sheave_m() + 3 * radius_m_);
    line("L1", "brake_trolley", parts_ == 3 ? "K1" : "A3", parts_ == 3 ? becket : "", false, route_);
    const bool reversed = draw_.once_in(2);
    line("L2", "K1", "brake_unit", reversed ? "to_offset = [0.15, 0, 0]\n" : "from_offset = [0.15, 0, 0]\n", reversed,
         {});
    add("[[block]]\nid = \"K1\"\nmass = \"{:.2f} kg\"\nrest = \"{:.3f} m\"\nsize = [\"0.34 m\", \"0.1 m\", \"{:.2f} "
        "m\"]\n"
        "centre_of_mass = [0, {:.4f}, {:.4f}]\nwll = \"1 t\"",
        carried_ ? draw_.between(2, 6) : draw_.between(0.8, 2), block_.along_m - chainage_zero_m_,
        0.26 + 0.08 * (parts_ - 2), off(0.005), -draw_.between(0.02, 0.05));
  }

  void unit() {
    const double toward_m = parts_ == 1 ? redirect_.along_m : block_.along_m + 0.15;
    const double toward_up_m = parts_ == 1 ? redirect_.up_m + radius_m_ : block_.up_m;
    const double limit_m = (travel_m_ + 3) / parts_ + 1.5;
    add("[brake_unit]\non = \"B1\"\noutlet = {}\naxis = {}\nlead_angle = {{ at = \"8 deg\", basis = \"plate\" }}\n"
        "mass = \"46 kg\"\nextension_limit = \"{:.3f} m\"\nrest_extension = \"{:.3f} m\"\n"
        "retraction = [[\"0 m\", \"{:.2f} N\"], [\"{:.3f} m\", \"{:.2f} N\"]]\n"
        "eddy = {{ peak = \"{:.1f} N\", critical_speed = \"{:.2f} m/s\" }}\ntolerance = \"10 %\"",
        place(outlet_), direction({toward_m - outlet_.along_m, off(0.3), toward_up_m - outlet_.up_m + off(0.3)}),
        limit_m, draw_.between(0.3, 0.6), parts_ * draw_.between(40, 50), limit_m, parts_ * draw_.between(120, 190),
        parts_ * draw_.between(500, 640), 30.0 / parts_);
    add("[brake_trolley]\nmass = \"{:.6f} kg\"\nrest = \"{:.6f} m\"\ntravel = \"{:.6f} m\"\n"
        "attachment = [{:.4f}, {:.4f}, {:.4f}]\npull_angle = {{ at = \"45 deg\", basis = \"drawing\" }}\n"
        "side_pull = {{ at = \"5 deg\", basis = \"drawing\" }}\nwheelbase = \"0.3 m\"\nwll = \"5 kN\"",
        trolley_kg_, rest_m_ - chainage_zero_m_, travel_m_, draw_.between(-0.15, 0.05), off(0.01),
        draw_.between(0.03, 0.1));
  }

  void riders() {
    add("[riders]\nmass = [\"30 kg\", \"{:.1f} kg\"]\ntrolley_mass = \"2.5 kg\"\nhanging_length = \"1.3 m\"\n"
        "arrival_speed = [\"6 m/s\", \"{:.2f} m/s\"]\n"
        "[riders.envelope]\nwidth = \"{:.2f} m\"\nlength = \"2.2 m\"\nabove = \"{:.2f} m\"\nbelow = \"2.3 m\"",
        draw_.between(80, 120), draw_.between(7, 9.5), draw_.between(1.2, 2), draw_.between(0.05, 0.3));
  }

  void structures() {
    const double beside_m = draw_.between(1.2, 1.8), beam_m = highest_m() + draw_.between(0.15, 0.4);
    const auto post = [&](const char* id, At foot, double top_m) {
      add("[[structure]]\nid = \"{}\"\nkind = \"post\"\nfrom = {}\nto = {}\ndiameter = \"{:.0f} mm\"", id, place(foot),
          place({foot.along_m, foot.across_m, top_m}), draw_.between(150, 250));
    };
    const double ground_m = redirect_.up_m - draw_.between(4.5, 6);
    post("left", {redirect_.along_m - 0.3, beside_m, ground_m}, beam_m);
    post("right", {redirect_.along_m - 0.3, -beside_m, ground_m}, beam_m);
    if (draw_.once_in(2)) post("mast", {outlet_.along_m + 0.6, off(0.2), ground_m}, outlet_.up_m + 0.8);
    const auto box = [&](const char* id, At centre, At size) {
      add("[[structure]]\nid = \"{}\"\nkind = \"box\"\ncentre = {}\nsize = [{:.3f}, {:.3f}, {:.3f}]\nbearing = \"{}\"",
          id, place(centre), size.along_m, size.across_m, size.up_m, bearing());
    };
    box("beam", {redirect_.along_m - 0.3, 0, beam_m}, {0.2, 2 * beside_m, 0.2});
    box("platform", {rest_m_ + travel_m_, off(0.5), ground_m + draw_.between(0.3, 0.8)}, {travel_m_, 2.5, 0.2});
    add("[[structure]]\nid = \"ground\"\nkind = \"plane\"\nthrough = {}\nnormal = {}", place({rest_m_, 0, ground_m}),
        direction({draw_.between(0.02, 0.08), off(0.05), 1}));
  }
  double highest_m() const { return parts_ == 1 ? redirect_.up_m + 0.3 : block_.up_m + wheel_over_block_m() + 0.15; }

  void limits() {
    const auto limit = [&](const char* key, double low, double high, const char* unit) {
      add("{} = {{ at = \"{:.2f} {}\", basis = \"rule\" }}", key, draw_.between(low, high), unit);
    };
    add("[limits]\ndesign_factor = {{ at = 5, basis = \"rule\" }}\nmain_line_factor = {{ at = 3, basis = \"rule\" }}\n"
        "anchor_utilisation = {{ at = \"100 %\", basis = \"rule\" }}");
    limit("fleet_angle", 1, 4, "deg");
    limit("plane_thickness", 20, 80, "mm");
    limit("across_offset", 20, 80, "mm");
    limit("extension_reserve", 0.2, 1, "m");
    limit("line_clearance", 0.05, 0.3, "m");
    limit("line_to_line", 10, 60, "mm");
    limit("line_to_main_line", 10, 100, "mm");
    limit("block_clearance", 0.05, 0.3, "m");
    limit("rider_clearance", 0.2, 0.5, "m");
    limit("rider_line_clearance", 0.1, 0.4, "m");
    limit("block_run", 0.2, 0.8, "m");
    limit("lift_share", 40, 90, "%");
  }

  Draw draw_;
  Wanted wanted_;
  int parts_{};
  bool carried_{};
  double bearing_rad_{}, span_m_{}, rise_m_{}, tension_N_{}, trolley_kg_{}, travel_m_{}, radius_m_{}, upstream_m_{},
      rest_m_{}, chainage_zero_m_{};
  At origin_, redirect_, block_, outlet_;
  std::vector<std::string> route_;
  std::string text_;
};

}  // namespace

std::string sensible_toml(unsigned seed, const Wanted& wanted) { return Writer(seed, wanted).write(); }

Layout sensible_layout(unsigned seed, const Wanted& wanted) {
  auto layout = read_layout_text(sensible_toml(seed, wanted), fmt::format("seed {}", seed));
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

}  // namespace fairlead::laws
