// SPDX-License-Identifier: Apache-2.0
#include "server/answers.hpp"

#include <fmt/format.h>

#include "formats/problems_json.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

std::string words_of(const store::Conflict& conflict, const std::string& what) {
  if (conflict.base_revision == 0) {
    return fmt::format("{} exists already, at revision {}. Choose another id, or open it.", what,
                       conflict.current_revision);
  }
  if (conflict.base_revision >= conflict.current_revision) {
    return fmt::format(
        "{} is at revision {}, and not the one that this was made from (its revision {}): a backup was put back since. "
        "Nothing was stored. Compare both, then keep one.",
        what, conflict.current_revision, conflict.base_revision);
  }
  return fmt::format(
      "{} is at revision {} by now; this was made from revision {}. Nothing was stored. Compare both, then keep one.",
      what, conflict.current_revision, conflict.base_revision);
}

}  // namespace

Json saved_json(const store::Saved& saved) {
  Json tree;
  tree["revision"] = saved.revision;
  tree["changed"] = saved.changed;
  tree["checksum"] = saved.checksum;
  return tree;
}

Response json_text_answer(unsigned status, std::string text) {
  Response response;
  response.status = status;
  response.media_type = "application/json";
  response.body = std::move(text);
  response.fields.push_back({"Cache-Control", "no-store"});
  return response;
}

Response json_answer(unsigned status, const Json& tree) {
  return json_text_answer(status, formats::compact_text(tree));
}

Response refuse(unsigned status, std::string_view code, const std::string& message) {
  Json tree;
  tree["error"]["code"] = code;
  tree["error"]["message"] = message;
  return json_answer(status, tree);
}

Response refuse(const Error& error) {
  switch (error.code) {
    case ErrorCode::unsupported:
      return refuse(501, "unsupported", error.message);
    case ErrorCode::invalid:
      return refuse(400, "invalid", error.message);
    case ErrorCode::not_found:
      return refuse(404, "not_found", error.message);
    case ErrorCode::conflict:
      return refuse(409, "conflict", error.message);
    case ErrorCode::no_room:
      return refuse(507, "unavailable", error.message);
    case ErrorCode::unavailable:
      break;
  }
  return refuse(503, "unavailable", error.message);
}

Response refuse_body(const std::string& message, const Problems& problems) {
  Json tree;
  tree["error"]["code"] = "invalid";
  tree["error"]["message"] = message;
  if (!problems.empty()) tree["error"]["problems"] = formats::problems_json(problems);
  return json_answer(400, tree);
}

Response refuse_conflict(const store::Conflict& conflict, const std::string& what) {
  Json tree;
  Json& error = tree["error"];
  error["code"] = "conflict";
  error["message"] = words_of(conflict, what);
  error["base_revision"] = conflict.base_revision;
  error["current_revision"] = conflict.current_revision;
  error["current_changed"] = conflict.current_changed;
  error["current_save_id"] = conflict.current_save_id;
  error["current_checksum"] = conflict.current_checksum;
  return json_answer(409, tree);
}

}  // namespace duskwire::server
