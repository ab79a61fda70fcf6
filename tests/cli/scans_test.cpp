// Scans that change under the program.
#include <atomic>
#include <filesystem>
#include <thread>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

/// A layout with its scans in a folder of their own.
std::string copied(const Scratch& scratch) {
  for (const char* name : {"larch_spur.toml", "larch_spur_slope.ply", "larch_spur_wood.xyz"})
    write_file(scratch / name, read_file(std::string(FAIRLEAD_SOURCE_DIR "/layouts/") + name));
  return scratch / "larch_spur.toml";
}

TEST(Scans, WrittenWhileTheyAreReadAreRefused) {
  const Scratch scratch;
  const std::string layout = copied(scratch);
  std::atomic<bool> done = false;
  std::thread writes([&] {
    for (int i = 0; !done; ++i) {
      std::filesystem::last_write_time(scratch / "larch_spur_wood.xyz",
                                       std::filesystem::file_time_type::clock::now() + std::chrono::seconds(i));
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
  });
  const Ran ran = run("check " + layout);
  done = true;
  writes.join();
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("structure \"wood\": larch_spur_wood.xyz was written while it was read"), std::string::npos)
      << ran.err;
  EXPECT_EQ(ran.err.find("slope"), std::string::npos) << "that one was left alone";
}

}  // namespace
}  // namespace fairlead::cli_test
