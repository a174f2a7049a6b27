// SPDX-License-Identifier: Apache-2.0
// A service over a workspace of its own, asked without a socket.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "formats/json_text.hpp"
#include "server/service.hpp"
#include "store/temporary.hpp"

namespace duskwire::server::testing {

using formats::Json;

inline const std::string token = "token-of-this-start";

class Running {
 public:
  explicit Running(PictureTools tools = {})
      : workspace_(store::testing::open_or_fail(folder_.file("w"))),
        service_(*workspace_, "gardens", Gate(7415, token, "secret-of-the-session"), PageFiles(), std::move(tools)) {}

  // As a program with the token would ask; `changes` replace or add fields, an empty value takes one away.
  Response ask(const std::string& method, const std::string& target, const std::string& body = "",
               const std::vector<Field>& changes = {}) {
    Head head{method, target, {{"host", "127.0.0.1:7415"}, {"authorization", "Bearer " + token}}};
    if (!body.empty() || method == "POST" || method == "PUT") {
      head.fields.push_back({"content-type", "application/json"});
      head.fields.push_back({"content-length", std::to_string(body.size())});
    }
    for (const Field& change : changes) {
      std::erase_if(head.fields, [&](const Field& field) { return field.name == change.name; });
      if (!change.value.empty()) head.fields.push_back(change);
    }
    return send(head, body);
  }

  Response send(const Head& head, const std::string& body = "") {
    Handler::Admission admission = service_.admit(head);
    if (!admission.admitted) return std::move(admission.refusal);
    EXPECT_LE(body.size(), admission.body_limit_bytes);
    return service_.answer(head, body);
  }

  [[nodiscard]] store::Workspace& workspace() { return *workspace_; }

 private:
  store::testing::Folder folder_;
  std::unique_ptr<store::Workspace> workspace_;
  Service service_;
};

inline Json json_of(const Response& response) { return Json::parse(response.body, nullptr, false); }

inline std::string code_of(const Response& response) { return json_of(response)["error"].value("code", ""); }

inline std::string field_of(const Response& response, const std::string& name) {
  for (const Field& field : response.fields) {
    if (field.name == name) return field.value;
  }
  return "";
}

inline std::string job_text(const std::string& id, const std::string& title = "A garden") {
  return R"({"format":"duskwire-job","version":1,"id":")" + id + R"(","title":")" + title +
         R"(","stage":"design","client":{"name":"The client"},"site":{"address":"Lane 3"},"kept":[0.1,{"deep":true}]})";
}

inline std::string save_body(int base_revision, const std::string& save_id, const std::string& document) {
  return R"({"base_revision":)" + std::to_string(base_revision) + R"(,"save_id":")" + save_id +
         R"(","label":"A change","summary":{"lamp_count":3},"document":)" + document + "}";
}

inline std::string make_body(const std::string& save_id, const std::string& document) {
  return R"({"save_id":")" + save_id + R"(","document":)" + document + "}";
}

}  // namespace duskwire::server::testing
