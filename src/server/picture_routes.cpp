// SPDX-License-Identifier: Apache-2.0
// Pictures: taken in under limits and encoded anew, sent out as an attachment that can do nothing.
#include "server/answers.hpp"
#include "server/picture_codec.hpp"
#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

bool is_hash(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

Response picture_answer(unsigned status, const store::Picture& picture) {
  Json tree;
  tree["hash"] = picture.hash;
  tree["media_type"] = picture.media_type;
  tree["width_px"] = picture.width_px;
  tree["height_px"] = picture.height_px;
  tree["bytes"] = picture.bytes.size();
  return json_answer(status, tree);
}

}  // namespace

Response add_picture(const Call& call) {
  const std::string& posted_hash = call.ids[0];
  if (!is_hash(posted_hash))
    return refuse(404, "not_found", "A picture is named by its SHA-256, 64 lower-case hex digits.");
  if (store::sha256_hex(call.bytes) != posted_hash) {
    return refuse_body("The picture does not match its hash: it was cut short or changed. Send it again.", {});
  }
  if (const auto known = call.workspace.picture(posted_hash)) return picture_answer(200, known.value());
  auto clean = call.pictures.clean(call.bytes);
  if (!clean) {
    if (clean.error().code == ErrorCode::no_room) return refuse(413, "too_large", clean.error().message);
    return refuse(clean.error());
  }
  CleanPicture& made = clean.value();
  store::Picture picture;
  picture.hash = store::sha256_hex(made.bytes);
  picture.media_type = made.media_type;
  picture.width_px = made.width_px;
  picture.height_px = made.height_px;
  picture.bytes = std::move(made.bytes);
  const auto added = call.workspace.add_picture(picture, posted_hash);
  if (!added) return refuse(added.error());
  return picture_answer(added.value() ? 201 : 200, picture);
}

Response send_picture(const Call& call) {
  auto picture = call.workspace.picture(call.ids[0]);
  if (!picture) return refuse(picture.error());
  Response response;
  response.media_type = picture.value().media_type;
  response.body = std::move(picture.value().bytes);
  response.content_policy = "default-src 'none'; sandbox";
  response.fields.push_back({"Content-Disposition", "attachment"});
  response.fields.push_back({"Cache-Control", "private, max-age=31536000, immutable"});
  return response;
}

}  // namespace duskwire::server
