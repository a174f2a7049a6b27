// SPDX-License-Identifier: Apache-2.0
// Who is let in. Each test names the attack that succeeds where its rule is missing.
#include "server/gate.hpp"

#include <gtest/gtest.h>

#include <set>

#include "server/running.hpp"
#include "server/secrets.hpp"

namespace duskwire::server {
namespace {

using testing::code_of;
using testing::Running;
using testing::token;

// A name that an attacker's DNS points at 127.0.0.1 makes the browser believe that we are the attacker's own site.
TEST(Gate, AForeignHostIsRefused) {
  Running server;
  for (const char* host :
       {"evil.test", "evil.test:7415", "127.0.0.1", "127.0.0.1:7416", "localhost.:7415", "127.0.0.1.:7415", "[::1]",
        "[::1]:7416", "::1:7415", "[::]:7415", "0.0.0.0:7415", "localhost:7415@evil.test"}) {
    EXPECT_EQ(server.ask("GET", "/api/jobs", "", {{"host", host}}).status, 421u) << host;
    EXPECT_EQ(server.ask("GET", "/", "", {{"host", host}}).status, 421u) << host;
  }
  EXPECT_EQ(server.ask("GET", "/api/jobs", "", {{"host", ""}}).status, 421u);
  Head two{"GET",
           "/api/jobs",
           {{"host", "127.0.0.1:7415"}, {"host", "127.0.0.1:7415"}, {"authorization", "Bearer " + token}}};
  EXPECT_EQ(server.send(two).status, 421u);
}

TEST(Gate, BothOfOurNamesAreAccepted) {
  Running server;
  for (const char* host : {"127.0.0.1:7415", "localhost:7415", "LOCALHOST:7415", "[::1]:7415"}) {
    EXPECT_EQ(server.ask("GET", "/api/jobs", "", {{"host", host}}).status, 200u) << host;
  }
}

// Any page may post a form to us; the cookie would go along from a sibling port.
TEST(Gate, AnotherPageCannotMakeTheBrowserChangeAnything) {
  Running server;
  const std::string body = testing::make_body("s-1", testing::job_text("mine"));
  const Field cookie{"cookie", "duskwire-7415=secret-of-the-session"};
  const auto status = [&](std::vector<Field> fields) {
    fields.push_back(cookie);
    fields.push_back({"authorization", ""});
    return server.ask("POST", "/api/jobs", body, fields).status;
  };
  EXPECT_EQ(status({{"sec-fetch-site", "cross-site"}}), 403u);
  EXPECT_EQ(status({{"sec-fetch-site", "same-site"}}), 403u) << "another port of this computer";
  EXPECT_EQ(status({{"origin", "null"}}), 403u);
  EXPECT_EQ(status({{"origin", "http://127.0.0.1:9999"}}), 403u);
  EXPECT_EQ(status({{"origin", "https://127.0.0.1:7415"}}), 403u);
  EXPECT_EQ(status({{"origin", "http://evil.test"}}), 403u);
  EXPECT_EQ(status({}), 403u) << "neither field, no token";
  EXPECT_EQ(server.workspace().jobs().value().size(), 0u);
  EXPECT_EQ(status({{"sec-fetch-site", "same-origin"}}), 201u);
  EXPECT_EQ(status({{"origin", "http://127.0.0.1:7415"}}), 201u) << "the same save again: its first answer";
}

TEST(Gate, AnotherPageCannotReadEither) {
  Running server;
  const Field cookie{"cookie", "duskwire-7415=secret-of-the-session"};
  EXPECT_EQ(
      server.ask("GET", "/api/jobs", "", {{"authorization", ""}, cookie, {"sec-fetch-site", "cross-site"}}).status,
      403u);
  EXPECT_EQ(server.ask("GET", "/api/jobs", "", {{"authorization", ""}, cookie}).status, 200u);
}

TEST(Gate, WithoutASessionNothingIsTold) {
  Running server;
  for (const Field& held : {Field{"authorization", ""}, Field{"authorization", "Bearer token-of-this-star"},
                            Field{"authorization", "Bearer "}, Field{"authorization", "Basic " + token}}) {
    const Response response = server.ask("GET", "/api/jobs", "", {held});
    EXPECT_EQ(response.status, 401u) << held.value;
    EXPECT_EQ(code_of(response), "unauthorised");
  }
  // A cookie of a server on another port, and one of another start.
  EXPECT_EQ(
      server.ask("GET", "/api/jobs", "", {{"authorization", ""}, {"cookie", "duskwire-7416=secret-of-the-session"}})
          .status,
      401u);
  EXPECT_EQ(
      server.ask("GET", "/api/jobs", "", {{"authorization", ""}, {"cookie", "duskwire-7415=secret-of-the-sessiom"}})
          .status,
      401u);
  // An unknown address must not differ from a known one.
  EXPECT_EQ(server.ask("GET", "/api/none", "", {{"authorization", ""}}).status, 401u);
}

TEST(Gate, TheTokenGivesACookieThatNoScriptReads) {
  Running server;
  const Field from_page{"sec-fetch-site", "same-origin"};
  const Response wrong = server.ask("POST", "/api/session", R"({"token":"guess"})", {{"authorization", ""}, from_page});
  EXPECT_EQ(wrong.status, 401u);
  EXPECT_EQ(testing::field_of(wrong, "Set-Cookie"), "");
  const Response right =
      server.ask("POST", "/api/session", R"({"token":")" + token + "\"}", {{"authorization", ""}, from_page});
  EXPECT_EQ(right.status, 200u);
  const std::string cookie = testing::field_of(right, "Set-Cookie");
  EXPECT_EQ(cookie, "duskwire-7415=secret-of-the-session; HttpOnly; SameSite=Strict; Path=/api");
  EXPECT_EQ(cookie.find(token), std::string::npos);
  EXPECT_EQ(testing::json_of(right)["workspace"], "gardens");
  const Field held{"cookie", "other=1; " + cookie.substr(0, cookie.find(';'))};
  EXPECT_EQ(server.ask("GET", "/api/session", "", {{"authorization", ""}, held}).status, 200u);
  EXPECT_EQ(server.ask("GET", "/api/session", "", {{"authorization", ""}}).status, 401u);
}

TEST(Gate, ChunkedAndEncodedBodiesAreRefusedUnread) {
  Running server;
  const std::string body = testing::make_body("s-1", testing::job_text("mine"));
  EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"transfer-encoding", "chunked"}}).status, 411u);
  EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"content-encoding", "gzip"}}).status, 415u);
  EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"content-length", ""}}).status, 411u);
}

