// SPDX-License-Identifier: Apache-2.0
// Papers over the routes: begun, asked after, looked at page by page, fetched, refused.
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>
#include <iterator>
#include <set>
#include <thread>

#include "pictures/codec.hpp"
#include "server/running.hpp"

namespace duskwire::server {
namespace {

using formats::Json;
using testing::json_of;
using testing::Running;

std::string file_of(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/examples/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Json document_of(const std::string& name) { return Json::parse(file_of(name)); }

class PaperRoutes : public ::testing::Test {
 protected:
  Response begin(const Json& wish) { return begin(document_of("small-garden.json"), wish); }
  Response begin(const Json& document, const Json& wish) {
    return server_.ask("POST", "/api/papers", Json{{"document", document}, {"wish", wish}}.dump());
  }

  // Waits until they are no longer at work.
  Json ended(const std::string& id) {
    for (int i = 0; i < 1200; ++i) {
      const Json standing = json_of(server_.ask("GET", "/api/papers/" + id));
      if (standing["state"] != "working") return standing;
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    return {};
  }

  Running server_;
};

TEST_F(PaperRoutes, PapersAreMadeInTheBackgroundAndFetched) {
  const Response begun =
      begin({{"size", "letter"}, {"units", "us"}, {"date", "2026-11-26"}, {"shop", "Example Lights"}});
  ASSERT_EQ(begun.status, 201u) << begun.body;
  const std::string id = json_of(begun)["id"];
  const Json standing = ended(id);
  ASSERT_EQ(standing["state"], "done") << standing;
  std::set<std::string> names;
  for (const Json& file : standing["files"]) {
    const std::string name = file["name"];
    names.insert(name);
    const Response sent = server_.ask("GET", "/api/papers/" + id + "/files/" + name);
    EXPECT_EQ(sent.status, 200u) << name;
    EXPECT_EQ(sent.body.size(), file["bytes"].get<std::size_t>()) << name;
    EXPECT_EQ(sent.media_type, file["media_type"]);
    if (file["kind"] != "paper") continue;
    EXPECT_EQ(sent.body.substr(0, 5), "%PDF-");
    EXPECT_GE(file["pages"], 1);
    const Response page = server_.ask("GET", "/api/papers/" + id + "/pages/" + name + "/1");
    ASSERT_EQ(page.status, 200u) << name;
    const auto decoded = pictures::decode(page.body);
    ASSERT_TRUE(decoded.ok());
    EXPECT_GT(decoded.value().picture.height_px, decoded.value().picture.width_px);
    EXPECT_EQ(server_.ask("GET", "/api/papers/" + id + "/pages/" + name + "/99").status, 404u);
  }
  for (const char* name :
       {"proposal.pdf", "crew.pdf", "commissioning.pdf", "owner.pdf", "materials.csv", "lists.xlsx", "plan.dxf"}) {
    EXPECT_EQ(names.count(name), 1u) << name;
  }
  const Response zip = server_.ask("GET", "/api/papers/" + id + "/zip");
  EXPECT_EQ(zip.status, 200u);
  EXPECT_EQ(zip.media_type, "application/zip");
  EXPECT_EQ(zip.body.substr(0, 2), "PK");
  EXPECT_EQ(server_.ask("DELETE", "/api/papers/" + id).status, 200u);
  EXPECT_EQ(server_.ask("GET", "/api/papers/" + id).status, 404u);
}

TEST_F(PaperRoutes, SomeOfThemComeWithoutLists) {
  const std::string id = json_of(begin({{"only", {"owner"}}}))["id"];
  const Json standing = ended(id);
  ASSERT_EQ(standing["files"].size(), 1u) << standing;
  EXPECT_EQ(standing["files"][0]["name"], "owner.pdf");
}

TEST_F(PaperRoutes, OfAJobWithErrorsTheySaySo) {
  const Json wish = {{"only", {"owner"}}};
  const Json sound = ended(json_of(begin(document_of("ostrey-garden-sound.json"), wish))["id"])["files"][0];
  EXPECT_EQ(sound["job_errors"], "");
  const Json unsound = ended(json_of(begin(document_of("ostrey-garden.json"), wish))["id"])["files"][0];
  const std::string words = unsound["job_errors"];
  EXPECT_EQ(words.rfind("The check finds 3 errors in this job. F5 (Pond, far bank)", 0), 0u) << words;
  EXPECT_GT(unsound["pages"], 0);
}

TEST_F(PaperRoutes, TheProposalShowsTheNightOfEachCalibratedView) {
  Json garden = document_of("ostrey-garden.json");
  const auto photograph = pictures::decode(file_of("ostrey-front.jpg"));
  ASSERT_TRUE(photograph.ok());
  const auto jpeg = pictures::encode_jpeg(pictures::shrunk(photograph.value().picture, 400, 267));
  ASSERT_TRUE(jpeg.ok());
  garden["views"][0]["image"] = store::sha256_hex(jpeg.value());
  const std::string before = json_of(begin(garden, {{"only", {"proposal"}}}))["id"];
  const Json without = ended(before)["files"][0];
  ASSERT_EQ(without["remarks"].size(), 1u) << without;
  EXPECT_NE(without["remarks"][0].get<std::string>().find("its photograph is not there"), std::string::npos);
  const store::Picture picture{store::sha256_hex(jpeg.value()), "image/jpeg", 400, 267, jpeg.value()};
  ASSERT_TRUE(server_.workspace().add_picture(picture, picture.hash).ok());
  const std::string after = json_of(begin(garden, {{"only", {"proposal"}}}))["id"];
  const Json with = ended(after)["files"][0];
  EXPECT_EQ(with["remarks"], Json::array()) << with;
  const auto has_photograph = [&](const std::string& id) {
    return server_.ask("GET", "/api/papers/" + id + "/files/proposal.pdf").body.find("/DCTDecode") != std::string::npos;
  };
  EXPECT_FALSE(has_photograph(before));
  EXPECT_TRUE(has_photograph(after));
}

TEST_F(PaperRoutes, WhatCannotBeMadeIsRefused) {
  EXPECT_EQ(begin({{"size", "a9"}}).status, 400u);
  EXPECT_EQ(begin({{"units", 7}}).status, 400u);
  EXPECT_EQ(begin({{"only", {"poem"}}}).status, 400u);
  EXPECT_EQ(begin({{"only", "owner"}}).status, 400u);
  EXPECT_EQ(begin({{"shop", std::string(201, 'x')}}).status, 400u);
  EXPECT_EQ(begin(Json::array(), Json::object()).status, 400u);
  EXPECT_EQ(server_.ask("POST", "/api/papers", "{}").status, 400u);
  EXPECT_EQ(server_.ask("GET", "/api/papers/77").status, 404u);
  EXPECT_EQ(server_.ask("GET", "/api/papers/77/zip").status, 404u);
  EXPECT_EQ(server_.ask("DELETE", "/api/papers/x-y").status, 404u);
}

}  // namespace
}  // namespace duskwire::server
