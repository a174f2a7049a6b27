// SPDX-License-Identifier: Apache-2.0
// The routes of docs/server-api.md, one after the other.
#include "server/routes.hpp"

#include <gtest/gtest.h>

#include "server/running.hpp"

namespace duskwire::server {
namespace {

using testing::code_of;
using testing::field_of;
using testing::job_text;
using testing::json_of;
using testing::make_body;
using testing::Running;
using testing::save_body;

TEST(Routes, AJobIsMadeListedOpenedAndSaved) {
  Running server;
  const Response made = server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  EXPECT_EQ(made.status, 201u) << made.body;
  EXPECT_EQ(json_of(made)["revision"], 1);
  const Response saved = server.ask("PUT", "/api/jobs/garden", save_body(1, "s-2", job_text("garden", "Renamed")));
  EXPECT_EQ(saved.status, 200u) << saved.body;
  EXPECT_EQ(json_of(saved)["revision"], 2);
  const auto list = json_of(server.ask("GET", "/api/jobs"))["jobs"];
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0]["title"], "Renamed");
  EXPECT_EQ(list[0]["client"], "The client");
  EXPECT_EQ(list[0]["place"], "Lane 3");
  EXPECT_EQ(list[0]["summary"]["lamp_count"], 3);
  const Response opened = server.ask("GET", "/api/jobs/garden");
  const std::string checksum = json_of(opened)["checksum"];
  EXPECT_EQ(json_of(saved)["checksum"], checksum);
  EXPECT_EQ(field_of(opened, "ETag"), "\"2-" + checksum + "\"");
  EXPECT_EQ(json_of(opened)["archived"], false);
  EXPECT_EQ(json_of(opened)["document"], formats::Json::parse(job_text("garden", "Renamed")));
  EXPECT_EQ(server.ask("GET", "/api/jobs/garden", "", {{"if-none-match", "\"2-" + checksum + "\""}}).status, 304u);
  EXPECT_EQ(server.ask("GET", "/api/jobs/garden", "", {{"if-none-match", "\"1\""}}).status, 200u);
  const std::string of_another_time = "\"2-" + std::string(64, '0') + "\"";
  EXPECT_EQ(server.ask("GET", "/api/jobs/garden", "", {{"if-none-match", of_another_time}}).status, 200u);
}

TEST(Routes, AStaleSaveIsRefusedWithBothSides) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  server.ask("PUT", "/api/jobs/garden", save_body(1, "s-theirs", job_text("garden", "Theirs")));
  const Response mine = server.ask("PUT", "/api/jobs/garden", save_body(1, "s-mine", job_text("garden", "Mine")));
  EXPECT_EQ(mine.status, 409u);
  const auto error = json_of(mine)["error"];
  EXPECT_EQ(error["base_revision"], 1);
  EXPECT_EQ(error["current_revision"], 2);
  EXPECT_EQ(error["current_save_id"], "s-theirs");
  EXPECT_NE(error["message"].get<std::string>().find("revision 2"), std::string::npos);
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/garden"))["document"]["title"], "Theirs");
  EXPECT_EQ(server.ask("PUT", "/api/jobs/garden", save_body(2, "s-mine", job_text("garden", "Mine"))).status, 200u);
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/garden/revisions/2"))["document"]["title"], "Theirs");
}