TEST(Gate, TooManyFieldsAndTooLongAnAddressAreRefused) {
  Running server;
  Head many{"GET", "/api/jobs", {{"host", "127.0.0.1:7415"}, {"authorization", "Bearer " + token}}};
  many.fields.resize(64, {"x", "y"});
  EXPECT_EQ(server.send(many).status, 200u);
  many.fields.push_back({"x", "y"});
  EXPECT_EQ(server.send(many).status, 431u);
  EXPECT_EQ(server.ask("GET", "/api/jobs?" + std::string(2048, 'a')).status, 414u);
}

// What the parser of HTTP lets through all the same, and other parsers beside it.
TEST(Gate, ALengthIsOneNumberInDigits) {
  const Gate gate(7415, token, "secret");
  const auto status = [&](std::vector<Field> fields) {
    fields.push_back({"host", "127.0.0.1:7415"});
    const auto refused = gate.refusal({"GET", "/api/jobs", std::move(fields)}, true);
    return refused ? refused->status : 200;
  };
  EXPECT_EQ(status({}), 200u);
  EXPECT_EQ(status({{"content-length", "12"}}), 200u);
  for (const char* length : {"", "-1", "+1", "1 2", "0x10", "12a", "1,1"}) {
    EXPECT_EQ(status({{"content-length", length}}), 400u) << length;
  }
  EXPECT_EQ(status({{"content-length", "1"}, {"content-length", "1"}}), 400u);
}

TEST(Gate, AFurtherNameIsAcceptedWithOurPortOrItsOwn) {
  const Gate gate(7415, token, "secret", {{"garden.local", "desk:8443"}, {"192.168.7.2"}});
  const auto is_known = [&](const char* host, bool from_lan) {
    return !gate.refusal({"HEAD", "/", {{"host", host}}, from_lan}, true);
  };
  for (const bool from_lan : {false, true}) {
    EXPECT_TRUE(is_known("garden.local:7415", from_lan));
    EXPECT_TRUE(is_known("DESK:8443", from_lan));
    EXPECT_FALSE(is_known("garden.local", from_lan));
    EXPECT_FALSE(is_known("desk:7415", from_lan));
    EXPECT_EQ(is_known("192.168.7.2:7415", from_lan), from_lan);
    EXPECT_EQ(is_known("localhost:7415", from_lan), !from_lan);
  }
}

// Who typed the address has no page before it; a program names its token instead, but never from the network.
TEST(Gate, WhereARequestComesFromIsToldByItsFields) {
  const Gate gate(7415, token, "secret", {{}, {"192.168.7.2"}});
  const auto passes = [&](const char* method, std::vector<Field> fields, bool from_lan = false) {
    fields.push_back({"host", from_lan ? "192.168.7.2:7415" : "127.0.0.1:7415"});
    return !gate.refusal({method, "/api/jobs", std::move(fields), from_lan}, true);
  };
  const Field bearer{"authorization", "Bearer " + token};
  EXPECT_TRUE(passes("POST", {{"sec-fetch-site", "none"}}));
  EXPECT_FALSE(passes("POST", {{"sec-fetch-site", "cross-site"}, bearer}));
  EXPECT_TRUE(passes("HEAD", {}));
  EXPECT_FALSE(passes("DELETE", {}));
  EXPECT_TRUE(passes("DELETE", {bearer}));
  EXPECT_TRUE(passes("POST", {{"origin", "http://192.168.7.2:7415"}}, true));
  EXPECT_FALSE(passes("POST", {bearer}, true));
  EXPECT_FALSE(passes("POST", {{"origin", "ftp"}}));
  EXPECT_FALSE(gate.refusal({"GET", "/", {{"host", "127.0.0.1:7415"}, {"sec-fetch-site", "cross-site"}}}, false))
      << "a link on another page opens ours";
  EXPECT_FALSE(gate.knows({"GET", "/api/jobs", {bearer}, true}));
  EXPECT_TRUE(gate.knows({"GET", "/api/jobs", {bearer}}));
  EXPECT_TRUE(gate.knows({"GET", "/api/jobs", {{"cookie", "duskwire-7415=secret"}}}));
}

TEST(Gate, SecretsAreLongAndNeverTheSame) {
  std::set<std::string> seen;
  for (int i = 0; i < 1000; ++i) {
    const std::string secret = random_secret();
    EXPECT_EQ(secret.size(), 43u);
    EXPECT_EQ(secret.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"),
              std::string::npos);
    EXPECT_TRUE(seen.insert(secret).second);
  }
}

}  // namespace
}  // namespace duskwire::server
