// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "cli/workspace_file.hpp"
#include "formats/json_text.hpp"
#include "server/export_file.hpp"
#include "server/picture_worker.hpp"
#include "server/routes.hpp"
#include "server/take_in.hpp"

namespace duskwire::cli {
namespace {

constexpr std::size_t most_archive_bytes = 512u << 20u;

Outcome complain(std::string text) { return {exit_bad_input, "", std::move(text) + "\n"}; }

Result<bool> put_into(store::Workspace& workspace, const std::string& id, const std::string& document,
                      const std::vector<server::CheckedPicture>& pictures) {
  const store::SaveOutcome outcome = server::put_job(workspace, document, pictures, "Imported");
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
  const server::PictureTools tools = server::PictureWorker().tools();
  std::vector<server::CheckedPicture> pictures;
  for (const server::ExportPicture& given : imported.pictures) {
    Result<server::CheckedPicture> picture = server::checked_picture(given, tools);
    if (!picture) return refuse(picture.error());
    pictures.push_back(std::move(picture).value());
    if (to_folder) continue;
    const Result<bool> anew = server::without_notes(pictures.back(), imported.document, tools);
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
    for (const server::CheckedPicture& picture : pictures) {
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
