// Folders that are written with all of their files or not at all. Single files: pdf_test.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "report/formats/files.hpp"
#include "tests/scratch.hpp"

namespace fairlead::formats {
namespace {

namespace fs = std::filesystem;

std::string read(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

using Names = std::set<std::string>;
const std::vector<File> two{{"a.csv", "1,2\r\n"}, {"b.svg", "<svg/>"}};

TEST(WriteFolder, ANewFolderAndAnEmptyOneGetEveryFile) {
  const Scratch scratch;
  fs::create_directory(scratch / "empty");
  for (const char* name : {"new", "empty", "slashed/"}) {
    ASSERT_TRUE(write_folder(scratch / name, two).has_value()) << name;
    EXPECT_EQ(scratch.names(name), (Names{"a.csv", "b.svg"}));
    EXPECT_EQ(read(scratch / name + "/a.csv"), "1,2\r\n");
  }
  EXPECT_EQ(scratch.names(), (Names{"new", "empty", "slashed"}));
}

TEST(WriteFolder, AFolderThatHoldsAnythingIsLeftAlone) {
  const Scratch scratch;
  fs::create_directory(scratch / "set");
  std::ofstream(scratch / "set" + "/19_old_sheet.svg") << "yesterday's";
  const auto written = write_folder(scratch / "set", two);
  ASSERT_FALSE(written.has_value());
  EXPECT_EQ(written.error().message,
            scratch / "set" +
                ": holds files already; name a new folder, or sheets of an earlier drawing may stand among these");
  EXPECT_EQ(scratch.names("set"), Names{"19_old_sheet.svg"});
  EXPECT_EQ(scratch.names(), Names{"set"});
}

TEST(WriteFolder, AFileIsNoFolder) {
  const Scratch scratch;
  std::ofstream(scratch / "set") << "a file";
  const auto written = write_folder(scratch / "set", two);
  ASSERT_FALSE(written.has_value());
  EXPECT_EQ(written.error().message, scratch / "set" + ": is a file, not a folder");
  EXPECT_EQ(read(scratch / "set"), "a file");
}

TEST(WriteFolder, WhereOneFileCannotBeWrittenThereIsNoFolder) {
  const Scratch scratch;
  const auto nowhere = write_folder(scratch / "no/such/set", two);
  ASSERT_FALSE(nowhere.has_value());
  EXPECT_EQ(nowhere.error().message, scratch / "no/such/set" + ": cannot be created: No such file or directory");
  const auto last_fails = write_folder(scratch / "set", {{"a.csv", "1"}, {"no/such/b.csv", "2"}});
  ASSERT_FALSE(last_fails.has_value());
  EXPECT_NE(last_fails.error().message.find("no/such/b.csv: cannot be created"), std::string::npos);
  EXPECT_EQ(scratch.names(), Names{});
}

}  // namespace
}  // namespace fairlead::formats
