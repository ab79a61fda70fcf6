#include "geometry/tasks/work.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace fairlead {
namespace {

TEST(Work, EveryIndexIsDoneOnceWhateverTheNumberOfThreads) {
  for (const unsigned threads : {1u, 2u, 7u}) {
    std::vector<int> done(1000);
    for_each_index({.threads = threads}, 1000, [&](int i) { ++done[static_cast<std::size_t>(i)]; });
    EXPECT_EQ(done, std::vector<int>(1000, 1)) << threads << " threads";
  }
}

TEST(Work, NothingToDoIsDone) {
  for_each_index({}, 0, [](int) { FAIL() << "there is no task"; });
}

TEST(Work, TheFailureOfTheLowestIndexIsTheOneReported) {
  for (const unsigned threads : {1u, 4u}) {
    try {
      for_each_index({.threads = threads}, 100, [](int i) {
        if (i >= 30) throw std::runtime_error(std::to_string(i));
      });
      FAIL() << "a failing task must be reported";
    } catch (const std::runtime_error& error) {
      EXPECT_STREQ(error.what(), "30") << threads << " threads";
    }
  }
}

TEST(Work, AStopRequestEndsItBetweenTwoTasks) {
  std::stop_source source;
  int done = 0;
  EXPECT_THROW(for_each_index({.stop = source.get_token()}, 100,
                              [&](int i) {
                                ++done;
                                if (i == 4) source.request_stop();
                              }),
               Cancelled);
  EXPECT_EQ(done, 5);
}

TEST(Work, TellsHowMuchIsDoneAfterEveryTask) {
  for (const unsigned threads : {1u, 3u}) {
    std::vector<double> told;
    const Work work{.progress =
                        [&](std::string_view what, double done) {
                          EXPECT_EQ(what, "sums");
                          told.push_back(done);
                        },
                    .threads = threads};
    for_each_index(
        work, 4, [](int) {}, "sums");
    EXPECT_EQ(told, (std::vector<double>{0.25, 0.5, 0.75, 1}));
    for_each_index(work, 4, [](int) {});
    EXPECT_EQ(told.size(), 4u) << "what has no name is not told";
  }
}

}  // namespace
}  // namespace fairlead
