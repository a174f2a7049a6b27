// SPDX-License-Identifier: Apache-2.0
#include "cli/output_file.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

namespace duskwire::cli {
namespace {

namespace fs = std::filesystem;

class OutputFile : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(::testing::TempDir()) / ("duskwire_output_" + std::to_string(::getpid()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  [[nodiscard]] std::string path(const std::string& name) const { return (folder_ / name).string(); }
  [[nodiscard]] std::size_t file_count() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }

  fs::path folder_;
};

TEST_F(OutputFile, WritesTheWholeAndLeavesNothingElse) {
  ASSERT_TRUE(write_file(path("a.json"), "text\n", false).ok());
  EXPECT_EQ(read_file(path("a.json")).value(), "text\n");
  EXPECT_EQ(file_count(), 1u);
}

TEST_F(OutputFile, LeavesAnExistingFileAloneUnlessTold) {
  ASSERT_TRUE(write_file(path("a.json"), "first", false).ok());
  const Result<bool> second = write_file(path("a.json"), "second", false);
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, ErrorCode::conflict);
  EXPECT_EQ(read_file(path("a.json")).value(), "first");
  ASSERT_TRUE(write_file(path("a.json"), "third", true).ok());
  EXPECT_EQ(read_file(path("a.json")).value(), "third");
  EXPECT_EQ(file_count(), 1u);
}

TEST_F(OutputFile, SaysWhyAndLeavesNothingWhereTheDiskRefuses) {
  const Result<bool> written = write_file(path("no/such/folder/a.json"), "text", false);
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.error().code, ErrorCode::unavailable);
  fs::create_directories(folder_ / "taken");
  EXPECT_FALSE(write_file(path("taken"), "text", true).ok());
  EXPECT_EQ(file_count(), 1u);
}

TEST_F(OutputFile, ReadingNamesTheFileThatIsMissing) {
  const Result<std::string> text = read_file(path("absent.json"));
  ASSERT_FALSE(text.ok());
  EXPECT_NE(text.error().message.find("absent.json"), std::string::npos);
  EXPECT_FALSE(read_file(folder_.string()).ok());
}

TEST_F(OutputFile, WhetherItMayBeWrittenIsKnownBeforehandAndNothingIsMadeForIt) {
  EXPECT_TRUE(may_write(path("new"), false));
  EXPECT_EQ(file_count(), 0u);
  ASSERT_TRUE(write_file(path("there"), "mine", false));
  ASSERT_FALSE(may_write(path("there"), false));
  EXPECT_EQ(may_write(path("there"), false).error().code, ErrorCode::conflict);
  EXPECT_TRUE(may_write(path("there"), true));
  ASSERT_FALSE(may_write(path("no/folder"), true));
  EXPECT_EQ(may_write(path("no/folder"), true).error().code, ErrorCode::unavailable);
}

TEST_F(OutputFile, WritesSeveralFilesOrNone) {
  const std::vector<WrittenFile> files{{path("new/a.pdf"), "a"}, {path("new/b.pdf"), "b"}};
  ASSERT_TRUE(write_files(files, false).ok());
  EXPECT_EQ(read_file(path("new/b.pdf")).value(), "b");
  // One of the names is taken: the other is not written either.
  const Result<bool> refused = write_files({{path("c.pdf"), "c"}, {path("new/a.pdf"), "other"}}, false);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(read_file(path("new/a.pdf")).value(), "a");
  EXPECT_EQ(file_count(), 1u);
  EXPECT_TRUE(write_files({{path("new/a.pdf"), "other"}}, true).ok());
  EXPECT_EQ(read_file(path("new/a.pdf")).value(), "other");
}

TEST_F(OutputFile, LeavesNothingBehindWhereAFolderIsMissing) {
  EXPECT_FALSE(write_files({{path("a.pdf"), "a"}, {path("no/such/b.pdf"), "b"}}, false).ok());
  EXPECT_EQ(file_count(), 0u);
}

}  // namespace
}  // namespace duskwire::cli
