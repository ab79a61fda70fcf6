// What is told and drawn of a rig does not depend on how many threads computed it.
#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

/// A free redirect that rubs, a guyed pole and all that loads anchors beside the passages.
constexpr const char* as_hung = "tests/fuzz/corpus/rig/as_hung.toml ";

class Threads : public ::testing::TestWithParam<const char*> {};

TEST_P(Threads, ChangeNoByteOfWhatIsTold) {
  const auto told = [](const std::string& threads) {
    return run(std::string("check ") + as_hung + GetParam() + " --threads " + threads);
  };
  const Ran one = told("1");
  EXPECT_EQ(one.status, 1) << one.err;
  EXPECT_GT(one.out.size(), 1000u);
  EXPECT_EQ(one.out.find("not solved"), std::string::npos);
  for (const char* threads : {"2", "5"}) EXPECT_TRUE(told(threads).out == one.out) << threads << " threads";
}

INSTANTIATE_TEST_SUITE_P(Of, Threads, ::testing::Values("", "--format json"));

TEST(ThreadsOfADrawing, ChangeNoByteOfWhatIsDrawn) {
  const Scratch scratch;
  const auto drawn = [&](const std::string& threads) {
    const std::string path = scratch / (threads + ".pdf");
    EXPECT_EQ(run(std::string("draw ") + as_hung + "--threads " + threads + " -o " + path).status, 1);
    return read_file(path);
  };
  const std::string one = drawn("1");
  EXPECT_GT(one.size(), 10000u);
  for (const char* threads : {"2", "5"}) EXPECT_TRUE(drawn(threads) == one) << threads << " threads";
}

}  // namespace
}  // namespace fairlead::cli_test