TEST(Routes, ASaveFromBeforeABackupWasPutBackIsRefusedWithBothSides) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden", "Of the backup")));
  const auto with_base = [](int revision, const std::string& checksum) {
    formats::Json body = formats::Json::parse(save_body(revision, "s-mine", job_text("garden", "Mine")));
    body["base_checksum"] = checksum;
    return body.dump();
  };
  for (const int revision : {1, 7}) {
    const Response mine = server.ask("PUT", "/api/jobs/garden", with_base(revision, std::string(64, 'a')));
    EXPECT_EQ(mine.status, 409u);
    const auto error = json_of(mine)["error"];
    EXPECT_EQ(error["current_revision"], 1);
    EXPECT_NE(error["message"].get<std::string>().find("a backup was put back"), std::string::npos) << error;
    EXPECT_EQ(error["current_checksum"], json_of(server.ask("GET", "/api/jobs/garden"))["checksum"]);
  }
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/garden"))["document"]["title"], "Of the backup");
  const std::string known = json_of(server.ask("GET", "/api/jobs/garden"))["checksum"];
  EXPECT_EQ(server.ask("PUT", "/api/jobs/garden", with_base(1, known)).status, 200u);
  EXPECT_EQ(server.ask("PUT", "/api/jobs/garden", with_base(2, std::string(65, 'a'))).status, 400u);
  const std::string shop =
      R"({"base_revision":0,"save_id":"s-1","document":{"format":"duskwire-catalogue","version":1}})";
  const std::string stored = json_of(server.ask("PUT", "/api/shop-catalogue", shop))["checksum"];
  EXPECT_EQ(json_of(server.ask("GET", "/api/shop-catalogue"))["checksum"], stored);
  formats::Json again = formats::Json::parse(shop);
  again["base_revision"] = 1;
  again["save_id"] = "s-2";
  again["base_checksum"] = std::string(64, 'a');
  EXPECT_EQ(server.ask("PUT", "/api/shop-catalogue", again.dump()).status, 409u);
}

TEST(Routes, ASaveThatIsSentTwiceCountsOnce) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  EXPECT_EQ(server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden"))).status, 201u);
  for (int i = 0; i < 2; ++i) {
    EXPECT_EQ(json_of(server.ask("PUT", "/api/jobs/garden", save_body(1, "s-2", job_text("garden"))))["revision"], 2);
  }
  EXPECT_EQ(server.ask("POST", "/api/jobs", make_body("s-3", job_text("garden"))).status, 409u);
}

TEST(Routes, NumbersAndUnknownKeysComeBackAsTheyWent) {
  Running server;
  const std::string document =
      R"({"format":"duskwire-job","version":1,"id":"n","x":[0.1,1e-300,12345678901234567,-0.0,3.0000000000000004],"ünknown":{"k":null}})";
  server.ask("POST", "/api/jobs", make_body("s-1", document));
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/n"))["document"], formats::Json::parse(document));
}

TEST(Routes, AnUnfinishedDocumentIsKeptABrokenOneIsRefusedWithAllItsProblems) {
  Running server;
  EXPECT_EQ(
      server.ask("POST", "/api/jobs", make_body("s-1", R"({"format":"duskwire-job","version":1,"id":"x","cables":7})"))
          .status,
      201u);
  const Response bad = server.ask(
      "PUT", "/api/jobs/x", R"({"save_id":"a b","base_revision":-1,"document":{"format":"f","version":2,"id":"y"}})");
  EXPECT_EQ(bad.status, 400u);
  const auto problems = json_of(bad)["error"]["problems"];
  ASSERT_EQ(problems.size(), 5u) << bad.body;
  EXPECT_EQ(problems[0]["pointer"], "/base_revision");
  EXPECT_EQ(problems[0]["value"], "-1");
  EXPECT_EQ(problems[4]["pointer"], "/document/id");
  for (const char* body : {"", "{", "[]", "7", "{\"a\":1,}", "\xff"}) {
    EXPECT_EQ(server.ask("PUT", "/api/jobs/x", body).status, 400u) << body;
  }
  std::string deep = job_text("x");
  deep.insert(deep.size() - 1, ",\"deep\":" + std::string(100000, '[') + std::string(100000, ']'));
  EXPECT_EQ(server.ask("PUT", "/api/jobs/x", save_body(1, "s-2", deep)).status, 400u);
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/x"))["revision"], 1);
}

TEST(Routes, ABodyInWhichAKeyComesTwiceIsRefusedRatherThanHalved) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  for (const char* document : {R"({"format":"duskwire-job","version":1,"id":"garden","title":"a","title":"b"})",
                               R"({"format":"duskwire-job","version":1,"id":"garden","x":[{"y":1,"y":2}]})"}) {
    const Response refused = server.ask("PUT", "/api/jobs/garden", save_body(1, "s-2", document));
    EXPECT_EQ(refused.status, 400u);
    EXPECT_NE(refused.body.find("comes twice"), std::string::npos) << refused.body;
  }
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/garden"))["revision"], 1);
}

