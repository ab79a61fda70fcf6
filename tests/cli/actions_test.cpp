// What loads the anchors beside the passages, as a user of the program meets it.
#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* check_demo = "check layouts/heron_gully.toml --units us ";

TEST(Actions, ARescueThatTheMainLineCannotBearFailsAndNamesItself) {
  const Ran fits = run(std::string(check_demo) + "--set 'riders.rescuer_mass=\"90 kg\"'");
  EXPECT_EQ(fits.status, 0) << fits.out;
  const Ran heavy = run(std::string(check_demo) + "--set 'riders.rescuer_mass=\"400 kg\"'");
  EXPECT_EQ(heavy.status, 1);
  const std::size_t failed = heavy.out.find("\nFAIL\n");
  ASSERT_NE(failed, std::string::npos) << heavy.out;
  const std::string said = heavy.out.substr(failed, heavy.out.find("\n\n", failed + 1) - failed);
  EXPECT_NE(said.find("strength              main line:"), std::string::npos) << said;
  EXPECT_NE(said.find("rescue"), std::string::npos) << said;
}

TEST(Actions, EveryActionIsAmongTheLoadCasesOfTheRecord) {
  const Ran ran = run(std::string(check_demo) +
                      "--format json --set 'riders.rescuer_mass=\"90 kg\"' --set 'backup_brake.on=\"P2\"' "
                      "--set 'backup_brake.force=\"1300 lbf\"' --set 'site.ice_thickness=\"0.25 in\"' "
                      "--set 'site.ice_wind=\"25 mph\"' --set 'site.storm_wind=\"70 mph\"'");
  EXPECT_EQ(ran.status, 0) << ran.out;
  for (const char* action : {"at rest", "wind", "peak line tension", "rider on span", "rescue", "backup brake", "ice",
                             "storm", "ice and wind"})
    EXPECT_GT(count(ran.out, std::string("\"action\": \"") + action + "\""), 0) << action;
  EXPECT_EQ(ran.out.find("no load case has what it pulls"), std::string::npos) << "it is given";
}

TEST(Actions, WhatABackupBrakePullsIsAnAssumptionWhereItIsNotGiven) {
  const Ran ran = run(check_demo);
  EXPECT_NE(ran.out.find("backup_brake: no load case has what it pulls on its anchor"), std::string::npos) << ran.out;
}

}  // namespace
}  // namespace fairlead::cli_test
