// SPDX-License-Identifier: Apache-2.0
// backup, restore and salvage as a user types them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "cli/invocation.hpp"
#include "cli/program.hpp"
#include "cli/session.hpp"
#include "store/temporary.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

// A closed workspace of 20 revisions.
std::string workspace_bytes() {
  const store::testing::Folder folder;
  {
    const auto workspace = store::testing::open_or_fail(folder.file("w"));
    for (int i = 0; i < 20; ++i) {
      store::testing::saved_revision(workspace->save(store::testing::save_of("garden", i, std::string(3000, 'x'))));
    }
  }
  std::ifstream file(folder.file("w"), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::string fingerprint_in(const std::string& text) {
  const std::size_t at = text.find("Fingerprint ");
  return at == std::string::npos ? "" : text.substr(at);
}

TEST(CareCommand, ABackupRestoredHasTheSameFingerprint) {
  const Workplace place;
  place.write("w", workspace_bytes());
  const Ended backup = place.run("duskwire backup w --output b");
  EXPECT_EQ(backup.code, 0) << backup.complaint;
  EXPECT_THAT(backup.text, HasSubstr("b holds 1 job, 20 revisions, 0 pictures."));
  const Ended restored = place.run("duskwire restore b --output r");
  EXPECT_EQ(restored.code, 0) << restored.complaint;
  EXPECT_NE(fingerprint_in(backup.text), "");
  EXPECT_EQ(fingerprint_in(restored.text), fingerprint_in(backup.text));
  // Neither writes over anything.
  EXPECT_EQ(place.run("duskwire backup w --output r").code, 2);
  EXPECT_EQ(place.run("duskwire restore b --output w").code, 2);
  const Ended none = place.run("duskwire backup nowhere --output x");
  EXPECT_EQ(none.code, 2);
  EXPECT_THAT(none.complaint, HasSubstr("nowhere: There is no workspace of that name."));
  EXPECT_THAT(place.files(), Not(::testing::Contains("nowhere")));
}

TEST(CareCommand, SalvageListsWhatItSavedAndWhatNot) {
  const Workplace place;
  std::string bytes = workspace_bytes();
  // A page in the middle is gone: one of the documents.
  bytes.replace(bytes.size() / 2 / 4096 * 4096, 4096, std::string(4096, '\xaa'));
  place.write("w", bytes);
  const Ended refused = place.run("duskwire backup w --output b");
  EXPECT_EQ(refused.code, 2);
  EXPECT_THAT(refused.complaint, HasSubstr("duskwire salvage"));
  const Ended salvaged = place.run("duskwire salvage w --output s");
  EXPECT_EQ(salvaged.code, 1) << salvaged.complaint;
  EXPECT_THAT(salvaged.text, HasSubstr("Saved in s: 1 job, "));
  EXPECT_THAT(salvaged.text, HasSubstr("Not saved:\n"));
  EXPECT_EQ(place.read("w"), bytes);
  EXPECT_EQ(place.run("duskwire backup s --output b").code, 0);
}

}  // namespace
}  // namespace duskwire::cli