TEST(Routes, AJobIsDuplicatedAndArchived) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  const Response copy =
      server.ask("POST", "/api/jobs/garden/duplicate", R"({"save_id":"s-2","id":"second","title":"Second"})");
  EXPECT_EQ(copy.status, 201u) << copy.body;
  const auto document = json_of(server.ask("GET", "/api/jobs/second"))["document"];
  EXPECT_EQ(document["id"], "second");
  EXPECT_EQ(document["title"], "Second");
  EXPECT_EQ(document["kept"], formats::Json::parse(R"([0.1,{"deep":true}])"));
  EXPECT_EQ(server.ask("POST", "/api/jobs/garden/duplicate", R"({"save_id":"s-3","id":"second","title":"T"})").status,
            409u);
  EXPECT_EQ(server.ask("POST", "/api/jobs/garden/archive", R"({"archived":true})").status, 200u);
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/garden"))["archived"], true);
  EXPECT_EQ(server.ask("POST", "/api/jobs/garden/archive", R"({"archived":1})").status, 400u);
}

TEST(Routes, RevisionsAreListedInPages) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-0", job_text("g")));
  for (int i = 1; i < 205; ++i) server.ask("PUT", "/api/jobs/g", save_body(i, "s-" + std::to_string(i), job_text("g")));
  const auto newest = json_of(server.ask("GET", "/api/jobs/g/revisions"))["revisions"];
  ASSERT_EQ(newest.size(), 200u);
  EXPECT_EQ(newest[0]["revision"], 205);
  EXPECT_EQ(newest[0]["label"], "A change");
  EXPECT_EQ(json_of(server.ask("GET", "/api/jobs/g/revisions?before=6"))["revisions"].size(), 5u);
  EXPECT_EQ(server.ask("GET", "/api/jobs/g/revisions?before=x").status, 400u);
  EXPECT_EQ(server.ask("GET", "/api/jobs/g/revisions/206").status, 404u);
  EXPECT_EQ(server.ask("GET", "/api/jobs/g/revisions/x").status, 404u);
}

TEST(Routes, TheShopCatalogueIsKeptLikeAJob) {
  Running server;
  EXPECT_EQ(json_of(server.ask("GET", "/api/shop-catalogue"))["revision"], 0);
  const std::string body =
      R"({"base_revision":0,"save_id":"s-1","document":{"format":"duskwire-catalogue","version":1,"n":1}})";
  EXPECT_EQ(server.ask("PUT", "/api/shop-catalogue", body).status, 200u);
  EXPECT_EQ(json_of(server.ask("GET", "/api/shop-catalogue"))["document"]["n"], 1);
  std::string stale = body;
  stale.replace(stale.find("s-1"), 3, "s-2");
  EXPECT_EQ(server.ask("PUT", "/api/shop-catalogue", stale).status, 409u);
  EXPECT_EQ(server.ask("PUT", "/api/shop-catalogue", make_body("s-3", job_text("x"))).status, 400u);
}

// A path is never joined, so that there is nothing to climb out of.
TEST(Routes, OnlyIdsNameThings) {
  Running server;
  for (const char* path :
       {"/api/jobs/..", "/api/jobs/%2e%2e", "/api/jobs/a%2fb", "/api/jobs/a b", "/api/jobs/", "/api/jobs/a/",
        "/api//jobs", "/api/jobs/a/revisions/1/x", "/api/jobs/\xc3\xa4", "/api", "/api/", "/api/images/../jobs",
        "/../etc/passwd", "/assets/../../x", "/..%2f..%2fetc%2fpasswd", "//", "/index.html/"}) {
    EXPECT_EQ(server.ask("GET", path).status, 404u) << path;
  }
  EXPECT_EQ(server.ask("GET", "/api/jobs/" + std::string(65, 'a')).status, 404u);
  EXPECT_EQ(match("jobs/*/revisions/*", "jobs/a.b_c-D/revisions/7"), (std::vector<std::string>{"a.b_c-D", "7"}));
}

