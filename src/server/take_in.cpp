// SPDX-License-Identifier: Apache-2.0
#include "server/take_in.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "formats/json_text.hpp"
#include "pictures/codec.hpp"
#include "server/body.hpp"
#include "server/secrets.hpp"

namespace duskwire::server {
namespace {

bool has_camera_notes(std::string_view file) {
  return !pictures::exif_in_jpeg(file).empty() || !pictures::exif_in_png(file).empty() ||
         !pictures::exif_in_webp(file).empty();
}

void replace_all(std::string& text, const std::string& before, const std::string& after) {
  for (std::size_t at = text.find(before); at != std::string::npos; at = text.find(before, at + after.size())) {
    text.replace(at, before.size(), after);
  }
}

}  // namespace

Result<CheckedPicture> checked_picture(const ExportPicture& given, const PictureTools& tools) {
  // Only whether it opens, and how large it is, is asked for.
  const auto read = tools.open(given.bytes, 1);
  if (!read) {
    return Error{read.error().code, fmt::format("The picture {}...: {} Nothing was taken in.", given.hash.substr(0, 12),
                                                read.error().message)};
  }
  const OpenedPicture& opened = read.value();
  const std::string kind = opened.media_type.substr(opened.media_type.find('/') + 1);
  return CheckedPicture{{given.hash, opened.media_type, opened.width_px, opened.height_px, given.bytes},
                        kind == "jpeg" ? "jpg" : kind};
}

Result<bool> without_notes(CheckedPicture& checked, std::string& document, const PictureTools& tools) {
  if (!has_camera_notes(checked.picture.bytes)) return false;
  auto clean = tools.clean(checked.picture.bytes);
  if (!clean) return clean.error();
  const std::string before = checked.picture.hash;
  checked.picture.bytes = std::move(clean.value().bytes);
  checked.picture.hash = store::sha256_hex(checked.picture.bytes);
  replace_all(document, before, checked.picture.hash);
  return true;
}

store::SaveOutcome put_job(store::Workspace& workspace, const std::string& document,
                           const std::vector<CheckedPicture>& pictures, const std::string& label) {
  const formats::ParsedText parsed = formats::parse_text(document);
  if (!parsed.tree) return Error{ErrorCode::invalid, "The job is no JSON that can be read."};
  const formats::Json& tree = *parsed.tree;
  for (const CheckedPicture& picture : pictures) {
    const auto added = workspace.add_picture(picture.picture, picture.picture.hash);
    if (!added) return added.error();
  }
  store::Save save;
  save.id = text_at(tree, {"id"});
  save.save_id = random_secret();
  save.label = label;
  save.document = document;
  save.facts = {text_at(tree, {"title"}), text_at(tree, {"client", "name"}), text_at(tree, {"site", "address"}),
                text_at(tree, {"stage"}), text_at(tree, {"created"})};
  return workspace.save(save);
}

}  // namespace duskwire::server
