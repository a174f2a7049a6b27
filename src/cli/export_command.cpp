// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <filesystem>
#include <thread>

#include "cli/commands.hpp"
#include "cli/interrupt.hpp"
#include "cli/issue_date.hpp"
#include "cli/night_photo.hpp"
#include "cli/output_file.hpp"
#include "cli/progress_line.hpp"
#include "cli/quantity.hpp"
#include "cli/session.hpp"
#include "cli/workspace_file.hpp"
#include "formats/json_text.hpp"
#include "server/export_file.hpp"
#include "server/picture_worker.hpp"

namespace duskwire::cli {
namespace {

// What is exported, wherever it was: the document as it is and its pictures.
struct Source {
  std::string name;
  std::string document;
  std::vector<server::ExportPicture> pictures;
  std::vector<std::string> missing;
};

Result<Source> from_workspace(const ExportRequest& request) {
  auto workspace = open_workspace(request.workspace, false);
  if (!workspace) return workspace.error();
  auto job = workspace.value()->job(request.id);
  if (!job) return Error{job.error().code, fmt::format("{}: {}", request.workspace, job.error().message)};
  Source source{request.id, std::move(job.value().document), {}, {}};
  for (const std::string& hash : server::picture_hashes(source.document)) {
    auto picture = workspace.value()->picture(hash);
    // Sent under another name and made anew: its bytes would not be those that the document names.
    if (picture && picture.value().hash == hash) {
      source.pictures.push_back({hash, std::move(picture.value().bytes)});
    } else if (!picture && picture.error().code != ErrorCode::not_found) {
      return picture.error();
    } else {
      source.missing.push_back(hash);
    }
  }
  return source;
}

Result<Source> from_file(const std::string& file) {
  Result<std::string> text = read_file(file);
  if (!text) return text.error();
  Source source{file, std::move(text).value(), {}, {}};
  source.missing = server::picture_hashes(source.document);
  for (PictureBeside& picture : pictures_beside(file, source.missing)) {
    std::erase(source.missing, picture.hash);
    source.pictures.push_back({std::move(picture.hash), std::move(picture.bytes)});
  }
  return source;
}

// The photographs whose nights the proposal shows: those that are exported too.
void add_photographs(const Source& source, server::PapersOrder& order) {
  order.threads = std::max(1u, std::thread::hardware_concurrency());
  order.open = server::PictureWorker().tools().open;
  for (const job::View* view : server::views_shown(order)) {
    for (const server::ExportPicture& picture : source.pictures) {
      if (picture.hash == view->image) order.photographs.push_back({view->id, picture.bytes});
    }
  }
}

std::string lacks_of(const Source& source, const server::ExportedFile& exported) {
  std::string text;
  for (const std::string& hash : source.missing) {
    text +=
        fmt::format("The picture {}... is not in the archive: it was not found with the job.\n", hash.substr(0, 12));
  }
  for (const std::string& remark : exported.remarks) text += remark + "\n";
  return text;
}

}  // namespace

Outcome export_command(const ExportRequest& request, const Common& common, const TextStyle& style) {
  const auto complain = [](std::string text) { return Outcome{exit_bad_input, "", std::move(text) + "\n"}; };
  if (request.job.empty() && request.workspace.empty()) {
    return complain("Name what to export: a job file, or --workspace FILE with --id ID.");
  }
  if (common.output.empty()) return complain("Name the archive to write: --output FILE.zip.");
  if (!request.date.empty() && !is_date(request.date)) {
    return complain(fmt::format("--date: \"{}\" was met where a date such as 2026-11-26 was expected.", request.date));
  }
  if (const auto free = may_write(common.output, common.force); !free) return refuse(free.error());
  Result<Source> source = request.job.empty() ? from_workspace(request) : from_file(request.job);
  if (!source) return refuse(source.error());
  const Or<Session> opened =
      session_of(source.value().name, source.value().document, common, style, JobReading::lenient);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  Or<study::Ruleset> rules = load_ruleset(ruleset_name(session, common), style);
  if (const auto* refused = std::get_if<Outcome>(&rules)) return *refused;

  server::PapersOrder order{session.job, session.stock, std::get<study::Ruleset>(std::move(rules)), {}, {}};
  order.wish.units = session.job.site.units;
  order.wish.size = paper::usual_size(order.wish.units);
  order.wish.shop = request.shop;
  order.wish.made_by = request.made_by;
  order.wish.date = request.date.empty() ? today() : request.date;
  if (!request.without_papers) add_photographs(source.value(), order);
  const Interrupt interrupt;
  Result<server::ExportedFile> made = Error{};
  {
    ProgressLine line;
    made = server::export_file(source.value().document, source.value().pictures, order, !request.without_papers,
                               [&](double share) {
                                 if (line.is_seen()) line.show(fmt::format("{} of the papers", percent(share)));
                                 return !Interrupt::met();
                               });
  }
  if (!made) {
    if (Interrupt::met()) return {exit_findings, "", "Stopped. Nothing was written.\n"};
    return refuse(made.error());
  }
  Outcome outcome{exit_sound, "", session.remarks + lacks_of(source.value(), made.value())};
  const std::size_t bytes = made.value().bytes.size();
  outcome.files.push_back({common.output, std::move(made.value().bytes)});
  if (common.json) {
    outcome.text = formats::indented_text(formats::Json{{"path", common.output},
                                                        {"bytes", bytes},
                                                        {"pictures", source.value().pictures.size()},
                                                        {"missing_pictures", source.value().missing}}) +
                   "\n";
  } else {
    outcome.text = fmt::format("{}  {} kB, pictures: {}. Its README.txt says what is in it.\n", common.output,
                               (bytes + 999) / 1000, source.value().pictures.size());
  }
  return outcome;
}

}  // namespace duskwire::cli
