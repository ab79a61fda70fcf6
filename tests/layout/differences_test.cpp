#include "geometry/layout/differences.hpp"

#include <set>

#include "geometry/layout/layout_fields.hpp"
#include "geometry/layout/outline.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

Layout shipped(const std::string& name) { return read_layout((top / "layouts" / name).string()).value(); }

/// Every change as "section id key", with what was and what is exchanged where asked.
std::multiset<std::string> told_changes(const std::vector<PartChange>& changes, bool mirrored = false) {
  std::multiset<std::string> all;
  const auto words = [](const std::optional<Told>& told) {
    if (!told) return std::string("nothing");
    std::string text = told->words;
    for (const Quantity& number : told->numbers) text += fmt::format(" {}", number.si);
    return fmt::format("{} at {}", text, told->place.line);
  };
  const auto place = [](const std::optional<Place>& at) { return at ? std::to_string(at->line) : "nowhere"; };
  for (const PartChange& part : changes) {
    const auto& [was, is] = mirrored ? std::pair(part.is, part.was) : std::pair(part.was, part.is);
    all.insert(fmt::format("{} {} stood at {} and {}, {}", part.section, part.id, place(was), place(is),
                           part.perhaps_renamed));
    for (const KeyChange& key : part.keys) {
      const auto& [old, now] = mirrored ? std::pair(key.is, key.was) : std::pair(key.was, key.is);
      all.insert(fmt::format("{} {} {}: {}, {}", part.section, part.id, key.name, words(old), words(now)));
    }
  }
  return all;
}

const char* const all_layouts[] = {"heron_gully.toml", "heron_gully_spoiled.toml", "marten_ridge.toml",
                                   "sable_weir.toml",  "larch_spur.toml",          "larch_spur_spoiled.toml"};

TEST(Differences, ALayoutDoesNotDifferFromItself) {
  for (const char* name : all_layouts) EXPECT_TRUE(differences(shipped(name), shipped(name)).empty()) << name;
  EXPECT_TRUE(differences(layout_of(good_text()), layout_of(good_text())).empty());
}

TEST(Differences, TheOtherWayRoundAddedIsRemovedAndOldIsNew) {
  for (const char* a : all_layouts)
    for (const char* b : all_layouts) {
      const auto forth = differences(shipped(a), shipped(b)), back = differences(shipped(b), shipped(a));
      EXPECT_EQ(told_changes(forth), told_changes(back, true)) << a << ", " << b;
      EXPECT_EQ(forth.empty(), std::string_view(a) == b) << a << ", " << b;
      for (const PartChange& one : forth)
        for (const KeyChange& key : one.keys) {
          KeyChange mirrored = key;
          std::swap(mirrored.was, mirrored.is);
          EXPECT_EQ(strictness(key) == Strictness::loosened, strictness(mirrored) == Strictness::tightened);
        }
    }
}

TEST(Differences, CommentsOrderAndUnitsAreNone) {
  const std::string text = good_text();
  const Layout plain = layout_of(text);
  const auto same = [&](const std::string& was, const std::string& is) {
    const auto found = differences(plain, layout_of(edited(was, is)));
    EXPECT_TRUE(found.empty()) << is << ": " << found.front().section << " " << found.front().keys.front().name;
  };
  same("altitude = \"1480 ft\"", "# higher than it looks\naltitude = \"451.104 m\"");
  same("position = [220.0, \"0 ft\", \"26 ft 3 in\"]", "position = [220, 0, 8.001]");
  same("wll = \"9000 lb\"", "wll = \"9000 lbf\"");
  same("clear_of = [\"lines\", \"block\"]", "clear_of = [\"block\", \"lines\"]");
  same("route = [\"R1\", { sheave", "route = [{ sheave = \"R1\" }, { sheave");
  const std::string last = "[[anchor]]\nid = \"A4\"\nposition = [216, 0, 9]\nwll = \"2 t\"\n";
  const std::string moved_up = edited(last, "");
  EXPECT_TRUE(
      differences(plain, layout_of(edited("[[anchor]]\nid = \"A1\"", last + "\n[[anchor]]\nid = \"A1\"", moved_up)))
          .empty());
}

