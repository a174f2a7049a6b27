// SPDX-License-Identifier: Apache-2.0
// Damage of every kind to a workspace file and to what lies beside it: it opens with nothing but the truth, or says
// what to do, and what is salvaged of it is the truth too.
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "store/rescue.hpp"
#include "store/script.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"
#include "store/truth.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::Session;
using testing::sized;

constexpr std::size_t page = 4096;

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void write_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

// The script's workspace, closed, with what it holds; and as it was with its log before it was closed.
struct Made {
  Folder folder;
  std::string closed;
  std::string open_file;
  std::string open_log;
  testing::Truth truth;
};

void make(Made& made) {
  Session session{made.folder.file("made"), nullptr};
  for (const testing::Command& command : testing::script()) {
    ASSERT_FALSE(command.run(session).has_value()) << command.name;
  }
  std::vector<std::string> pictures;
  for (const auto& [letter, size] : {std::pair('p', 3000), std::pair('q', 40000), std::pair('r', 9000)}) {
    pictures.push_back(sha256_hex(std::string(static_cast<std::size_t>(size), letter)));
  }
  made.truth = testing::truth_of(*session.workspace, pictures);
  made.open_file = bytes_of(session.path);
  made.open_log = bytes_of(session.path + "-wal");
  session.workspace.reset();
  made.closed = bytes_of(session.path);
}

class Judge {
 public:
  explicit Judge(Made& made) : made_(made) {}

  // `all_or_refused`: what opens must serve all, not only nothing wrong.
  void judge(const std::string& bytes, const std::string& log, const std::string& what) {
    ++cases;
    const std::string path = made_.folder.file("bad");
    for (const char* ending : {"", "-wal", "-journal"}) std::filesystem::remove(path + ending);
    write_bytes(path, bytes);
    if (!log.empty()) write_bytes(path + "-wal", log);
    bool refused = false;
    {
      const auto opened = Workspace::open(path, testing::counting_environment());
      if (opened.ok()) {
        std::size_t served = 0;
        const std::string lie = testing::lie_of(*opened.value(), made_.truth, served);
        if (!lie.empty() && ++told_ <= 8) ADD_FAILURE() << what << " serves " << lie;
      } else {
        refused = true;
        check_refusal(opened.error(), path, bytes, log, what);
      }
    }
    if (refused && refusals++ % salvage_each == 0) check_salvage(path, what);
  }

  std::size_t cases = 0;
  std::size_t refusals = 0;
  std::size_t salvage_each = 1;
  std::size_t salvages = 0;
  std::size_t saved_revisions = 0;

 private:
  void check_refusal(const Error& error, const std::string& path, const std::string& bytes, const std::string& log,
                     const std::string& what) {
    EXPECT_GT(error.message.size(), 40u) << what;
    EXPECT_EQ(error.message.find(path), std::string::npos) << what;
    if (bytes_of(path) != bytes && ++told_ <= 8) ADD_FAILURE() << what << ": refused, yet the file was changed";
    if (bytes_of(path + "-wal") != log && ++told_ <= 8) ADD_FAILURE() << what << ": refused, yet the log was changed";
  }

  void check_salvage(const std::string& path, const std::string& what) {
    const std::string output = made_.folder.file("salvaged");
    std::filesystem::remove(output);
    ++salvages;
    const Result<Salvaged> salvaged = salvage(path, output, testing::counting_environment());
    if (!salvaged) {
      EXPECT_FALSE(salvaged.error().message.empty()) << what;
      EXPECT_FALSE(std::filesystem::exists(output)) << what;
      return;
    }
    saved_revisions += static_cast<std::size_t>(salvaged.value().revisions);
    const auto opened = Workspace::open(output, testing::counting_environment());
    ASSERT_TRUE(opened.ok()) << what << ": " << opened.error().message;
    const auto wrong = opened.value()->verify();
    ASSERT_TRUE(wrong.ok());
    EXPECT_TRUE(wrong.value().empty()) << what << ": " << wrong.value().front();
    std::int64_t right = 0;
    for (const auto& [key, document] : made_.truth.documents) {
      const auto read = opened.value()->revision(key.first, key.second);
      if (!read) continue;
      ++right;
      EXPECT_EQ(read.value().document, document) << what;
    }
    EXPECT_EQ(right, salvaged.value().revisions) << what << ": saved a revision that never was";
    const auto all = static_cast<std::int64_t>(made_.truth.documents.size());
    // Nothing is lost in silence.
    EXPECT_TRUE(right == all || !salvaged.value().lost.empty() || !salvaged.value().doubted.empty()) << what;
  }

