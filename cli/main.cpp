#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>

#include "cli/commands.hpp"
#include "cli/examples.hpp"
#include "cli/interrupt.hpp"
#include "cli/progress.hpp"
#include "geometry/asbuilt/drawn_findings.hpp"
#include "geometry/quantity/nearest.hpp"
#include "report/words/labels.hpp"
#include "report/words/version.hpp"

namespace fairlead::cli {
namespace {

/// Of every command that judges, however many layouts.
void add_common_options(CLI::App& command, JudgeOptions& options) {
  command.add_option("--date", options.date, "the day certificates and waivers are judged at (default: project.date)")
      ->type_name("YYYY-MM-DD");
  command
      .add_option("--units", options.units, "units shown: si, us (feet and inches), us-tenths (decimal feet) or both")
      ->check(CLI::IsMember({"si", "us", "us-tenths", "both"}))
      ->capture_default_str();
  command.add_option("--threads", options.threads, "threads to compute with; the result does not depend on it")
      ->check(CLI::Range(1, 64))
      ->capture_default_str();
}

void add_judge_options(CLI::App& command, JudgeOptions& options) {
  command.add_option("LAYOUT", options.layout, "the layout file (TOML)")->required();
  command.add_option("--set", options.set, "try a change without editing the file; may be repeated")
      ->type_name("KEY=VALUE")
      ->allow_extra_args(false);
  CLI::Option* loan =
      command
          .add_option(
              "--loan", options.loan,
              "the serial of another brake unit that stands in the layout's place: all is judged with its data, "
              "and none of the other's is left; the line out at rest stays the layout's, and is measured anew")
          ->type_name("SERIAL");
  CLI::Option* units = command.add_option("--units-file", options.units_file, "the data of units: serial, key, value")
                           ->type_name("FILE");
  loan->needs(units);
  units->needs(loan);
  add_common_options(command, options);
}

void add_format_option(CLI::App& command, std::string& format) {
  command.add_option("--format", format, "text or json")->check(CLI::IsMember({"text", "json"}))->capture_default_str();
}

void add_paper_options(CLI::App& command, PaperOptions& paper) {
  command.add_option("--size", paper.size, "sheet size: A4 to A1 or ANSI-A to ANSI-D")
      ->check(CLI::IsMember({"A4", "A3", "A2", "A1", "ANSI-A", "ANSI-B", "ANSI-C", "ANSI-D"}))
      ->default_val("A3");
  command
      .add_option("--projection", paper.projection, "first or third angle (default: first on A, third on ANSI sizes)")
      ->check(CLI::IsMember({"first", "third"}));
  command.add_flag("--grey", paper.grey, "without colour");
  command.add_option("--decimal", paper.decimal, "the decimal marker on the sheets: point or comma")
      ->check(CLI::IsMember({"point", "comma"}))
      ->default_val("point");
  command.add_option("--font", paper.font, "a TrueType font file to letter with");
  command
      .add_option("--labels", paper.labels,
                  "a file of pairs: every title, heading and caution of the sheets in another language (fairlead new "
                  "--labels writes one to fill in)")
      ->type_name("FILE");
}

void add_asbuilt_options(CLI::App& command, AsbuiltOptions& built) {
  command.add_option(
      "POINTS", built.points,
      "the points file: marks by the ids that setout lists, pegs by their own; without one, tapes alone: "
      "--measurements and --control");
  command.add_option("MEASUREMENTS,--measurements", built.measurements,
                     "what else was measured: item, quantity, value, unit, uncertainty (comma-separated, with header); "
                     "from mark to mark the item is like \"P1 to A3\", the quantity distance or rise");
  command.add_option("--order", built.order, "of the points file: pnezd, penzd or named")
      ->check(CLI::IsMember({"pnezd", "penzd", "named"}));
  command.add_option("--unit", built.unit, "of the points file: m, mm, ft or us_survey_ft")
      ->check(CLI::IsMember({"m", "mm", "ft", "us_survey_ft"}));
  command
      .add_option("--uncertainty", built.uncertainty,
                  "standard uncertainty (one sigma) of every coordinate of the points file")
      ->type_name("LENGTH");
  command
      .add_option("--control", built.control,
                  "ids of points that stand where the layout has them: the others are fitted to them (default: the "
                  "points stand in the site frame); of tapes alone the marks that did not move, three or more, not in "
                  "one line, which are held as drawn and not measured")
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("ID,...");
  CLI::Option* since =
      command
          .add_option("--since", built.since,
                      "an earlier points file, of the same order, unit and control: says what moved since, and what is "
                      "not shown to have moved")
          ->type_name("EARLIER");
  command
      .add_option("--since-uncertainty", built.since_uncertainty,
                  "standard uncertainty of its coordinates (default: that of the points file)")
      ->needs(since)
      ->type_name("LENGTH");
  command.add_flag("--tilted", built.tilted, "fit about any axis, not the plumb line alone");
  command.add_option("--draws", built.draws, "how often the measured is drawn from its uncertainty")
      ->check(CLI::Range(fewest_draws, 1000000))
      ->capture_default_str();
  command.add_option("--seed", built.seed, "of the draws")->check(CLI::Range(0ul, 1000000ul))->capture_default_str();
  command.add_flag("--hold-arrest", built.hold_arrest, "draw faster: how riders stop is not solved in every draw");
  command.add_flag(
      "--linear", built.linear,
      fmt::format("draw faster: judge the first {} draws, and tell the rest straight from how each finding "
                  "turns on each measured number, within how well that was seen to hold",
                  linear_exact_draws));
  command.add_flag("--windows", built.windows, "find the box in which all marks may stand at once");
  command.add_option("--format", built.format, "text or json (default: what FILE ends in, else text)")
      ->check(CLI::IsMember({"text", "json"}));
  command
      .add_option("-o,--output", built.output,
                  "the file to write: .txt, .json, or .pdf with the as-built sheets (default: standard output)")
      ->type_name("FILE");
  add_paper_options(command, built.paper);
}

void add_records_options(CLI::App& command, RecordsOptions& kept) {
  command
      .add_option("REGISTER", kept.parts,
                  "the register: part, serial, batch, in_service, retire_by, inspect_by, cycles, most_cycles, "
                  "baseline_mm, least_mm, basis (comma-separated, with header; part and serial are required)")
      ->required();
  command.add_option("MEASUREMENTS", kept.measurements,
                     "diameters as they are now: item, quantity (diameter), value, unit, uncertainty");
  command.add_option("--log", kept.log, "what inspections found: id, found, part, what, closed, by, how")
      ->type_name("LOG");
  command.add_option("--format", kept.format, "text or json (default: what FILE ends in, else text)")
      ->check(CLI::IsMember({"text", "json"}));
  command
      .add_option(
          "-o,--output", kept.output,
          "the file to write: .txt, .json, or .pdf with the forms to inspect this rig by, daily and from time to "
          "time (default: standard output)")
      ->type_name("FILE");
  add_paper_options(command, kept.paper);
}

void add_trial_options(CLI::App& command, TrialOptions& tried) {
  command.add_option("RESULTS", tried.results,
                     "what was measured: test, quantity, value, unit, uncertainty (comma-separated, with header)");
  command.add_option("--format", tried.format, "text or json (default: what FILE ends in, else text)")
      ->check(CLI::IsMember({"text", "json"}));
  command.add_option("-o,--output", tried.output, "the file to write: .txt or .json (default: standard output)")
      ->type_name("FILE");
}

/// What to say of a first word that is no command; empty where it is one.
std::string no_such_command(const CLI::App& app, int argc, char** argv) {
  const std::string word = argc > 1 ? argv[1] : "";
  std::vector<std::string> known;
  for (const CLI::App* command : app.get_subcommands({})) known.push_back(command->get_name());
  if (word.empty() || word.starts_with("-") || std::find(known.begin(), known.end(), word) != known.end()) return {};
  const auto near = nearest(word, known);
  return fmt::format("error: there is no command \"{}\"\n{}\n", word,
                     near ? "did you mean " + *near + "?" : fmt::format("write one of {}", fmt::join(known, ", ")));
}

/// "did you mean --date?" for a misspelt option.
std::string suggestion(const CLI::App& app, int argc, char** argv) {
  std::vector<std::string> known;
  const auto add_options = [&](const CLI::App& of) {
    for (const CLI::Option* option : of.get_options())
      for (const std::string& name : option->get_lnames()) known.push_back("--" + name);
  };
  add_options(app);
  // Of a command that is known its own options alone: another's would pass for known, and not be guessed from.
  const auto commands = app.get_subcommands({});
  const auto named = std::find_if(commands.begin(), commands.end(),
                                  [&](const CLI::App* command) { return argc > 1 && command->get_name() == argv[1]; });
  for (const CLI::App* command : commands) {
    if (named == commands.end() || command == *named) add_options(*command);
  }
  for (int i = 1; i < argc; ++i) {
    std::string word = argv[i];
    word = word.substr(0, word.find('='));
    if (!word.starts_with("--") || std::find(known.begin(), known.end(), word) != known.end()) continue;
    if (const auto near = nearest(word, known)) return "did you mean " + *near + "?\n";
  }
  return {};
}

int run(int argc, char** argv) {
  CLI::App app{"Checks and draws the arrest end of a zip line from one layout file."};
  app.name("fairlead");
  app.set_version_flag("--version", "fairlead " + std::string(words::program_version()));
  app.require_subcommand(1);
  app.footer(help_foot());

  JudgeOptions judged;
  DrawOptions drawn;
  SetoutOptions set_out;
  ArrestOptions arrested;
  AsbuiltOptions built;
  RecordsOptions kept;
  TrialOptions tried;
  std::string format = "text", output, name, now;
  bool idea = false, labels = false;

  CLI::App& check_command = *app.add_subcommand("check", "judge a layout and print the findings");
  add_judge_options(check_command, judged);
  add_format_option(check_command, format);

  CLI::App& draw_command = *app.add_subcommand("draw", "judge a layout and write its drawing");
  add_judge_options(draw_command, judged);
  draw_command
      .add_option(
          "-o,--output", drawn.output,
          "the file to write: .pdf, .svg or .dxf, or a new folder/ for the set in every format, a file a sheet, "
          "and every table as CSV")
      ->required()
      ->type_name("FILE|FOLDER/");
  add_paper_options(draw_command, drawn.paper);
  draw_command
      .add_option("--scale", drawn.scale,
                  "of the general arrangement, of ISO 5455's series (default: the greatest there is room for)")
      ->type_name("1:N");
  draw_command.add_option("--trial", drawn.trial, "results of unmanned tests: their points stand on the braking chart")
      ->type_name("RESULTS");
  draw_command.add_flag("--windows", drawn.windows, "find and draw the box in which all marks may stand at once");

  CLI::App& setout_command =
      *app.add_subcommand("setout", "points, levels, lengths and tensions to set a layout out by");
  add_judge_options(setout_command, judged);
  setout_command.add_option("--format", set_out.format, "text, csv or json (default: what FILE ends in, else text)")
      ->check(CLI::IsMember({"text", "csv", "json"}));
  setout_command
      .add_option("-o,--output", set_out.output,
                  "the file to write: .txt, .csv, .json, or .pdf with the crew's sheets (default: standard output)")
      ->type_name("FILE");
  setout_command.add_option("--tape", set_out.tape, "the longest tape to pull")
      ->type_name("LENGTH")
      ->capture_default_str();
  setout_command.add_option("--order", set_out.order, "of the points file: pnezd, penzd or named")
      ->check(CLI::IsMember({"pnezd", "penzd", "named"}));
  setout_command.add_option("--unit", set_out.unit, "of the points file: m, mm, ft or us_survey_ft")
      ->check(CLI::IsMember({"m", "mm", "ft", "us_survey_ft"}));
  setout_command.add_flag("--windows", set_out.windows, "find how far each mark may be off by itself, and all at once");
  add_paper_options(setout_command, set_out.paper);

  CLI::App& arrest_command =
      *app.add_subcommand("arrest", "how riders stop in every corner of riders and weather, and the way back");
  add_judge_options(arrest_command, judged);
  arrest_command.add_option("--format", arrested.format, "text or json (default: what FILE ends in, else text)")
      ->check(CLI::IsMember({"text", "json"}));
  arrest_command
      .add_option("-o,--output", arrested.output, "the file to write: .txt or .json (default: standard output)")
      ->type_name("FILE");

  CLI::App& asbuilt_command = *app.add_subcommand("asbuilt", "judge a layout as it was built, by what was measured");
  add_judge_options(asbuilt_command, judged);
  add_asbuilt_options(asbuilt_command, built);

  CLI::App& trial_command =
      *app.add_subcommand("trial", "the plan of unmanned tests; with results, predicted against measured");
  add_judge_options(trial_command, judged);
  add_trial_options(trial_command, tried);

  CLI::App& records_command =
      *app.add_subcommand("records", "the parts in service: days left, wear, what was found and is still open");
  add_judge_options(records_command, judged);
  add_records_options(records_command, kept);

  CLI::App& compare_command = *app.add_subcommand("compare", "what changed between two revisions of a layout");
  compare_command.add_option("OLD", judged.layout, "the layout file as it was")->required();
  compare_command.add_option("NEW", now, "the layout file as it is now")->required();
  add_common_options(compare_command, judged);
  add_format_option(compare_command, format);

  CLI::App& new_command = *app.add_subcommand("new", "write a layout or a concept to start from");
  new_command.add_option("-o,--output", output, "the file to write; must not exist (default: standard output)");
  new_command.add_flag("--concept", idea, "a concept instead: how riders are to stop, before anything has a place")
      ->excludes(new_command.add_flag("--labels", labels,
                                      "a file of pairs instead: every fixed text of the sheets, to be translated"));

  CLI::App& explain_command = *app.add_subcommand("explain", "what a check judges or a key of the layout means");
  explain_command.add_option("NAME", name, "a check or a key; without one, all checks are listed");

  for (CLI::App* command : app.get_subcommands({})) command->footer(help_foot(command->get_name()));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    // Help and version are no errors; anything else is unusable input, whatever number the library gives it.
    if (error.get_exit_code() == 0) return app.exit(error);
    if (const std::string unknown = no_such_command(app, argc, argv); !unknown.empty()) {
      std::fputs(unknown.c_str(), stderr);
      return unusable;
    }
    app.exit(error);
    std::fputs(suggestion(app, argc, argv).c_str(), stderr);
    return unusable;
  }
  if (check_command.parsed()) return check(judged, format);
  if (draw_command.parsed()) return draw(judged, drawn);
  if (compare_command.parsed()) return compare(judged, now, format);
  if (setout_command.parsed()) return setout(judged, set_out);
  if (arrest_command.parsed()) return arrest(judged, arrested);
  if (asbuilt_command.parsed()) return asbuilt(judged, built);
  if (records_command.parsed()) return records(judged, kept);
  if (trial_command.parsed()) return trial(judged, tried);
  if (new_command.parsed())
    return new_file(output, labels ? words::pairs_template() : idea ? new_concept() : new_layout());
  return explain(name);
}

}  // namespace
}  // namespace fairlead::cli

int main(int argc, char** argv) {
  using namespace fairlead;
  cli::end_on_shortened_file();
  try {
    return cli::run(argc, argv);
  } catch (const cli::Unusable& refused) {
    std::fputs(refused.message.c_str(), stderr);
    return cli::unusable;
  } catch (const Cancelled&) {
    cli::clear_progress();
    std::fputs("interrupted; nothing was written\n", stderr);
    return cli::interrupted;
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "fairlead: internal fault: %s\nThis is our error, not yours; no result may be used.\n",
                 fault.what());
    return cli::our_fault;
  }
}
