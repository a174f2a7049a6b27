// SPDX-License-Identifier: Apache-2.0
// Night pictures at full size over the routes: begun, asked after, fetched, ended, refused.
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>
#include <iterator>
#include <thread>
#include <utility>

#include "pictures/codec.hpp"
#include "server/running.hpp"

namespace duskwire::server {
namespace {

using formats::Json;
using testing::code_of;
using testing::json_of;
using testing::Running;

std::string file_of(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// The demo, with its photograph in the workspace; smaller, so that a test does not take long.
class NightRoutes : public ::testing::Test {
 protected:
  explicit NightRoutes(PictureTools tools = {}) : server_(std::move(tools)) {}

  void SetUp() override {
    document_ = Json::parse(file_of("examples/ostrey-garden.json"));
    const auto decoded = pictures::decode(file_of("examples/ostrey-front.jpg"));
    ASSERT_TRUE(decoded.ok());
    const auto jpeg = pictures::encode_jpeg(pictures::shrunk(decoded.value().picture, 400, 267));
    ASSERT_TRUE(jpeg.ok());
    store::Picture picture{store::sha256_hex(jpeg.value()), "image/jpeg", 400, 267, jpeg.value()};
    ASSERT_TRUE(server_.workspace().add_picture(picture, picture.hash).ok());
    document_["views"][0]["image"] = picture.hash;
  }

  Response begin(const Json& wish) { return begin(document_, wish); }
  Response begin(const Json& document, const Json& wish) {
    return server_.ask("POST", "/api/nights", Json{{"document", document}, {"wish", wish}}.dump());
  }

  // Waits until it is no longer at work.
  Json ended(const std::string& id) {
    for (int i = 0; i < 600; ++i) {
      const Json standing = json_of(server_.ask("GET", "/api/nights/" + id));
      if (standing["state"] != "working") return standing;
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    return {};
  }

  Running server_;
  Json document_;
};

// As the process for pictures would answer of one that breaks its decoder.
class NightOfABrokenPicture : public NightRoutes {
 protected:
  NightOfABrokenPicture()
      : NightRoutes({clean_picture, [](std::string_view, std::uint32_t) -> Result<OpenedPicture> {
                       return Error{ErrorCode::invalid, "the process for pictures would not have it"};
                     }}) {}
};

TEST_F(NightOfABrokenPicture, AStoredPhotographIsOpenedThereAndNowhereElse) {
  const Json standing = ended(json_of(begin({{"view", "front"}}))["id"]);
  EXPECT_EQ(standing["state"], "failed");
  EXPECT_EQ(standing["message"], "the process for pictures would not have it");
  const Response begun =
      server_.ask("POST", "/api/papers", Json{{"document", document_}, {"wish", {{"only", {"proposal"}}}}}.dump());
  ASSERT_EQ(begun.status, 201u) << begun.body;
  Json papers = Json::object();
  for (int i = 0; i < 600 && papers.value("state", "working") == "working"; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
    papers = json_of(server_.ask("GET", "/api/papers/1"));
  }
  ASSERT_EQ(papers["state"], "done") << papers;
  EXPECT_NE(papers["files"][0]["remarks"].dump().find("the process for pictures would not have it"), std::string::npos);
}

TEST_F(NightRoutes, APictureIsMadeInTheBackgroundAndFetched) {
  const Response begun = begin({{"view", "front"}, {"exposure_stops", 1}});
  ASSERT_EQ(begun.status, 201u) << begun.body;
  const std::string id = json_of(begun)["id"];
  const Json standing = ended(id);
  ASSERT_EQ(standing["state"], "done") << standing;
  EXPECT_EQ(standing["share"], 1);
  EXPECT_GE(standing["assumptions"].size(), 4u);
  const Response picture = server_.ask("GET", "/api/nights/" + id + "/picture");
  EXPECT_EQ(picture.status, 200u);
  EXPECT_EQ(picture.media_type, "image/png");
  const auto decoded = pictures::decode(picture.body);
  ASSERT_TRUE(decoded.ok());
  EXPECT_EQ(decoded.value().picture.width_px, 400u);
  EXPECT_GT(decoded.value().picture.height_px, 267u);
  EXPECT_EQ(server_.ask("DELETE", "/api/nights/" + id).status, 200u);
  EXPECT_EQ(server_.ask("GET", "/api/nights/" + id).status, 404u);
}

TEST_F(NightRoutes, OneIsAtWorkAtATimeAndCanBeEnded) {
  const std::string id = json_of(begin({{"view", "front"}}))["id"];
  const Response second = begin({{"view", "front"}});
  // The first may be done already on a quick computer.
  EXPECT_TRUE(second.status == 409 || second.status == 201) << second.status;
  EXPECT_EQ(server_.ask("DELETE", "/api/nights/" + id).status, 200u);
  for (int i = 0; i < 600 && begin({{"view", "front"}}).status == 409; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  EXPECT_EQ(server_.ask("GET", "/api/nights/" + id + "/picture").status, 404u);
}

TEST_F(NightRoutes, WhatCannotBeMadeIsRefused) {
  EXPECT_EQ(begin({{"view", "back"}}).status, 404u);
  EXPECT_EQ(begin({{"view", "front"}, {"camera_share", 7}}).status, 400u);
  EXPECT_EQ(begin({{"view", 7}}).status, 400u);
  EXPECT_EQ(begin(Json::array(), {{"view", "front"}}).status, 400u);
  EXPECT_EQ(server_.ask("POST", "/api/nights", "{}").status, 400u);
  Json without = document_;
  without["views"][0]["image"] = std::string(64, 'a');
  EXPECT_EQ(begin(without, {{"view", "front"}}).status, 404u);
  EXPECT_EQ(server_.ask("GET", "/api/nights/77").status, 404u);
  EXPECT_EQ(server_.ask("GET", "/api/nights/x-y").status, 404u);
  EXPECT_EQ(server_.ask("DELETE", "/api/nights/77").status, 404u);
  EXPECT_EQ(server_.ask("PUT", "/api/nights/77", "{}").status, 405u);
}

TEST_F(NightRoutes, AViewWithoutCalibrationFailsWithWords) {
  Json bare = document_;
  bare["views"][0].erase("calibration");
  const Response begun = begin(bare, {{"view", "front"}});
  ASSERT_EQ(begun.status, 201u) << begun.body;
  const Json standing = ended(json_of(begun)["id"]);
  EXPECT_EQ(standing["state"], "failed");
  EXPECT_NE(standing["message"], "");
}

}  // namespace
}  // namespace duskwire::server
