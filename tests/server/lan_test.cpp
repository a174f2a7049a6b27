// SPDX-License-Identifier: Apache-2.0
// The door to the local network, asked without a socket: a phone that pairs, one that is forgotten, one that guesses.
#include <gtest/gtest.h>

#include <functional>

#include "server/lan_addresses.hpp"
#include "server/lan_desk.hpp"
#include "server/running.hpp"

namespace duskwire::server {
namespace {

using testing::code_of;
using testing::json_of;

constexpr std::uint16_t port = 7415;

class OpenDoor {
 public:
  OpenDoor()
      : workspace_(store::testing::open_or_fail(folder_.file("w"))),
        service_(*workspace_, "gardens", Gate(port, testing::token, "secret-of-the-session", {{}, {"192.168.7.2"}}),
                 PageFiles(), PictureTools{}, lan_) {}

  Response ask(const std::string& method, const std::string& target, const std::string& body = "",
               const std::string& cookie = "", std::vector<Field> more = {}, bool revoke_on_the_way = false) {
    Head head{method, target, {{"host", "192.168.7.2:7415"}}, true};
    if (method != "GET") {
      head.fields.push_back({"origin", "http://192.168.7.2:7415"});
      head.fields.push_back({"content-type", "application/json"});
      head.fields.push_back({"content-length", std::to_string(body.size())});
    }
    if (!cookie.empty()) head.fields.push_back({"cookie", cookie});
    for (const Field& field : more) {
      std::erase_if(head.fields, [&](const Field& there) { return there.name == field.name; });
      head.fields.push_back(field);
    }
    Handler::Admission admission = service_.admit(head);
    if (!admission.admitted) return std::move(admission.refusal);
    if (revoke_on_the_way) forget_all();
    return service_.answer(head, body);
  }

  Response pair(const std::string& code, const std::string& name = "Phone") {
    return ask("POST", "/api/pairing", R"({"code":")" + code + R"(","name":")" + name + "\"}");
  }

  // The cookie of a phone that has just been paired.
  std::string paired_cookie() {
    const std::string set = testing::field_of(pair(news_.back().text), "Set-Cookie");
    return set.substr(0, set.find(';'));
  }

  void forget_all() {
    Devices devices = Devices::open(folder_.file("w")).value();
    const std::vector<Device> all = devices.all().value();
    for (const Device& device : all) EXPECT_TRUE(devices.forget(device.id).value());
  }

  [[nodiscard]] LanDesk& lan() { return *lan_; }
  [[nodiscard]] store::Workspace& workspace() { return *workspace_; }
  void pass(std::chrono::seconds time) { time_ += time; }
  [[nodiscard]] const std::vector<LanNews>& news() const { return news_; }

 private:
  store::testing::Folder folder_;
  LanDesk::Clock::time_point time_{};
  std::vector<LanNews> news_;
  std::shared_ptr<LanDesk> lan_ = [this] {
    Devices devices = Devices::open(folder_.file("w")).value();
    std::string fingerprint = devices.fingerprint().value();
    auto made = std::make_shared<LanDesk>(
        std::move(devices), fingerprint, port, std::chrono::minutes(30),
        LanDesk::Surroundings{[this] { return time_; }, [] { return std::string("2026-03-01T08:00:00Z"); }, random_code,
                              [this](const LanNews& news) { news_.push_back(news); }});
    EXPECT_TRUE(made->stays_open());
    return made;
  }();
  std::unique_ptr<store::Workspace> workspace_;
  Service service_;
};

TEST(Lan, APhoneWithTheCodeGetsAKeyThatNoScriptReadsAndThatServesFromThenOn) {
  OpenDoor door;
  EXPECT_EQ(door.ask("GET", "/api/jobs").status, 401u);
  const Response before = door.ask("GET", "/api/pairing");
  EXPECT_EQ(before.status, 200u);
  EXPECT_EQ(json_of(before)["open"], true);
  EXPECT_EQ(json_of(before)["fingerprint"].get<std::string>().size(), 32u);
  const Response paired = door.pair(door.news().back().text);
  ASSERT_EQ(paired.status, 201u) << paired.body;
  const std::string set = testing::field_of(paired, "Set-Cookie");
  EXPECT_NE(set.find("; HttpOnly; SameSite=Strict; Path=/api"), std::string::npos) << set;
  EXPECT_EQ(set.rfind("duskwire-phone-7415=phone-", 0), 0u) << "ports share cookies: the port is in the name";
  const std::string cookie = set.substr(0, set.find(';'));
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", cookie).status, 200u);
  EXPECT_EQ(door.ask("POST", "/api/jobs", testing::make_body("s", testing::job_text("mine")), cookie).status, 201u);
  EXPECT_EQ(door.ask("GET", "/api/session", "", cookie).status, 200u);
}

// What opens the page on the desk must not be worth stealing from the air.
TEST(Lan, TheDesksOwnTokenAndCookieOpenNothingFromTheNetwork) {
  OpenDoor door;
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", "", {{"authorization", "Bearer " + testing::token}}).status, 401u);
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", "duskwire-7415=secret-of-the-session").status, 401u);
  const Response session = door.ask("POST", "/api/session", R"({"token":")" + testing::token + "\"}");
  EXPECT_EQ(session.status, 403u);
  EXPECT_EQ(testing::field_of(session, "Set-Cookie"), "");
}

