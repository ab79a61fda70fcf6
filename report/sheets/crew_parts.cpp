#include "report/sheets/crew_parts.hpp"

#include <algorithm>

#include "report/drawing/blocks.hpp"
#include "report/drawing/symbols.hpp"

namespace fairlead::sheets::crew {

using namespace drawing;

namespace {

constexpr Pen rule{narrow_mm, LineType::continuous, Layer::tables}, edge{wide_mm, LineType::continuous, Layer::tables};
constexpr double inset_mm = 2, pitch = 1.65;

/// Lines of text one below the other from a top edge; returns where they end.
double write(const Canvas& canvas, const std::vector<std::string>& lines, double cap, double left, double top) {
  for (std::size_t i = 0; i < lines.size(); ++i)
    canvas.lettering({left, top - cap - static_cast<double>(i) * pitch * cap}, lines[i], cap, Layer::text);
  return top - static_cast<double>(lines.size()) * pitch * cap;
}

/// An id beside its words, or above them where it is long.
struct Heading {
  std::string id, mark;
  std::vector<std::string> there;

  struct Set {
    std::vector<std::string> id, mark;
    std::vector<std::vector<std::string>> there;
    double id_cap{}, left{}, height{};
    bool beside{};
  };
  Set set(const Canvas& canvas, double width) const {
    constexpr double greatest_share = 0.42, gap_mm = 6;
    Set out;
    out.id_cap = id_cap_mm;
    for (const double smaller : {greatest_number_cap_mm, number_cap_mm})
      if (canvas.width(id, out.id_cap) > greatest_share * width) out.id_cap = smaller;
    out.beside = canvas.width(id, out.id_cap) <= greatest_share * width;
    out.left = out.beside ? canvas.width(id, out.id_cap) + gap_mm : 0;
    out.id = canvas.wrap(id, out.id_cap, width);
    out.mark = canvas.wrap(mark, name_cap_mm, width - out.left);
    double words = static_cast<double>(out.mark.size()) * pitch * name_cap_mm;
    for (const std::string& sentence : there) {
      out.there.push_back(canvas.wrap(sentence, cap_mm, width - out.left));
      words += static_cast<double>(out.there.back().size()) * pitch * cap_mm;
    }
    const double names = static_cast<double>(out.id.size()) * pitch * out.id_cap;
    out.height = out.beside ? std::max(out.id_cap, words) : names + words;
    return out;
  }
  void draw(const Canvas& canvas, const Box& box) const {
    const Set s = set(canvas, box.width());
    double y = write(canvas, s.id, s.id_cap, box.left, box.top);
    if (s.beside) y = box.top;
    y = write(canvas, s.mark, name_cap_mm, box.left + s.left, y);
    for (const auto& lines : s.there) y = write(canvas, lines, cap_mm, box.left + s.left, y);
  }
};

/// A row of numbers with room to write beneath each.
struct Row {
  std::string name, words;
  std::vector<Entry> entries;
  std::string beneath;
  double greatest_cap_mm{};

  static constexpr double blank_mm = 10;

