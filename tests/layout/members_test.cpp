// Anchors that are built up of legs, guys and poles; brackets, directions and movements of anchors.
#include "geometry/layout/items.hpp"
#include "tests/layout/good_layout.hpp"

namespace fairlead {
namespace {

const std::string guys =
    "[[member]]\nid = \"P3\"\nanchor = \"A3\"\nkind = \"pole\"\nto = [180, 0, 4]\nea = \"60 MN\"\n"
    "compression_limit = \"40 kN\"\n\n"
    "[[member]]\nid = \"G1\"\nanchor = \"A3\"\nkind = \"guy\"\nto = [172, 3, 4]\nea = \"9 MN\"\npretension = \"2 kN\"\n"
    "wll = \"2 t\"\nmay_be_lost = true\n\n"
    "[[member]]\nid = \"G2\"\nanchor = \"A3\"\nkind = \"guy\"\nto = [172, -3, 4]\nea = \"9 MN\"\nmbs = \"80 kN\"\n\n";

std::string guyed(const std::string& was = "", const std::string& is = "") {
  const std::string text = edited("[[sheave]]", guys + "[[sheave]]");
  return was.empty() ? text : edited(was, is, text);
}

TEST(ReadMember, LegsGuysAndPolesHoldAnAnchor) {
  const Layout layout = layout_of(guyed());
  ASSERT_EQ(layout.members.size(), 3u);
  const Member &pole = layout.members[0], &guy = layout.members[1];
  EXPECT_EQ(pole.anchor, AnchorId{2});
  EXPECT_EQ(pole.kind, MemberKind::pole);
  EXPECT_EQ(pole.to.value, (Point3{180, 0, 4}));
  EXPECT_EQ(pole.compression_limit_N->value, 40e3);
  EXPECT_FALSE(pole.may_be_lost || pole.pretension_N || pole.wll_N);
  EXPECT_EQ(guy.pretension_N->value, 2000);
  EXPECT_EQ(guy.ea_N->value, 9e6);
  EXPECT_NEAR(*guy.wll_N, 19613.3, 1e-9);
  EXPECT_TRUE(guy.may_be_lost->value);
  EXPECT_EQ(*given_id(layout, {Item::Kind::member, 2}), "G2");
}

TEST(ReadMember, AnAnchorThatMembersHoldNeedsNoMarkOfItsOwn) {
  const Layout layout = layout_of(guyed("mbs = \"10 t\"\n", ""));
  EXPECT_FALSE(layout.anchors[2].wll_N || layout.anchors[2].mbs_N);
}

TEST(ReadAnchor, ItsBaseConeAndMovementAreReadInSi) {
  const Layout layout =
      layout_of(edited("mbs = \"10 t\"",
                       "mbs = \"10 t\"\nbase = [180, 0, \"11 m\"]\nbase_moment = \"3 kN m\"\ncone_axis = [1, 0, -1]\n"
                       "cone_angle = \"30 deg\"\nmovement = [\"20 mm\", \"10 mm\", 0]"));
  const Anchor& anchor = layout.anchors[2];
  EXPECT_EQ(anchor.base->value, (Point3{180, 0, 11}));
  EXPECT_EQ(anchor.base_moment_N_m->value, 3000);
  EXPECT_EQ(anchor.cone_axis->value, (Vec3{1, 0, -1}));
  EXPECT_NEAR(*anchor.cone_angle_rad, 0.523598776, 5e-10);
  EXPECT_EQ(anchor.movement->value, (Size{0.02, 0.01, 0}));
}

TEST(ReadAnchor, InPlaceOfAMovementItGivesItsStiffness) {
  const std::string mark = "mbs = \"10 t\"";
  const Layout layout = layout_of(edited(mark, mark + "\nstiffness = [\"200 kN/m\", \"150 kN/m\", \"2000 kN/m\"]"));
  EXPECT_EQ(layout.anchors[2].stiffness_N_per_m->value, (PerAxis{200e3, 150e3, 2e6}));
  expect_each({
      {mark, mark + "\nstiffness = \"200 kN/m\"", "\"200 kN/m\"",
       "anchor \"A3\": \"stiffness\" is three values [along, across, up], not a text",
       "for example stiffness = [\"200 kN/m\", \"200 kN/m\", \"2000 kN/m\"]"},
      {mark, mark + "\nmovement = [0, 0, 0.1]\nstiffness = [\"1 N/m\", \"1 N/m\", \"1 N/m\"]", "stiffness",
       "anchor \"A3\": \"movement\" and \"stiffness\" are both given",
       "of \"movement\" and \"stiffness\" only one may be given"},
  });
}

TEST(MemberErrors, WhatAnAnchorNeedsIsSaid) {
  const std::string mark = "mbs = \"10 t\"";
  expect_each({
      {mark, mark + "\nbase_moment = \"3 kN m\"", "\"3 kN m\"",
       "anchor \"A3\": \"base_moment\" says nothing without \"base\"", ""},
      {mark, mark + "\ncone_angle = \"3 deg\"", "\"3 deg\"",
       "anchor \"A3\": \"cone_angle\" says nothing without \"cone_axis\"", ""},
      {mark, mark + "\nmovement = [0, 0, -0.1]", "-0.1", "anchor \"A3\": \"movement\" must not be negative", ""},
  });
}

/// One error in the guyed layout, at the first `underlined` from where it was changed.
void expect_mistake(const Mistake& m) {
  const std::string text = guyed(m.was, m.is);
  const std::size_t from = m.underlined == "[[member]]" ? 0 : guyed().find(m.was);
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find(m.underlined, from), m.underlined.size(), m.message, m.instead))
      << m.is;
}

