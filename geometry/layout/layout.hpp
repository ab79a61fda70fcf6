// The whole layout file as its author meant it.
#pragma once

#include "geometry/layout/brake.hpp"
#include "geometry/layout/limits.hpp"
#include "geometry/layout/points.hpp"
#include "geometry/layout/project.hpp"
#include "geometry/layout/riders.hpp"
#include "geometry/layout/rigging.hpp"
#include "geometry/layout/structure.hpp"

namespace fairlead {

struct Layout {
  std::vector<std::string> files;    ///< 0: the layout file; then "command line"; then the points file, if it names one
  std::string sha256;                ///< of the layout file's bytes and, behind them, the points file's; 64 hex digits
  std::vector<std::string> changes;  ///< made on the command line, "sheave.R1.position = [1, 2, 3]"
  Project project;
  std::optional<PointsFile> points;
  Site site;
  MainLine main_line;
  std::vector<ParallelLine> parallel_lines;
  std::vector<Anchor> anchors;
  std::vector<Member> members;
  std::vector<Sheave> sheaves;
  std::vector<Line> lines;
  std::vector<Block> blocks;
  std::vector<Connector> connectors;
  std::vector<SupportLine> support_lines;
  BrakeUnit brake_unit;
  BrakeTrolley brake_trolley;
  std::optional<BackupBrake> backup_brake;
  Riders riders;
  std::optional<Approach> approach;
  std::optional<Landing> landing;
  std::vector<Structure> structures;
  Limits limits;
  std::vector<Waiver> waivers;
  std::optional<Given<Date>> judged_on;  ///< --date; else project.date judges certificates and waivers
};

}  // namespace fairlead