  Made& made_;
  int told_ = 0;
};

TEST(DamageSweep, HeaderPagesFlipsAndCuts) {
  Made made;
  make(made);
  Judge judge(made);
  judge.salvage_each = sized<std::size_t>(25, 1, 1);
  const std::string& good = made.closed;
  const std::size_t pages = good.size() / page;
  const auto changed = [&](std::size_t at, char to) {
    std::string bad = good;
    bad[at] = to;
    return bad;
  };
  const std::size_t header_step = sized<std::size_t>(2, 1, 1);
  for (std::size_t at = 0; at < 100; at += header_step) {
    for (const int to : {0, 255, good[at] ^ 1}) {
      judge.judge(changed(at, static_cast<char>(to)), "", "header byte " + std::to_string(at));
    }
  }
  const std::size_t step = sized<std::size_t>(7, 1, 1);
  for (std::size_t i = 0; i < pages * 16; i += step) {
    const std::size_t at = i / 16 * page + i % 16;
    judge.judge(changed(at, static_cast<char>(good[at] ^ 0x41)), "", "byte " + std::to_string(at));
  }
  std::mt19937 dice(20260301);
  const int flips = sized(150, 10'000, 10'000);
  for (int i = 0; i < flips; ++i) {
    const std::size_t at = dice() % good.size();
    judge.judge(changed(at, static_cast<char>(good[at] ^ 1 << dice() % 8)), "", "bit of byte " + std::to_string(at));
  }
  const std::size_t page_step = sized<std::size_t>(4, 1, 1);
  for (std::size_t i = 0; i < pages; i += page_step) {
    std::string zeroed = good;
    zeroed.replace(i * page, page, std::string(page, '\0'));
    judge.judge(zeroed, "", "page " + std::to_string(i + 1) + " of zeros");
    std::string swapped = good;
    const std::size_t other = (i + 1 + dice() % (pages - 1)) % pages;
    swapped.replace(i * page, page, good, other * page, page);
    swapped.replace(other * page, page, good, i * page, page);
    judge.judge(swapped, "", "pages " + std::to_string(i + 1) + " and " + std::to_string(other + 1) + " swapped");
    // Nothing at all is a new workspace, which is told apart by its name in the page's list; so from one page on.
    if (i > 0) judge.judge(good.substr(0, i * page), "", "cut to " + std::to_string(i) + " pages");
    judge.judge(good.substr(0, i * page + 1000), "", "cut within page " + std::to_string(i + 1));
  }
  std::printf("%zu damages, %zu refused, %zu salvaged with %zu revisions of %zu each\n", judge.cases, judge.refusals,
              judge.salvages, judge.saved_revisions, made.truth.documents.size());
  // Most single flips fall into a document: it opens, and that one is not served.
  EXPECT_GT(judge.refusals, (judge.cases - static_cast<std::size_t>(flips)) / 4);
  EXPECT_GT(judge.saved_revisions, judge.salvages);
}

