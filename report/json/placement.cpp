#include "report/json/stages.hpp"
#include "report/words/names.hpp"

namespace fairlead::json {
namespace {

void write_first(Writer& out, const Layout& layout, const std::optional<Finding>& first) {
  if (!first) return out.null("first");
  out.object("first", [&] {
    out.text("check", first->check->name);
    out.text("subject", words::name_of(layout, first->subject));
    out.text("verdict", words::word_for(first->verdict));
    out.number("travel_m", first->travel_m);
  });
}

void write_reach(Writer& out, std::string_view key, const Layout& layout, const Reach& reach) {
  out.object(key, [&] {
    out.number("holds_m", reach.holds);
    out.number("fails_m", reach.fails);
    write_first(out, layout, reach.first);
  });
}

void write_windows(Writer& out, const Layout& layout, const Placement& placement) {
  if (!placement.windows) return out.null("windows");
  const Windows& windows = *placement.windows;
  out.object("windows", [&] {
    out.number("looked_m", windows.search.reach);
    std::size_t v = 0;
    out.objects("each", windows.windows, [&](const Window& window) {
      out.text("mark", placement.points[placement.axes[v].point].id);
      out.text("axis", word_for(placement.axes[v++].axis));
      write_reach(out, "less", layout, window.less);
      write_reach(out, "more", layout, window.more);
    });
    out.objects("unwatched", windows.unwatched, [&](const Finding& finding) {
      out.text("check", finding.check->name);
      out.text("subject", words::name_of(layout, finding.subject));
    });
  });
}

void write_box(Writer& out, const Layout& layout, const Placement& placement) {
  out.object("box", [&] {
    write_unsolved(out, placement.box);
    if (!placement.box) return;
    const ToleranceBox& box = *placement.box;
    std::size_t p = 0;
    out.objects("marks", placement.points, [&](const SetOutPoint& point) {
      const auto allowed_m = placement.allowed_m(p++);
      out.text("mark", point.id);
      out.number("along_m", allowed_m[0]);
      out.number("across_m", allowed_m[1]);
      out.number("up_m", allowed_m[2]);
    });
    out.number("most_m", box.most);
    out.number("step_m", box.step);
    out.count("combinations_judged", box.judged);
    out.objects("binding", box.binding, [&](const Binding& binding) {
      out.text("check", binding.finding.check->name);
      out.text("subject", words::name_of(layout, binding.finding.subject));
      out.number("reserve", binding.reserve);
      out.number("loss", binding.loss);
      out.number("loss_together", binding.together);
    });
  });
}

}  // namespace

void write_placement(Writer& out, const Dossier& dossier) {
  if (!dossier.placement) return out.null("placement");
  const Layout& layout = dossier.judged.rig.layout;
  out.object("placement", [&] {
    write_windows(out, layout, *dossier.placement);
    write_box(out, layout, *dossier.placement);
  });
}

}  // namespace fairlead::json