  double field_width(double width) const { return width / static_cast<double>(entries.size()); }
  double cap(const Canvas& canvas, double width) const {
    const double room = field_width(width) - 2 * inset_mm;
    const auto fits = [&](double at) {
      return std::all_of(entries.begin(), entries.end(),
                         [&](const Entry& entry) { return canvas.width(entry.number, at) <= room; });
    };
    // What is too wide at the least size goes on two lines.
    for (const double at : {greatest_cap_mm, number_cap_mm})
      if (fits(at)) return at;
    return name_cap_mm;
  }
  std::vector<std::string> wrapped(const Canvas& canvas, const std::string& what, double at, double width) const {
    return canvas.wrap(what, at, field_width(width) - 2 * inset_mm);
  }
  /// The greatest number of lines that one of the entries takes.
  double most_lines(const Canvas& canvas, std::string Entry::*what, double at, double width) const {
    std::size_t most = 1;
    for (const Entry& entry : entries) most = std::max(most, wrapped(canvas, entry.*what, at, width).size());
    return static_cast<double>(most);
  }
  /// The name beside its words, or above them where it is long.
  struct Title {
    std::vector<std::string> name, words;
    double left{}, height{};
  };
  Title title(const Canvas& canvas, double width) const {
    if (name.empty()) return {};
    constexpr double greatest_share = 0.4, gap_mm = 3, below_mm = 1.5;
    Title out;
    const double wide = canvas.width(name, name_cap_mm);
    const bool beside = wide <= greatest_share * width;
    out.name = canvas.wrap(name, name_cap_mm, width);
    out.left = beside ? wide + gap_mm : 0;
    out.words = canvas.wrap(words, cap_mm, width - out.left);
    const double names = static_cast<double>(out.name.size()) * pitch * name_cap_mm;
    const double others = static_cast<double>(out.words.size()) * pitch * cap_mm;
    out.height = below_mm + (beside ? std::max(names, others) : names + others);
    return out;
  }
  double top_mm(const Canvas& canvas, double width) const { return title(canvas, width).height; }
  double captions_mm(const Canvas& canvas, double width) const {
    return most_lines(canvas, &Entry::caption, cap_mm, width) * pitch * cap_mm;
  }
  double numbers_mm(const Canvas& canvas, double width) const {
    const double at = cap(canvas, width);
    return most_lines(canvas, &Entry::number, at, width) * pitch * at - 0.3 * at;
  }
  std::vector<std::string> foot(const Canvas& canvas, double width) const {
    return beneath.empty() ? std::vector<std::string>{} : canvas.wrap(beneath, cap_mm, width - 2 * inset_mm);
  }
  double height(const Canvas& canvas, double width) const {
    return top_mm(canvas, width) + inset_mm + captions_mm(canvas, width) + numbers_mm(canvas, width) + blank_mm +
           foot_mm(canvas, width);
  }
  double foot_mm(const Canvas& canvas, double width) const {
    const auto lines = foot(canvas, width);
    return lines.empty() ? 0 : static_cast<double>(lines.size()) * pitch * cap_mm + 0.8 * inset_mm;
  }

  void draw(const Canvas& canvas, const Box& box) const {
    const double width = box.width(), at = cap(canvas, width), step = field_width(width);
    const Title heading = title(canvas, width);
    const double below = write(canvas, heading.name, name_cap_mm, box.left, box.top);
    write(canvas, heading.words, cap_mm, box.left + heading.left,
          heading.left > 0 ? box.top - (name_cap_mm - cap_mm) : below);
    const double top = box.top - top_mm(canvas, width), foot_top = box.bottom + foot_mm(canvas, width);
    const double blank_top = foot_top + blank_mm;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const double left = box.left + static_cast<double>(i) * step;
      canvas.box({left, foot_top, left + step, top}, rule);
      write(canvas, wrapped(canvas, entries[i].caption, cap_mm, width), cap_mm, left + inset_mm, top - inset_mm);
      write(canvas, wrapped(canvas, entries[i].number, at, width), at, left + inset_mm,
            top - inset_mm - captions_mm(canvas, width));
      canvas.text({left + inset_mm, blank_top - cap_mm - 1}, "measured", cap_mm, Layer::text);
    }
    canvas.line({{box.left, blank_top}, {box.right, blank_top}}, rule);
    if (!beneath.empty()) write(canvas, foot(canvas, width), cap_mm, box.left + inset_mm, foot_top - 0.8 * inset_mm);
    canvas.box({box.left, box.bottom, box.right, top}, edge);
  }
};

template <class What>
Part part_of(What what) {
  return {[what](const Canvas& canvas, double width) { return what.height(canvas, width); },
          [what](const Canvas& canvas, const Box& box) { what.draw(canvas, box); }};
}

}  // namespace

