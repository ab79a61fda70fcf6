#include "report/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "geometry/checks/list.hpp"
#include "geometry/layout/items.hpp"
#include "geometry/layout/member_fields.hpp"

namespace fairlead::words {
namespace {

std::string with_line(const std::string& file, unsigned line) {
  return line > 0 ? fmt::format("{}:{}", file, line) : file;
}

std::string what_is_waived(const Layout& layout, std::span<const Finding> findings) {
  std::string names;
  for (const Finding& f : findings)
    if (outcome_of(f) == Outcome::waived)
      names += fmt::format("{}{} {}", names.empty() ? "" : ", ", f.check->name, id_of(layout, f.subject));
  return names;
}

}  // namespace

std::string_view kind_of(Item::Kind kind) {
  switch (kind) {
    case Item::Kind::layout:
      return "layout";
    case Item::Kind::main_line:
      return "main line";
    case Item::Kind::anchor:
      return "anchor";
    case Item::Kind::sheave:
      return "sheave";
    case Item::Kind::line:
      return "line";
    case Item::Kind::block:
      return "block";
    case Item::Kind::connector:
      return "connector";
    case Item::Kind::brake_unit:
      return "brake unit";
    case Item::Kind::brake_trolley:
      return "brake trolley";
    case Item::Kind::backup_brake:
      return "backup brake";
    case Item::Kind::rider:
      return "rider";
    case Item::Kind::landing:
      return "landing";
    case Item::Kind::support_line:
      return "support line";
    case Item::Kind::structure:
      return "structure";
    case Item::Kind::parallel_line:
      return "parallel line";
    case Item::Kind::member:
      return "member";
  }
  return "item";
}

std::string name_of(const Layout& layout, Item item) {
  const std::string* id = given_id(layout, item);
  return id ? fmt::format("{} {}", kind_of(item.kind), *id) : std::string(kind_of(item.kind));
}

std::string member_words(const Layout& layout, int index) {
  const Member& member = layout.members[static_cast<std::size_t>(index)];
  for (const auto& choice : choices_of<MemberKind>)
    if (choice.value == member.kind) return std::string(choice.word) + " " + member.id.value;
  return member.id.value;
}

std::string id_of(const Layout& layout, Item item) {
  const std::string* id = given_id(layout, item);
  return id ? *id : std::string(kind_of(item.kind));
}

std::string place_of(const Layout& layout, Place place) { return with_line(layout.files.at(place.file), place.line); }

std::string place_without_folder(const Layout& layout, Place place) {
  return with_line(std::filesystem::path(layout.files.at(place.file)).filename(), place.line);
}

std::string date_of(Date date) { return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day); }

Outcome outcome_of(const Finding& finding) {
  if (finding.verdict == Verdict::pass) return Outcome::pass;
  if (finding.waiver >= 0) return Outcome::waived;
  if (finding.verdict == Verdict::fail) return Outcome::fail;
  return finding.verdict == Verdict::not_judged ? Outcome::not_judged : Outcome::undetermined;
}

std::string_view word_for(Outcome outcome) {
  switch (outcome) {
    case Outcome::fail:
      return word_for(Verdict::fail);
    case Outcome::undetermined:
      return word_for(Verdict::undetermined);
    case Outcome::not_judged:
      return word_for(Verdict::not_judged);
    case Outcome::waived:
      return "waived";
    case Outcome::pass:
      return word_for(Verdict::pass);
  }
  return "undetermined";
}

std::string_view word_for(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail:
      return "fail";
    case Verdict::undetermined:
      return "undetermined";
    case Verdict::not_judged:
      return "not judged";
    case Verdict::pass:
      return "pass";
  }
  return "undetermined";
}

std::vector<const Check*> without_subject(std::span<const Finding> findings) {
  std::vector<const Check*> without;
  for (const Check* check : all_checks())
    if (std::none_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.check == check; }))
      without.push_back(check);
  return without;
}

std::span<const Check* const> arrest_checks() {
  static constexpr const Check* checks[] = {
      &rider_arrives, &rider_mass, &rider_stops,   &arrest_extension, &line_speed,  &rider_load,  &trolley_deceleration,
      &swing,         &final_rest, &reset_reserve, &return_speed,     &model_range, &backup_alone};
  return checks;
}

std::string terms_of(const Waiver& waiver) {
  return fmt::format("by {} until {}: {}", waiver.who, date_of(waiver.until), waiver.why);
}

std::string headline(const Judged& judged) {
  const auto count = [&](Outcome outcome) {
    return std::count_if(judged.findings.begin(), judged.findings.end(),
                         [&](const Finding& f) { return outcome_of(f) == outcome; });
  };
  std::string counts;
  const auto add = [&](Outcome outcome) {
    if (const auto n = count(outcome); n > 0)
      counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", n, word_for(outcome));
  };
  if (exit_status(judged.findings) == 0) {
    add(Outcome::pass);
    add(Outcome::waived);
    if (count(Outcome::waived) > 0) counts += fmt::format(" ({})", what_is_waived(judged.rig.layout, judged.findings));
    return (judged.rig.idea ? "PASSED AS A FIRST ESTIMATE by these checks: " : "CLEARED by these checks: ") + counts;
  }
  for (const Outcome outcome : {Outcome::fail, Outcome::undetermined, Outcome::not_judged}) add(outcome);
  return (judged.rig.idea ? "NOT PASSED AS A FIRST ESTIMATE: " : "NOT CLEARED: ") +
         (counts.empty() ? "nothing was judged" : counts);
}

}  // namespace fairlead::words
