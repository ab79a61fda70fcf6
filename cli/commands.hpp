// One file a command: each reads, judges, and writes.
#pragma once

#include "cli/paper.hpp"

namespace fairlead::cli {

int check(const JudgeOptions&, const std::string& format);

struct DrawOptions {
  std::string output;  ///< .pdf, .svg, .dxf, or a folder for all of them and the tables
  PaperOptions paper;
  std::string scale;  ///< of the general arrangement, "1:100"; empty: the greatest there is room for
  bool windows{};     ///< with the box of all marks; never with single windows, which are no tolerances
  std::string trial;  ///< file of results: tested points on the braking chart; empty: none
};
int draw(const JudgeOptions&, const DrawOptions&);

/// What changed from options.layout to `now`; cleared (0) whatever it is.
int compare(const JudgeOptions&, const std::string& now, const std::string& format);

struct SetoutOptions {
  std::string format;         ///< "text", "csv", "json"; empty: what the output's name ends in, else text
  std::string output;         ///< empty: standard output
  std::string tape = "30 m";  ///< the longest to pull
  std::string order, unit;    ///< of a points file
  bool windows{};             ///< with how far each mark may be off, and all at once
  PaperOptions paper;
};
/// What the rig is set out by. Returns the same as draw.
int setout(const JudgeOptions&, const SetoutOptions&);

struct ArrestOptions {
  std::string format;  ///< "text", "json"; empty: what the output's name ends in, else text
  std::string output;  ///< empty: standard output
};
/// How riders stop, and the way back to ready, of a layout or a concept. Returns the same as check.
int arrest(const JudgeOptions&, const ArrestOptions&);

struct AsbuiltOptions {
  std::string points, measurements;  ///< files; the first empty of tapes alone, the second where there is none
  std::string order, unit;           ///< of the points file; empty without one
  std::string uncertainty;           ///< of its coordinates; likewise
  std::string since;                 ///< an earlier points file of the same order and unit; empty: none
  std::string since_uncertainty;     ///< of its coordinates; empty: the same
  std::vector<std::string> control;  ///< ids
  bool tilted{};                     ///< fitted about any axis, not the plumb line alone
  int draws = 100;
  unsigned long seed = 1;
  bool hold_arrest{};
  bool linear{};       ///< most draws are told straight from a few exact ones
  bool windows{};      ///< with the box of all marks
  std::string format;  ///< "text", "json"; empty: what the output's name ends in, else text
  std::string output;  ///< empty: standard output
  PaperOptions paper;  ///< of sheets
};
/// The layout as it was built, by points and measurements. 0 where the rig as built is cleared.
int asbuilt(const JudgeOptions&, const AsbuiltOptions&);

struct RecordsOptions {
  std::string parts, measurements, log;  ///< files; the second and third empty where there is none
  std::string format;                    ///< "text", "json"; empty: what the output's name ends in, else text
  std::string output;                    ///< empty: standard output
  PaperOptions paper;                    ///< of inspection forms
};
/// The parts in service: in date, not worn out, nothing found on them left open. 0 where all of it passes.
int records(const JudgeOptions&, const RecordsOptions&);

struct TrialOptions {
  std::string results;  ///< file; empty: the plan alone
  std::string format;   ///< "text", "json"; empty: what the output's name ends in, else text
  std::string output;   ///< empty: standard output
};
/// The plan of unmanned tests, and what came of them. 0 where the layout is cleared and, with results, every test of
/// the plan passed.
int trial(const JudgeOptions&, const TrialOptions&);

/// A text to start from to standard output, or to a file that does not exist yet.
int new_file(const std::string& output, const std::string& text);

/// What a check judges, or what a key of the layout means; all checks when the name is empty.
int explain(const std::string& name);

}  // namespace fairlead::cli
