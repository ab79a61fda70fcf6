// The table of the whole layout: its sections, in the order of a starting layout.
#pragma once

#include "geometry/layout/brake_fields.hpp"
#include "geometry/layout/cable_fields.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/layout/limits_fields.hpp"
#include "geometry/layout/line_fields.hpp"
#include "geometry/layout/member_fields.hpp"
#include "geometry/layout/points_fields.hpp"
#include "geometry/layout/project_fields.hpp"
#include "geometry/layout/riders_fields.hpp"
#include "geometry/layout/rigging_fields.hpp"
#include "geometry/layout/structure_fields.hpp"

namespace fairlead {

template <>
struct StorageOf<Layout> {
  using type =
      std::variant<Project Layout::*, std::optional<PointsFile> Layout::*, Site Layout::*, MainLine Layout::*,
                   std::vector<ParallelLine> Layout::*, std::vector<Anchor> Layout::*, std::vector<Member> Layout::*,
                   std::vector<Sheave> Layout::*, std::vector<Line> Layout::*, std::vector<Block> Layout::*,
                   std::vector<Connector> Layout::*, std::vector<SupportLine> Layout::*, BrakeUnit Layout::*,
                   BrakeTrolley Layout::*, std::optional<BackupBrake> Layout::*, Riders Layout::*,
                   std::optional<Approach> Layout::*, std::optional<Landing> Layout::*,
                   std::vector<Structure> Layout::*, Limits Layout::*, std::vector<Waiver> Layout::*>;
};
inline constexpr Field<Layout> layout_fields[] = {
    {{.name = "project", .says = "whose rig it is, for the title block"}, &Layout::project},
    // Before every section with a place in it, which may be one of its points.
    {{.name = "points", .says = "a surveyor's file of points that places may name", .need = Need::optional},
     &Layout::points},
    {{.name = "site", .says = "where it stands, and in what weather"}, &Layout::site},
    {{.name = "main_line", .says = "the cable that the riders roll on"}, &Layout::main_line},
    {{.name = "parallel_line", .says = "a second main line beside it", .need = Need::optional},
     &Layout::parallel_lines},
    {{.name = "anchor", .says = "a point that carries load"}, &Layout::anchors},
    {{.name = "member", .says = "a leg, guy or pole that holds an anchor's point", .need = Need::optional},
     &Layout::members},
    {{.name = "sheave", .says = "a sheave that a line runs over"}, &Layout::sheaves},
    {{.name = "line", .says = "a line of the arrest system"}, &Layout::lines},
    {{.name = "block", .says = "a travelling block", .need = Need::optional}, &Layout::blocks},
    {{.name = "support_line", .says = "an overhead line that a travelling block rides on", .need = Need::optional},
     &Layout::support_lines},
    {{.name = "connector", .says = "a shackle or link", .need = Need::optional}, &Layout::connectors},
    {{.name = "brake_unit", .says = "the unit that pays out the braking line"}, &Layout::brake_unit},
    {{.name = "brake_trolley", .says = "the trolley that the arriving rider pushes"}, &Layout::brake_trolley},
    {{.name = "backup_brake", .says = "what stops the trolley when the unit does not", .need = Need::offered},
     &Layout::backup_brake},
    {{.name = "riders", .says = "who arrives, and how fast"}, &Layout::riders},
    {{.name = "approach", .says = "where riders set off, for the speed they arrive with", .need = Need::offered},
     &Layout::approach},
    {{.name = "landing", .says = "where the riders step off", .need = Need::offered}, &Layout::landing},
    {{.name = "structure", .says = "what stands on the site and must be kept clear of", .need = Need::optional},
     &Layout::structures},
    {{.name = "limits", .says = "what the checks judge against: a value and who says so", .need = Need::offered},
     &Layout::limits},
    {{.name = "waiver", .says = "a failed check that someone answers for", .need = Need::optional}, &Layout::waivers},
};
template <>
inline constexpr std::span<const Field<Layout>> fields_of<Layout> = layout_fields;

}  // namespace fairlead