/// Makes another value of one, by its n-th number where it has several, and of nothing one.
class Turn {
 public:
  explicit Turn(int nth) : nth_(nth) {}

  void operator()(std::string& text) const { text += "x"; }
  void operator()(double& si) const { si = 1.25 * si + 1; }
  void operator()(bool& truth) const { truth = !truth; }
  void operator()(Range& range) const { (nth_ == 0 ? range.low : range.high) += 1; }
  void operator()(Point3& p) const { (nth_ == 0 ? p.x : nth_ == 1 ? p.y : p.z) += 0.25; }
  void operator()(Vec3& v) const { (nth_ == 0 ? v.x : nth_ == 1 ? v.y : v.z) += 0.25; }
  void operator()(Size& size) const { (nth_ == 0 ? size.along_m : nth_ == 1 ? size.across_m : size.up_m) += 0.25; }
  void operator()(PerAxis& per) const { (nth_ == 0 ? per.along : nth_ == 1 ? per.across : per.up) += 1; }
  void operator()(Date& date) const { ++(nth_ == 0 ? date.year : nth_ == 1 ? date.month : date.day); }
  void operator()(Limit& limit) const {
    if (nth_ == 0)
      limit.basis += "x";
    else
      limit.at.value += 1;
  }
  void operator()(std::array<std::string, 3>& axes) const { axes[static_cast<std::size_t>(nth_)] += "x"; }
  void operator()(std::vector<std::string>& ids) const { ids.emplace_back("x"); }
  void operator()(Curve& curve) const {
    std::vector<CurvePoint> points = curve.points();
    points.push_back({points.empty() ? 1 : points.back().x + 1, 1});
    curve = Curve(points);
  }
  void operator()(std::vector<Over>& route) const { route.push_back({SheaveId{0}, Turning::clockwise, {}}); }
  void operator()(AnchorId& id) const { id = id == AnchorId{0} ? AnchorId{1} : AnchorId{0}; }
  void operator()(BlockId& id) const { id = BlockId{1}; }
  template <class... Ends>
  void operator()(std::variant<Ends...>& end) const {
    const std::variant<Ends...> first = AnchorId{0}, second = AnchorId{1};
    end = end == first ? second : first;
  }
  template <class E>
  requires std::is_enum_v<E>
  void operator()(E& one) const { one = choices_of<E>[one == choices_of<E>[0].value ? 1 : 0].value; }
  template <class E>
  requires std::is_enum_v<E>
  void operator()(std::vector<E>& several) const { several.size() > 1 ? several.pop_back() : several.clear(); }
  template <class V>
  void operator()(Given<V>& given) const {
    (*this)(given.value);
  }
  template <class V>
  void operator()(std::optional<V>& stored) const {
    if (!stored) stored.emplace();
    (*this)(*stored);
  }
  template <class T>
  requires(!fields_of<T>.empty()) void operator()(T&) const {}  // its keys are turned one by one

 private:
  int nth_;
};

template <class V>
constexpr bool is_table = !fields_of<V>.empty();
template <class T>
constexpr bool is_table<std::optional<T>> = is_table<T>;
template <class V>
constexpr bool is_list_of_tables = false;
template <class T>
constexpr bool is_list_of_tables<std::vector<T>> = is_table<T> && !std::is_same_v<T, Over>;

/// Every key of every table, turned in turn.
class EveryKey {
 public:
  EveryKey(const Layout& layout, int nth) : layout_(layout), nth_(nth) {
    for (const Field<Layout>& field : fields_of<Layout>)
      visit_stored(field, layout_, [&](auto& section) { in_section(std::string(field.key.name), section); });
  }

  std::set<std::string> noticed;  ///< "anchor.position"
  std::set<std::string> missed;   ///< though nothing else could have held in its place