Part heading(std::string id, std::string mark, std::vector<std::string> there) {
  const Heading heading{std::move(id), std::move(mark), std::move(there)};
  return {[heading](const Canvas& canvas, double width) { return heading.set(canvas, width).height; },
          [heading](const Canvas& canvas, const Box& box) { heading.draw(canvas, box); }};
}

Part entries(std::string name, std::string words, std::vector<Entry> all, std::string beneath, double greatest_cap_mm) {
  return part_of(Row{std::move(name), std::move(words), std::move(all), std::move(beneath), greatest_cap_mm});
}

Part text(std::string heading, std::vector<std::string> sentences) {
  std::vector<Paragraph> all;
  for (std::string& sentence : sentences) all.push_back({"", std::move(sentence), Layer::text});
  const Paragraphs paragraphs(std::move(heading), std::move(all), {cap_mm, name_cap_mm});
  return {[paragraphs](const Canvas& canvas, double width) { return paragraphs.height(canvas, width); },
          [paragraphs](const Canvas& canvas, const Box& box) {
            paragraphs.draw(canvas, {box.left, box.top}, box.width());
          }};
}

Part together(std::vector<Part> parts) {
  constexpr double between_mm = 3;
  return {[parts](const Canvas& canvas, double width) {
            double height = -between_mm;
            for (const Part& part : parts) height += part.height(canvas, width) + between_mm;
            return height;
          },
          [parts](const Canvas& canvas, const Box& box) {
            double top = box.top;
            for (const Part& part : parts) {
              const double height = part.height(canvas, box.width());
              part.draw(canvas, {box.left, top - height, box.right, top});
              top -= height + between_mm;
            }
          }};
}

Part table(const std::vector<std::string>& headings, std::vector<std::vector<std::string>> rows) {
  std::vector<Column> columns;
  for (const std::string& heading : headings) columns.push_back({heading, Align::left, true});
  const Grid grid("", std::move(columns), std::move(rows), name_cap_mm);
  return {[grid](const Canvas& canvas, double width) { return grid.size(canvas, width).height_mm; },
          [grid](const Canvas& canvas, const Box& box) {
            grid.draw(canvas, {box.left, box.top}, box.width());
          }};
}

Part sketches(std::vector<views::SketchedMark> marks, bool falls, const Style& style) {
  constexpr double height_mm = 68, gap_mm = 4;
  return {[](const Canvas&, double) { return height_mm; },
          [marks = std::move(marks), falls, style](const Canvas& canvas, const Box& box) {
            const double middle = box.centre().x_mm;
            const Box left{box.left, box.bottom, middle - gap_mm / 2, box.top};
            const Box right{middle + gap_mm / 2, box.bottom, box.right, box.top};
            for (const Box& half : {left, right}) canvas.box(half, rule);
            views::draw_section_sketch(canvas, left.grown(-inset_mm), marks, style);
            views::draw_side_sketch(canvas, right.grown(-inset_mm), marks, falls, style);
          }};
}

namespace {

constexpr double compass_mm = 30, name_pitch = pitch * name_cap_mm;

void bold_arrow(const Canvas& canvas, Paper from, Paper to) {
  constexpr double head_mm = 5;
  const Paper along = to - from;
  const double angle = std::atan2(along.y_mm, along.x_mm);
  canvas.line({from, to - polar(0.8 * head_mm, angle)}, {extra_mm, LineType::continuous, Layer::sheaves});
  arrowhead(canvas, to, angle, Layer::sheaves, head_mm);
}

/// Looking down, the site's y axis up the page: the main line toward the landing as a thin arrow, the direction as a
/// bold one.
void draw_compass(const Canvas& canvas, const Box& box, const Turned& turned, const Frame& frame) {
  const Paper c = box.centre();
  const double r = std::min(box.width(), box.height()) / 2 - 1;
  const auto on_paper = [](Vec3 v) { return Paper{v.x, v.y}; };
  const Pen thin{narrow_mm, LineType::continuous, Layer::symbols};
  canvas.circle(c, r, {hair_mm, LineType::continuous, Layer::symbols});
  const Paper line = r * on_paper(frame.along);
  arrow(canvas, c - line, c + line, thin);
  constexpr double upright = 0.05;
  const Paper toward = on_paper(turned.direction);
  if (!(length(toward) > upright))
    return canvas.circle(c, 1.5, {extra_mm, LineType::continuous, Layer::sheaves}, Fill::ink);
  const Paper out = 0.8 * r / length(toward) * toward;
  bold_arrow(canvas, turned.axle ? c - out : c, c + out);
  if (!turned.axle) return;
  // The sheave as it is seen from above: a narrow box square to its axle.
  const Paper a = 0.12 * out, b = 0.55 * left_of(out);
  canvas.outline({c - a - b, c + a - b, c + a + b, c - a + b}, {wide_mm, LineType::continuous, Layer::sheaves},
                 Fill::paper);
}

}  // namespace

