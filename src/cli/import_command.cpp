// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "cli/workspace_file.hpp"
#include "formats/json_text.hpp"
#include "pictures/codec.hpp"
#include "server/body.hpp"
#include "server/export_file.hpp"
#include "server/picture_codec.hpp"
#include "server/routes.hpp"
#include "server/secrets.hpp"

namespace duskwire::cli {
namespace {

constexpr std::size_t most_archive_bytes = 512u << 20u;

Outcome complain(std::string text) { return {exit_bad_input, "", std::move(text) + "\n"}; }

// Under the hash that the document gives it, and what it is.
struct CheckedPicture {
  store::Picture picture;
  const char* ending = "";
};

// Decoded whole, so that what is no picture by its bytes never reaches a store or a folder under the name of one.
Result<CheckedPicture> checked(const server::ExportPicture& given) {
  const auto read = pictures::decode(given.bytes);
  if (!read) {
    return Error{read.error().code, fmt::format("The picture {}...: {} Nothing was taken in.", given.hash.substr(0, 12),
                                                read.error().message)};
  }
  const char* endings[] = {"jpg", "png", "webp"};
  const pictures::Decoded& decoded = read.value();
  return CheckedPicture{{given.hash, pictures::media_type(decoded.kind), decoded.picture.width_px,
                         decoded.picture.height_px, given.bytes},
                        endings[static_cast<std::size_t>(decoded.kind)]};
}

bool has_camera_notes(std::string_view file) {
  return !pictures::exif_in_jpeg(file).empty() || !pictures::exif_in_png(file).empty() ||
         !pictures::exif_in_webp(file).empty();
}

void replace_all(std::string& text, const std::string& before, const std::string& after) {
  for (std::size_t at = text.find(before); at != std::string::npos; at = text.find(before, at + after.size())) {
    text.replace(at, before.size(), after);
  }
}

// A workspace keeps no camera's notes (place, moment, device): such a picture is made anew, and the document names it
// by its new content. True where that was so.
Result<bool> without_notes(CheckedPicture& checked, std::string& document) {
  if (!has_camera_notes(checked.picture.bytes)) return false;
  auto clean = server::clean_picture(checked.picture.bytes);
  if (!clean) return clean.error();
  const std::string before = checked.picture.hash;
  checked.picture.bytes = std::move(clean.value().bytes);
  checked.picture.hash = store::sha256_hex(checked.picture.bytes);
  replace_all(document, before, checked.picture.hash);
  return true;
}

Result<bool> put_into(store::Workspace& workspace, const std::string& id, const std::string& document,
                      const std::vector<CheckedPicture>& pictures) {
  const formats::ParsedText parsed = formats::parse_text(document);
  const formats::Json& tree = *parsed.tree;
  for (const CheckedPicture& picture : pictures) {
    const auto added = workspace.add_picture(picture.picture, picture.picture.hash);
    if (!added) return added.error();
  }
  store::Save save;
  save.id = id;
  save.save_id = server::random_secret();
  save.label = "Imported";
  save.document = document;
  save.facts = {server::text_at(tree, {"title"}), server::text_at(tree, {"client", "name"}),
                server::text_at(tree, {"site", "address"}), server::text_at(tree, {"stage"}),
                server::text_at(tree, {"created"})};
  const store::SaveOutcome outcome = workspace.save(save);
  if (const auto* error = std::get_if<Error>(&outcome)) return *error;
  if (std::holds_alternative<store::Conflict>(outcome)) {
    return Error{ErrorCode::conflict,
                 fmt::format("The workspace has a job \"{}\" already, and it stays. Import into another workspace, or "
                             "into a folder with --output.",
                             id)};
  }
  return true;
}

std::string lacks_of(const server::ImportedFile& imported) {
  std::string text;
  for (const std::string& hash : imported.missing) {
    text += fmt::format("The picture {}... is not in the file.\n", hash.substr(0, 12));
  }
  return text;
}

}  // namespace

Outcome import_command(const ImportRequest& request, const Common& common, const TextStyle& style) {
  if (request.workspace.empty() == common.output.empty()) {
    return complain("Name where the job goes: --output FOLDER, or --workspace FILE.");
  }
  Result<std::string> archive = read_file(request.archive, most_archive_bytes);
  if (!archive) return refuse(archive.error());
  Result<server::ImportedFile> read = server::import_file(archive.value());
  if (!read) return complain(fmt::format("{}: {}", request.archive, read.error().message));
  server::ImportedFile& imported = read.value();
  const Or<Session> opened =
      session_of("job.json of " + request.archive, imported.document, common, style, JobReading::lenient);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  Outcome outcome{exit_sound, "", session.remarks + lacks_of(imported)};
  const bool to_folder = request.workspace.empty();
  std::vector<CheckedPicture> pictures;
  for (const server::ExportPicture& given : imported.pictures) {
    Result<CheckedPicture> picture = checked(given);
    if (!picture) return refuse(picture.error());
    pictures.push_back(std::move(picture).value());
    if (to_folder) continue;
    const Result<bool> anew = without_notes(pictures.back(), imported.document);
    if (!anew) return refuse(anew.error());
    if (anew.value()) {
      outcome.complaint += fmt::format(
          "The picture {}... held notes of its camera; it was made anew without them and the document names it so.\n",
          given.hash.substr(0, 12));
    }
  }
  std::string place = common.output;
  if (to_folder) {
    outcome.files.push_back({common.output + "/job.json", imported.document});
    for (const CheckedPicture& picture : pictures) {
      outcome.files.push_back(
          {fmt::format("{}/{}.{}", common.output, picture.picture.hash, picture.ending), picture.picture.bytes});
    }
  } else {
    const std::string& id = session.job.id;
    if (!server::is_id(id)) {
      return complain(
          fmt::format("\"{}\" cannot name a job in a workspace: an id there is of A-Z a-z 0-9 . _ - and at "
                      "most 64 characters. Import into a folder and change /id.",
                      id));
    }
    auto workspace = open_workspace(request.workspace, true);
    if (!workspace) return refuse(workspace.error());
    const Result<bool> put = put_into(*workspace.value(), id, imported.document, pictures);
    if (!put) return complain(fmt::format("{}: {}", request.workspace, put.error().message));
    place = fmt::format("{}, job {}", request.workspace, id);
  }
  const std::string sum = store::sha256_hex(imported.document);
  if (common.json) {
    outcome.text = formats::indented_text(formats::Json{{"place", place},
                                                        {"job", session.job.id},
                                                        {"document_sha256", sum},
                                                        {"pictures", pictures.size()},
                                                        {"missing_pictures", imported.missing}}) +
                   "\n";
  } else {
    outcome.text = fmt::format("{}: \"{}\", pictures: {}, SHA-256 of the document: {}\n", place, session.job.title,
                               pictures.size(), sum);
  }
  return outcome;
}

}  // namespace duskwire::cli