 private:
  template <class T>
  void in_section(const std::string& path, std::optional<T>& section) {
    const bool none = !section;
    if (none) section.emplace();
    in_table(path, *section);
    if (none) section.reset();
  }
  template <class T>
  void in_section(const std::string& path, std::vector<T>& list) {
    for (T& item : list) in_table(path, item);
  }
  template <class T>
  void in_section(const std::string& path, T& section) {
    in_table(path, section);
  }

  template <class T>
  void in_table(const std::string& path, T& table) {
    const Layout as_it_was = layout_;
    for (const Field<T>& field : fields_of<T>) {
      const std::string key = path + "." + std::string(field.key.name);
      const T kept = table;
      visit_stored(field, table, [&](auto& stored, const auto&...) {
        if constexpr (is_list_of_tables<std::remove_cvref_t<decltype(stored)>> ||
                      is_table<std::remove_cvref_t<decltype(stored)>>)
          in_section(key, stored);
        else
          Turn{nth_}(stored);
      });
      const bool may_be_idle = field.key.group > 0 || !(field.key.fallback.empty() || field.key.with.empty());
      look(key, differences(as_it_was, layout_), may_be_idle || is_nested(field, table));
      table = kept;
    }
  }

  template <class T>
  static bool is_nested(const Field<T>& field, const T& table) {
    bool nested = false;
    visit_stored(field, table, [&](const auto& stored, const auto&...) {
      using V = std::remove_cvref_t<decltype(stored)>;
      nested = is_list_of_tables<V> || is_table<V>;
    });
    return nested;
  }

  void look(const std::string& key, const std::vector<PartChange>& changes, bool may_be_missed) {
    bool seen = false;
    for (const PartChange& part : changes)
      for (const KeyChange& one : part.keys) seen = seen || part.section + "." + one.name == key;
    if (seen)
      noticed.insert(key);
    else if (!may_be_missed)
      missed.insert(key);
  }

  Layout layout_;
  int nth_;
};

void gather(const Outline& table, const std::string& path, std::set<std::string>& keys) {
  for (const Outline& outline : table.keys) {
    const std::string key = path + std::string(outline.key.name);
    const bool leaf = outline.kind != Outline::Kind::table && outline.kind != Outline::Kind::tables;
    if (leaf) keys.insert(key);
    if (outline.kind != Outline::Kind::route) gather(outline, key + ".", keys);
  }
}

// Walks the tables, so that a new key is asked for without anyone adding it here.
TEST(Differences, NoKeyThatThereIsCanChangeUnseen) {
  std::set<std::string> all, noticed;
  gather(layout_outline(), "", all);
  Layout full = layout_of(good_text());
  full.parallel_lines.emplace_back().id.value = "M2";
  full.members.emplace_back().id.value = "G1";
  full.blocks.emplace_back().id.value = "B2";
  // One tells the pitch diameter by its tread, the other has none.
  Layout by_pitch = full;
  for (Sheave& sheave : by_pitch.sheaves) sheave.tread_diameter_m.reset(), sheave.mass_kg = Real{1, {}};
  by_pitch.site.ice_thickness_m = Real{0.01, {}};
  for (Structure& structure : by_pitch.structures) {
    structure.size_m = Given<Size>{{1, 1, 1}, {}};
    structure.file = Words{"s.stl", {}};
  }
  for (auto* cable : {&by_pitch.parallel_lines.front()}) cable->tension_N = Real{1, {}};
  for (SupportLine& line : by_pitch.support_lines) line.tension_N = Real{1, {}};
  for (const Layout& layout : {full, by_pitch})
    for (int nth = 0; nth < 3; ++nth) {
      EveryKey every(layout, nth);
      noticed.merge(every.noticed);
      for (const std::string& key : every.missed) ADD_FAILURE() << key << ", number " << nth;
    }
  for (const std::string& key : all) EXPECT_TRUE(noticed.contains(key)) << key;
  EXPECT_GT(all.size(), 150u);
}

TEST(Differences, WhatFollowsFromAnotherKeyIsNoChangeOfItsOwn) {
  const auto found = differences(layout_of(good_text()),
                                 layout_of(edited("tread_diameter = \"192 mm\"", "tread_diameter = \"202 mm\"")));
  ASSERT_EQ(found.size(), 1u);
  ASSERT_EQ(found[0].keys.size(), 1u);
  EXPECT_EQ(found[0].keys[0].name, "tread_diameter");
}