Part lies(std::vector<Turned> all, const Frame& frame, const std::string& y_axis) {
  const std::string key = "thin: toward the landing; up: " + y_axis;
  // Two abreast whether there are two or not: what stands alone is no wider.
  const auto words_width = [](double width) { return width / 2 - 2 * inset_mm - compass_mm - 2; };
  const auto height = [all, words_width](const Canvas& canvas, double width) {
    double most = 0;
    for (const Turned& turned : all) {
      double lines = 0;
      for (const std::string& words : turned.words)
        lines += static_cast<double>(canvas.wrap(words, cap_mm, words_width(width)).size());
      most = std::max(most, lines * pitch * cap_mm);
    }
    return 2 * inset_mm + name_pitch + std::max(compass_mm, most) + 1.5 * cap_mm;
  };
  return {height, [all, frame, key, words_width](const Canvas& canvas, const Box& box) {
            for (std::size_t i = 0; i < all.size(); ++i) {
              const double left = box.left + static_cast<double>(i) * box.width() / 2;
              const Box field{left, box.bottom, left + box.width() / 2, box.top}, in = field.grown(-inset_mm);
              canvas.box(field, rule);
              canvas.lettering({in.left, in.top - name_cap_mm}, canvas.fitted(all[i].name, name_cap_mm, in.width()),
                               name_cap_mm, Layer::text);
              const double top = in.top - name_pitch;
              const Box compass{in.left, top - compass_mm, in.left + compass_mm, top};
              draw_compass(canvas, compass, all[i], frame);
              double y = top;
              for (const std::string& words : all[i].words)
                y = write(canvas, canvas.wrap(words, cap_mm, words_width(box.width())), cap_mm, compass.right + 2, y);
              canvas.lettering({in.left, in.bottom}, canvas.fitted(key, cap_mm, in.width()), cap_mm, Layer::text);
            }
          }};
}

Part main_line_sketch(std::vector<views::MarkOnLine> marks) {
  constexpr double height_mm = 46;
  return {[](const Canvas&, double) { return height_mm; },
          [marks = std::move(marks)](const Canvas& canvas, const Box& box) {
            canvas.box(box, rule);
            views::draw_main_line_sketch(canvas, box.grown(-inset_mm), marks);
          }};
}

Part signatures() {
  constexpr double height_mm = 15;
  return {[](const Canvas&, double) { return height_mm; },
          [](const Canvas& canvas, const Box& box) {
            const std::pair<double, const char*> fields[] = {
                {0.34, "set out by"}, {0.16, "date"}, {0.34, "checked by"}, {0.16, "date"}};
            double left = box.left;
            for (const auto& [share, words] : fields) {
              const double right = left + share * box.width();
              canvas.box({left, box.bottom, right, box.top}, rule);
              canvas.text({left + inset_mm, box.top - inset_mm - cap_mm}, words, cap_mm, Layer::text);
              left = right;
            }
            canvas.box(box, edge);
          }};
}

}  // namespace fairlead::sheets::crew
