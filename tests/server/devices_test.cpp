// SPDX-License-Identifier: Apache-2.0
#include "server/devices.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <iterator>

#include "store/temporary.hpp"

namespace duskwire::server {
namespace {

struct Beside {
  store::testing::Folder folder;
  std::string workspace = folder.file("gardens.duskwire");
  std::string list = workspace + "-devices";

  [[nodiscard]] Devices open() const {
    auto opened = Devices::open(workspace);
    EXPECT_TRUE(opened.ok());
    return std::move(opened).value();
  }
  [[nodiscard]] std::string text() const {
    std::ifstream in(list);
    return {std::istreambuf_iterator<char>(in), {}};
  }
};

TEST(Devices, APairedPhoneIsKnownBySecretAloneAndInTheNextStartToo) {
  const Beside beside;
  Devices devices = beside.open();
  const std::string held = devices.add("Phone of the crew", "2026-03-01T08:00:00Z").value();
  EXPECT_GE(held.size() - held.find('.') - 1, 22u) << "128 bits are 22 characters of six bits";
  EXPECT_TRUE(devices.knows(held));
  EXPECT_FALSE(devices.knows(held + "x"));
  EXPECT_FALSE(devices.knows(held.substr(0, held.size() - 1)));
  EXPECT_FALSE(devices.knows(held.substr(0, held.find('.') + 1)));
  EXPECT_FALSE(devices.knows("phone-00000000" + held.substr(held.find('.'))));
  EXPECT_FALSE(devices.knows(""));
  EXPECT_TRUE(beside.open().knows(held));
}

// Whoever copies the file must not get in with it.
TEST(Devices, TheFileHoldsNoSecretAndIsItsOwnersAlone) {
  const Beside beside;
  Devices devices = beside.open();
  const std::string held = devices.add("A phone", "2026-03-01T08:00:00Z").value();
  const std::string text = beside.text();
  EXPECT_NE(text.find("A phone"), std::string::npos);
  EXPECT_EQ(text.find(held.substr(held.find('.') + 1)), std::string::npos);
  struct stat found {};
  ASSERT_EQ(::stat(beside.list.c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777u, 0600u);
  const std::string hash = devices.all().value()[0].secret_sha256;
  EXPECT_FALSE(devices.knows(held.substr(0, held.find('.') + 1) + hash)) << "the hash is no secret";
}

// `duskwire devices --forget` is another program.
TEST(Devices, AForgottenPhoneIsUnknownToARunningServerAtOnce) {
  const Beside beside;
  Devices server = beside.open();
  const std::string lost = server.add("Lost", "2026-03-01T08:00:00Z").value();
  const std::string kept = server.add("Kept", "2026-03-01T08:00:00Z").value();
  ASSERT_TRUE(server.knows(lost));
  Devices command = beside.open();
  EXPECT_TRUE(command.forget(lost.substr(0, lost.find('.'))).value());
  EXPECT_FALSE(command.forget("phone-00000000").value());
  EXPECT_FALSE(server.knows(lost));
  EXPECT_TRUE(server.knows(kept));
  EXPECT_EQ(server.all().value().size(), 1u);
}

TEST(Devices, TwoProgramsThatPairAtOnceLoseNone) {
  const Beside beside;
  Devices one = beside.open();
  Devices other = beside.open();
  for (int i = 0; i < 4; ++i) {
    ASSERT_TRUE(one.add("a", "2026-03-01T08:00:00Z").ok());
    ASSERT_TRUE(other.add("b", "2026-03-01T08:00:00Z").ok());
  }
  EXPECT_EQ(one.all().value().size(), 8u);
  EXPECT_EQ(other.all().value().size(), 8u);
}

TEST(Devices, TheListHasAnEnd) {
  const Beside beside;
  Devices devices = beside.open();
  for (std::size_t i = 0; i < most_devices; ++i) ASSERT_TRUE(devices.add("a", "2026-03-01T08:00:00Z").ok());
  const auto refused = devices.add("one too many", "2026-03-01T08:00:00Z");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
}

TEST(Devices, ADamagedFileLetsNobodyInAndIsNamed) {
  const Beside beside;
  Devices devices = beside.open();
  const std::string held = devices.add("A phone", "2026-03-01T08:00:00Z").value();
  std::ofstream(beside.list) << "{\"format\":\"duskwire-devices\",";
  EXPECT_FALSE(devices.knows(held));
  const auto opened = Devices::open(beside.workspace);
  ASSERT_FALSE(opened.ok());
  EXPECT_EQ(opened.error().code, ErrorCode::invalid);
  EXPECT_EQ(opened.error().message.find(beside.workspace), std::string::npos) << "no path in a message to a client";
}

TEST(Devices, TheFingerprintStaysForAWorkspaceAndDiffersFromAnothers) {
  const Beside beside;
  const Beside other;
  const std::string first = beside.open().fingerprint().value();
  EXPECT_EQ(first.size(), 32u);
  EXPECT_EQ(beside.open().fingerprint().value(), first);
  EXPECT_NE(other.open().fingerprint().value(), first);
}

}  // namespace
}  // namespace duskwire::server