TEST(MemberErrors, EachIsPointedOutWithWhatToWrite) {
  for (const Mistake& m : {
           Mistake{"anchor = \"A3\"", "anchor = \"A7\"", "\"A7\"",
                   "member \"P3\": there is no \"A7\"; an anchor is wanted", "known: A1, A2, A3, A4"},
           {"kind = \"pole\"", "kind = \"mast\"", "\"mast\"", "member \"P3\": \"kind\" can not be \"mast\"",
            "known: leg, guy, pole"},
           {"to = [180, 0, 4]", "to = [180, 0, 11.6]", "[180, 0, 11.6]",
            "member \"P3\": it ends at the point of \"A3\" that it holds", "give the point where it is fixed"},
           {"ea = \"60 MN\"\n", "", "[[member]]", "member \"P3\": \"ea\" is missing, which \"G1\" beside it has",
            "give \"ea\" to all members of an anchor, or to none"},
           {"ea = \"60 MN\"", "ea = \"60 MN\"\npretension = \"1 kN\"", "\"1 kN\"",
            "member \"P3\": a pole has no \"pretension\"", "only a guy has it"},
           {"pretension = \"2 kN\"", "compression_limit = \"2 kN\"", "\"2 kN\"",
            "member \"G1\": a guy has no \"compression_limit\"", "only a pole has it"},
           {"may_be_lost = true", "may_be_lost = \"yes\"", "\"yes\"",
            "member \"G1\": \"may_be_lost\" is true or false, not a text", "for example may_be_lost = true"},
       })
    expect_mistake(m);
}

TEST(MemberErrors, NothingTightensAGuyWithoutOthers) {
  const std::string one =
      "[[member]]\nid = \"G1\"\nanchor = \"A3\"\nkind = \"guy\"\nto = [172, 3, 4]\n"
      "pretension = \"2 kN\"\n\n";
  const std::string text = edited("[[sheave]]", one + "[[sheave]]");
  EXPECT_EQ(printed_errors(text), error_at(text, text.find("\"2 kN\""), 6,
                                           "member \"G1\": no other members hold \"A3\", and nothing tightens it",
                                           "leave out \"pretension\", or add the members that it pulls against"));
}

TEST(MemberErrors, MoreMembersThanCanBeTriedAreRefused) {
  std::string many;
  for (int i = 1; i <= 9; ++i)
    many += fmt::format("[[member]]\nid = \"G{}\"\nanchor = \"A3\"\nkind = \"guy\"\nto = [172, {}, 4]\n\n", i, i);
  const std::string text = edited("[[sheave]]", many + "[[sheave]]");
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find("\"A3\"", text.find("G9")), 4, "anchor \"A3\": more than 8 members hold it",
                     "take those together that lead to one point"));
}

}  // namespace
}  // namespace fairlead
