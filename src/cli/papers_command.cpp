// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <sstream>
#include <thread>

#include "cli/commands.hpp"
#include "cli/interrupt.hpp"
#include "cli/issue_date.hpp"
#include "cli/night_photo.hpp"
#include "cli/output_file.hpp"
#include "cli/progress_line.hpp"
#include "cli/quantity.hpp"
#include "cli/session.hpp"
#include "formats/json_text.hpp"
#include "server/papers.hpp"
#include "server/picture_worker.hpp"

namespace duskwire::cli {
namespace {

Outcome complain(std::string text) { return {exit_bad_input, "", std::move(text) + "\n"}; }

std::vector<std::string> parts_of(const std::string& list) {
  std::vector<std::string> parts;
  std::istringstream stream(list);
  for (std::string part; std::getline(stream, part, ',');) {
    if (!part.empty()) parts.push_back(part);
  }
  return parts;
}

std::string kilobytes(std::size_t bytes) { return fmt::format("{} kB", (bytes + 999) / 1000); }

std::string page_of(const std::vector<server::MadeFile>& files, const std::vector<WrittenFile>& written) {
  std::string text;
  for (std::size_t i = 0; i < written.size(); ++i) {
    const bool paper = i < files.size() && files[i].pages != nullptr;
    text += fmt::format("{}  {}{}\n", written[i].path, kilobytes(written[i].bytes.size()),
                        paper ? fmt::format(", {} pages", files[i].pages->pages.size()) : "");
  }
  text += "Calculated values in these papers are estimates and say so. Terms are a template, not legal advice.\n";
  return text;
}

// Of the views that the proposal shows, where they can be read; it says which could not.
void add_photographs(const std::string& job_file, server::PapersOrder& order) {
  order.threads = std::max(1u, std::thread::hardware_concurrency());
  order.open = server::PictureWorker().tools().open;
  for (const job::View* view : server::views_shown(order)) {
    Result<std::string> bytes = read_photo(*view, job_file, "");
    if (bytes) order.photographs.push_back({view->id, std::move(bytes).value()});
  }
}

// What the papers lack. Characters that no font here has print as boxes: better told than found by the client.
std::string lacks_of(const std::vector<server::MadeFile>& files) {
  std::string text;
  // The same on all papers: told once.
  for (const server::MadeFile& file : files) {
    if (file.job_errors.empty()) continue;
    text += fmt::format("{} The papers carry a caution; duskwire check tells more.\n", file.job_errors);
    break;
  }
  for (const server::MadeFile& file : files) {
    for (const std::string& remark : file.remarks) text += fmt::format("{}: {}\n", file.name, remark);
    if (!file.pages || file.pages->unknown_glyphs == 0) continue;
    text += fmt::format(
        "{}: {} characters are in none of the fonts here and print as boxes. Install the fonts that "
        "docs/guide.md names.\n",
        file.name, file.pages->unknown_glyphs);
  }
  return text;
}

std::string json_of(const std::vector<server::MadeFile>& files, const std::vector<WrittenFile>& written) {
  formats::Json out;
  out["files"] = formats::Json::array();
  for (std::size_t i = 0; i < written.size(); ++i) {
    formats::Json entry{{"path", written[i].path}, {"bytes", written[i].bytes.size()}};
    if (i < files.size()) {
      entry["title"] = files[i].title;
      entry["kind"] = files[i].kind;
      entry["pages"] = files[i].pages ? files[i].pages->pages.size() : 0;
      entry["remarks"] = files[i].remarks;
      entry["job_errors"] = files[i].job_errors;
    }
    out["files"].push_back(std::move(entry));
  }
  return formats::indented_text(out) + "\n";
}

}  // namespace

Outcome papers_command(const PapersRequest& request, const Common& common, const TextStyle& style) {
  if (common.output.empty() && request.zip.empty()) {
    return complain("Name where the papers go: --output FOLDER, or --zip FILE for one archive.");
  }
  if (!request.date.empty() && !is_date(request.date)) {
    return complain(fmt::format("--date: \"{}\" was met where a date such as 2026-11-26 was expected.", request.date));
  }
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  Or<study::Ruleset> rules = load_ruleset(ruleset_name(session, common), style);
  if (const auto* refused = std::get_if<Outcome>(&rules)) return *refused;

  server::PapersOrder order{session.job, session.stock, std::get<study::Ruleset>(std::move(rules)), {}, {}};
  order.wish.units = session.job.site.units;
  order.wish.size = request.size.empty() ? paper::usual_size(order.wish.units)
                                         : (request.size == "letter" ? paper::PageSize::letter : paper::PageSize::a4);
  order.wish.shop = request.shop;
  order.wish.made_by = request.made_by;
  order.wish.revision = request.revision;
  order.wish.date = request.date.empty() ? today() : request.date;
  order.only = parts_of(request.only);
  add_photographs(request.job, order);

  const Interrupt interrupt;
  Result<std::vector<server::MadeFile>> made = Error{};
  {
    ProgressLine line;
    made = server::make_papers(order, [&](double share) {
      if (line.is_seen()) line.show(fmt::format("{} of the papers", percent(share)));
      return !Interrupt::met();
    });
  }
  if (!made) {
    if (Interrupt::met()) return {exit_findings, "", "Stopped. Nothing was written.\n"};
    return refuse(made.error());
  }
  const std::vector<server::MadeFile>& files = made.value();
  Outcome outcome{exit_sound, "", session.remarks + lacks_of(files)};
  if (!common.output.empty()) {
    for (const server::MadeFile& file : files) outcome.files.push_back({common.output + "/" + file.name, file.bytes});
  }
  std::vector<server::MadeFile> told = common.output.empty() ? std::vector<server::MadeFile>{} : files;
  if (!request.zip.empty()) {
    Result<std::string> zip = server::zip_of(files, order.wish.date);
    if (!zip) return refuse(zip.error());
    outcome.files.push_back({request.zip, std::move(zip).value()});
  }
  outcome.text = common.json ? json_of(told, outcome.files) : page_of(told, outcome.files);
  return outcome;
}

}  // namespace duskwire::cli