TEST(DamageSweep, TheLogBesideTheFile) {
  Made made;
  make(made);
  ASSERT_GT(made.open_log.size(), 5 * page);
  Judge judge(made);
  judge.salvage_each = sized<std::size_t>(12, 1, 1);
  judge.judge(made.open_file, made.open_log, "nothing");
  EXPECT_EQ(judge.refusals, 0u);
  // Frame by frame: its head, its page. A frame of the last commit is all that can go unseen, as a torn end would.
  const std::size_t frame = page + 24;
  const std::size_t step = sized<std::size_t>(frame + 11, 89, 13);
  std::size_t last_commit = 0;
  for (std::size_t at = 32; at + 2 * frame <= made.open_log.size(); at += frame) {
    const bool commits = made.open_log.substr(at + 4, 4) != std::string(4, '\0');
    const bool of_this_round = made.open_log.compare(at + 8, 8, made.open_log, 16, 8) == 0;
    if (commits && of_this_round) last_commit = at + frame;
  }
  for (std::size_t at = 0; at < last_commit; at += step) {
    std::string bad = made.open_log;
    bad[at] = static_cast<char>(bad[at] ^ 0x10);
    judge.judge(made.open_file, bad, "byte " + std::to_string(at) + " of the log");
  }
  std::printf("%zu logs, %zu refused\n", judge.cases, judge.refusals);
  EXPECT_GE(judge.refusals + 2, judge.cases);
}

TEST(DamageSweep, ALogOfAnotherFileOrAnEarlierTimeIsRefused) {
  Made made;
  make(made);
  Judge judge(made);
  // Another workspace with the same tables and pages of its own.
  std::string foreign_log;
  {
    const auto other = testing::open_or_fail(made.folder.file("other"));
    for (int i = 0; i < 12; ++i) {
      testing::saved_revision(other->save(testing::save_of("garden", i, std::string(5000, 'x'))));
    }
    foreign_log = bytes_of(made.folder.file("other-wal"));
  }
  ASSERT_GT(foreign_log.size(), 5 * page);
  judge.judge(made.closed, foreign_log, "another workspace's log");
  EXPECT_EQ(judge.refusals, 1u);
  // The file as it is now, with the log that it had some commits before.
  std::string stale_log;
  std::string later_file;
  {
    const std::string path = made.folder.file("timed");
    {
      const auto workspace = testing::open_or_fail(path);
      for (int i = 0; i < 4; ++i) {
        testing::saved_revision(workspace->save(testing::save_of("garden", i, std::string(900, 'x'))));
      }
      stale_log = bytes_of(path + "-wal");
      for (int i = 4; i < 12; ++i) {
        testing::saved_revision(workspace->save(testing::save_of("garden", i, std::string(900, 'y'))));
      }
    }
    later_file = bytes_of(path);
  }
  write_bytes(made.folder.file("mixed"), later_file);
  write_bytes(made.folder.file("mixed-wal"), stale_log);
  const auto opened = Workspace::open(made.folder.file("mixed"), testing::counting_environment());
  ASSERT_FALSE(opened.ok());
  EXPECT_EQ(opened.error().code, ErrorCode::invalid);
  EXPECT_EQ(bytes_of(made.folder.file("mixed")), later_file);
  EXPECT_EQ(bytes_of(made.folder.file("mixed-wal")), stale_log);
}

TEST(DamageSweep, AJournalOfAnotherFileIsNotRolledIn) {
  Made made;
  make(made);
  const std::string path = made.folder.file("w");
  write_bytes(path, made.closed);
  write_bytes(path + "-journal", std::string("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8) + std::string(5000, '\1'));
  EXPECT_FALSE(Workspace::open(path, testing::counting_environment()).ok());
  EXPECT_EQ(bytes_of(path), made.closed);
  // The bare file copied while its workspace was open lacks what is in the log, and is a sound earlier state.
  write_bytes(made.folder.file("bare"), made.open_file);
  const auto bare = Workspace::open(made.folder.file("bare"), testing::counting_environment());
  ASSERT_TRUE(bare.ok()) << bare.error().message;
  EXPECT_TRUE(bare.value()->verify().value().empty());
}

}  // namespace
}  // namespace duskwire::store