TEST(Routes, OtherMethodsAreToldWhichThereAre) {
  Running server;
  const Response response = server.ask("DELETE", "/api/jobs/garden");
  EXPECT_EQ(response.status, 405u);
  EXPECT_EQ(field_of(response, "Allow"), "GET, PUT");
  EXPECT_EQ(server.ask("POST", "/").status, 405u);
  EXPECT_EQ(server.ask("OPTIONS", "/api/jobs").status, 405u) << "no preflight is ever answered";
}

// A form of a foreign page cannot send JSON.
TEST(Routes, BodiesOfAnotherKindOrSizeAreRefusedUnread) {
  Running server;
  const std::string body = make_body("s-1", job_text("garden"));
  for (const char* type :
       {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "application/jsonx"}) {
    EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"content-type", type}}).status, 415u) << type;
  }
  EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"content-type", ""}}).status, 415u);
  EXPECT_EQ(server.ask("POST", "/api/jobs", body, {{"content-type", "application/json; charset=utf-8"}}).status, 201u);
  EXPECT_EQ(server.ask("PUT", "/api/jobs/garden", body, {{"content-length", "16777217"}}).status, 413u);
  EXPECT_EQ(server.ask("POST", "/api/jobs/garden/archive", body, {{"content-length", "65537"}}).status, 413u);
  EXPECT_EQ(server.ask("PUT", "/api/shop-catalogue", body, {{"content-length", "8388609"}}).status, 413u);
  EXPECT_EQ(server.ask("PUT", "/api/jobs/garden", body, {{"content-length", "99999999999999999999999"}}).status, 413u);
  EXPECT_EQ(server.ask("GET", "/api/jobs", "{}").status, 400u);
}

TEST(Routes, EveryAnswerCarriesTheStandingFieldsAndNoneOfCors) {
  Running server;
  std::vector<Response> answers = {server.ask("GET", "/"),
                                   server.ask("GET", "/api/jobs"),
                                   server.ask("GET", "/none"),
                                   server.ask("DELETE", "/api/jobs"),
                                   server.ask("POST", "/api/jobs", "{"),
                                   server.ask("GET", "/", "", {{"host", "evil.test"}}),
                                   server.ask("GET", "/api/jobs", "", {{"authorization", ""}})};
  for (const Response& answer : answers) {
    EXPECT_EQ(field_of(answer, "Content-Security-Policy").find("default-src 'none'"), 0u) << answer.status;
    EXPECT_NE(field_of(answer, "Content-Security-Policy").find("frame-ancestors 'none'"), std::string::npos);
    EXPECT_EQ(field_of(answer, "X-Content-Type-Options"), "nosniff");
    EXPECT_EQ(field_of(answer, "Referrer-Policy"), "no-referrer");
    EXPECT_EQ(field_of(answer, "Cross-Origin-Opener-Policy"), "same-origin");
    EXPECT_EQ(field_of(answer, "Cross-Origin-Resource-Policy"), "same-origin");
    for (const Field& field : answer.fields) EXPECT_EQ(field.name.find("Access-Control"), std::string::npos);
  }
}

TEST(Routes, ReadingChangesNothing) {
  Running server;
  server.ask("POST", "/api/jobs", make_body("s-1", job_text("garden")));
  const std::string before = server.ask("GET", "/api/jobs").body + server.ask("GET", "/api/jobs/garden/revisions").body;
  for (const Route& route : all_routes()) {
    std::string path = "/api/" + std::string(route.path);
    for (auto star = path.find('*'); star != std::string::npos; star = path.find('*')) path.replace(star, 1, "garden");
    for (const char* method : {"GET", "HEAD"}) EXPECT_NE(server.ask(method, path).status, 500u) << path;
  }
  EXPECT_EQ(server.ask("GET", "/api/jobs").body + server.ask("GET", "/api/jobs/garden/revisions").body, before);
}

}  // namespace
}  // namespace duskwire::server