TEST(Lan, NamesOfThisComputerAreNoneOfTheNetworkAndTheOtherWayRound) {
  OpenDoor door;
  for (const char* host : {"127.0.0.1:7415", "localhost:7415", "192.168.7.2", "192.168.7.2:80", "192.168.7.3:7415",
                           "192.168.7.2.:7415", "evil.test:7415"}) {
    EXPECT_EQ(door.ask("GET", "/api/pairing", "", "", {{"host", host}}).status, 421u) << host;
  }
}

TEST(Lan, AnotherPageOrProgramChangesNothing) {
  OpenDoor door;
  const std::string cookie = door.paired_cookie();
  const std::string body = testing::make_body("s", testing::job_text("mine"));
  for (const char* origin : {"null", "http://evil.test", "http://192.168.7.2:8080", "https://192.168.7.2:7415", ""}) {
    EXPECT_EQ(door.ask("POST", "/api/jobs", body, cookie, {{"origin", origin}}).status, 403u) << origin;
  }
  EXPECT_EQ(door.ask("POST", "/api/jobs", body, cookie, {{"content-type", "text/plain"}}).status, 415u);
  EXPECT_EQ(door.workspace().jobs().value().size(), 0u);
}

TEST(Lan, AForgottenPhoneIsOutInTheMiddleOfARequest) {
  OpenDoor door;
  const std::string cookie = door.paired_cookie();
  const std::string body = testing::make_body("s", testing::job_text("mine"));
  const Response late = door.ask("POST", "/api/jobs", body, cookie, {}, true);
  EXPECT_EQ(late.status, 401u);
  EXPECT_EQ(code_of(late), "unauthorised");
  EXPECT_EQ(door.workspace().jobs().value().size(), 0u);
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", cookie).status, 401u);
}

TEST(Lan, GuessingEndsPairingAndSaysSoOnTheScreen) {
  OpenDoor door;
  const std::string cookie = door.paired_cookie();
  unsigned tries = 0;
  while (tries < 100 && door.pair("guess").status == 401) ++tries;
  EXPECT_EQ(tries, 19u);
  EXPECT_EQ(door.pair("guess").status, 403u);
  EXPECT_EQ(door.news().back().kind, LanNews::Kind::pairing_over);
  EXPECT_EQ(json_of(door.ask("GET", "/api/pairing"))["open"], false);
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", cookie).status, 200u) << "paired phones go on";
}

TEST(Lan, ANameThatWouldWriteOnTheTerminalIsRefused) {
  OpenDoor door;
  const std::string code = door.news().back().text;
  EXPECT_EQ(door.pair(code, R"(\u001b[2J)").status, 400u);
  EXPECT_EQ(door.pair(code, "").status, 400u);
  EXPECT_EQ(door.pair(code, std::string(61, 'a')).status, 400u);
  EXPECT_EQ(door.pair(code, "Gardens\xc2\xb4 phone").status, 201u) << "the code was not used up by the others";
}

TEST(Lan, TheDoorShutsHalfAnHourAfterTheLastPairedPhone) {
  OpenDoor door;
  door.pass(std::chrono::minutes(29));
  EXPECT_TRUE(door.lan().stays_open());
  const std::string cookie = door.paired_cookie();
  door.pass(std::chrono::minutes(29));
  EXPECT_EQ(door.ask("GET", "/api/jobs", "", cookie).status, 200u);
  door.pass(std::chrono::minutes(29));
  EXPECT_TRUE(door.lan().stays_open());
  EXPECT_EQ(door.ask("GET", "/api/jobs").status, 401u) << "a stranger's request holds no door open";
  door.pass(std::chrono::minutes(2));
  EXPECT_FALSE(door.lan().stays_open());
  EXPECT_EQ(door.news().back().kind, LanNews::Kind::closed);
}

TEST(Lan, WithoutTheDoorThereIsNoPairing) {
  testing::Running server;
  EXPECT_EQ(server.ask("GET", "/api/pairing").status, 404u);
  EXPECT_EQ(server.ask("POST", "/api/pairing", R"({"code":"1","name":"x"})").status, 404u);
}

TEST(LanAddresses, OnlyPrivateOnesAreOpened) {
  for (const char* wish : {"10.1.2.3", "172.16.0.1", "172.31.255.1", "192.168.1.1", "169.254.3.4", "127.0.0.2"}) {
    EXPECT_TRUE(addresses_to_open(wish).ok()) << wish;
  }
  for (const char* wish : {"0.0.0.0", "8.8.8.8", "172.32.0.1", "172.15.0.1", "192.169.0.1", "11.0.0.1", "::1",
                           "fe80::1", "192.168.1", "192.168.1.1 ", "garden.local"}) {
    const auto refused = addresses_to_open(wish);
    ASSERT_FALSE(refused.ok()) << wish;
    EXPECT_EQ(refused.error().code, ErrorCode::invalid);
  }
}

TEST(LanAddresses, AFurtherNameIsANameAndNothingElse) {
  for (const char* name : {"garden.local", "localhost6", "127.5.6.7", "desk:8443"})
    EXPECT_TRUE(is_host_name(name)) << name;
  for (const char* name : {"", "*", "a b", "a/b", "a:", "a:b", "http://a", "a\r\nb", "a:123456"}) {
    EXPECT_FALSE(is_host_name(name)) << name;
  }
}

}  // namespace
}  // namespace duskwire::server