TEST(Differences, AnAnchorUnderAnotherNameInItsPlaceIsPerhapsRenamed) {
  std::string text = file_text(top / "layouts/heron_gully.toml");
  for (std::size_t at = text.find("\"A3\""); at != text.npos; at = text.find("\"A3\"", at))
    text.replace(at, 4, "\"AX\"");
  const auto found = differences(shipped("heron_gully.toml"), layout_of(text));
  ASSERT_EQ(found.size(), 3u);  // gone, come, and the sheave that stands on it
  EXPECT_EQ(found[0].id, "A3");
  EXPECT_EQ(found[0].perhaps_renamed, "AX");
  EXPECT_EQ(found[1].id, "AX");
  EXPECT_EQ(found[1].perhaps_renamed, "A3");
  EXPECT_EQ(found[2].keys.front().name, "on");
  const auto moved =
      differences(shipped("heron_gully.toml"),
                  layout_of(edited("[1348.000, 911.000, 331.700]", "[1348.000, 911.001, 331.700]", text)));
  EXPECT_EQ(moved[0].perhaps_renamed, "") << "it stands elsewhere";
}

Strictness of(const std::string& was, const std::string& is) {
  const auto found = differences(layout_of(good_text()), layout_of(edited(was, is)));
  EXPECT_EQ(found.size(), 1u) << is;
  EXPECT_EQ(found.front().keys.size(), 1u) << is;
  return strictness(found.front().keys.front());
}

TEST(Differences, ALimitThatJudgesLessIsLoosened) {
  EXPECT_EQ(of("fleet_angle = { at = \"4 deg\"", "fleet_angle = { at = \"5 deg\""), Strictness::loosened);
  EXPECT_EQ(of("fleet_angle = { at = \"4 deg\"", "fleet_angle = { at = \"3 deg\""), Strictness::tightened);
  EXPECT_EQ(of("line_clearance = { at = \"100 mm\"", "line_clearance = { at = \"90 mm\""), Strictness::loosened);
  EXPECT_EQ(of("design_factor = { at = 5", "design_factor = { at = 6"), Strictness::tightened);
  EXPECT_EQ(of("fleet_angle = { at = \"4 deg\", basis = \"invented\" }",
               "fleet_angle = { at = \"4 deg\", basis = \"our engineer\" }"),
            Strictness::unsaid);
  EXPECT_EQ(of("lift_share = { at = \"50 %\", basis = \"invented\" }\n", ""), Strictness::loosened);
  EXPECT_EQ(of("lift_share = { at", "wrap = { at = \"90 deg\", basis = \"invented\" }\nlift_share = { at"),
            Strictness::tightened);
  EXPECT_EQ(of("main_line_factor = { at = 3, basis = \"invented\" }\n", ""), Strictness::unsaid)
      << "design_factor holds in its place";
}

TEST(Tables, EveryLimitSaysWhichWayIsStricter) {
  int limits = 0;
  const auto look = [&](const auto& again, const Outline& table, const std::string& path) -> void {
    for (const Outline& outline : table.keys) {
      if (outline.kind == Outline::Kind::limit) {
        ++limits;
        EXPECT_NE(outline.key.stricter, Stricter::not_a_limit) << path << outline.key.name;
        // "greatest ..." judges more strictly below it, "least ..." above it.
        const bool greatest = outline.key.says.starts_with("greatest"), least = outline.key.says.starts_with("least");
        EXPECT_TRUE(!greatest || outline.key.stricter == Stricter::lower) << outline.key.name;
        EXPECT_TRUE(!least || outline.key.stricter == Stricter::higher) << outline.key.name;
      }
      again(again, outline, path + std::string(outline.key.name) + ".");
    }
  };
  look(look, layout_outline(), "");
  EXPECT_GT(limits, 20);
}

}  // namespace
}  // namespace fairlead
