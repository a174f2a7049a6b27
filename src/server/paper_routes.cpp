// SPDX-License-Identifier: Apache-2.0
// Papers: asked for with the document as it is on the page, made in the background, fetched file by file, page by page
// or as one archive.
#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <mutex>
#include <thread>

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/job_reader.hpp"
#include "formats/ruleset_file.hpp"
#include "paper/render.hpp"
#include "server/answers.hpp"
#include "server/paper_desk.hpp"
#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

using Standing = DeskStanding<PaperSet>;

constexpr const char* state_names[] = {"working", "done", "failed"};
constexpr std::size_t longest_text = 200;
constexpr double preview_dots_per_inch = 110;

std::optional<std::uint64_t> number_of(const std::string& id) {
  std::uint64_t number = 0;
  const auto [end, fault] = std::from_chars(id.data(), id.data() + id.size(), number);
  if (fault != std::errc{} || end != id.data() + id.size()) return std::nullopt;
  return number;
}

Response no_papers() {
  return refuse(404, "not_found", "There are no such papers: they were made long ago, ended, or never begun.");
}

Json standing_json(const std::string& id, const Standing& standing) {
  Json tree;
  tree["id"] = id;
  tree["state"] = state_names[static_cast<std::size_t>(standing.state)];
  tree["share"] = standing.share;
  tree["message"] = standing.message;
  tree["files"] = Json::array();
  if (!standing.made) return tree;
  for (const MadeFile& file : standing.made->files) {
    tree["files"].push_back({{"name", file.name},
                             {"title", file.title},
                             {"kind", file.kind},
                             {"media_type", file.media_type},
                             {"bytes", file.bytes.size()},
                             {"pages", file.pages ? file.pages->pages.size() : 0},
                             {"remarks", file.remarks},
                             {"job_errors", file.job_errors}});
  }
  return tree;
}

std::string today() {
  const auto day = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  const std::chrono::year_month_day date(day);
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                static_cast<unsigned>(date.day()));
  return text;
}

// Empty where all is well, else what is wrong.
std::string read_wish(const Json& wish, const job::Job& job, PapersOrder& order) {
  order.wish.units = job.site.units;
  if (!wish.is_object()) return "/wish must be an object.";
  const auto text = [&](const char* key) -> std::string {
    return wish.contains(key) && wish[key].is_string() ? wish[key].get<std::string>() : "";
  };
  for (const auto& [key, value] : wish.items()) {
    if (key == "only") continue;
    if (!value.is_string() || value.get_ref<const std::string&>().size() > longest_text) {
      return "/wish/" + key + " must be a text of at most 200 bytes.";
    }
  }
  const std::string units = text("units");
  if (units == "us" || units == "metric") {
    order.wish.units = units == "us" ? job::DisplayUnits::us : job::DisplayUnits::metric;
  } else if (!units.empty()) {
    return "/wish/units must be metric or us.";
  }
  const std::string size = text("size");
  if (!size.empty() && size != "a4" && size != "letter") return "/wish/size must be a4 or letter.";
  order.wish.size = size.empty() ? paper::usual_size(order.wish.units)
                                 : (size == "letter" ? paper::PageSize::letter : paper::PageSize::a4);
  order.wish.shop = text("shop");
  order.wish.made_by = text("made_by");
  order.wish.revision = text("revision");
  order.wish.date = text("date").empty() ? today() : text("date");
  if (!wish.contains("only")) return "";
  if (!wish["only"].is_array() || wish["only"].size() > paper_names().size())
    return "/wish/only must be a list of papers.";
  for (const Json& name : wish["only"]) {
    if (!name.is_string()) return "/wish/only must be a list of papers.";
    order.only.push_back(name.get<std::string>());
  }
  return "";
}

// Those that the workspace has. Which are missing is said where the nights are made.
void add_photographs(store::Workspace& workspace, PapersOrder& order) {
  order.threads = std::max(1u, std::thread::hardware_concurrency());
  for (const job::View* view : views_shown(order)) {
    auto picture = workspace.picture(view->image);
    if (picture) order.photographs.push_back({view->id, std::move(picture.value().bytes)});
  }
}

struct Asked {
  Standing standing;
  const MadeFile* file = nullptr;
};

// The file that a call names, if it is done.
std::optional<Asked> asked_file(const Call& call) {
  const auto number = number_of(call.ids[0]);
  auto standing = number ? call.papers.standing(*number) : std::nullopt;
  if (!standing || !standing->made) return std::nullopt;
  Asked asked{*standing, nullptr};
  for (const MadeFile& file : asked.standing.made->files) {
    if (file.name == call.ids[1]) asked.file = &file;
  }
  return asked.file == nullptr ? std::nullopt : std::optional(asked);
}

Response sent(std::string bytes, const std::string& media_type, const std::string& name) {
  Response response;
  response.media_type = media_type;
  response.body = std::move(bytes);
  response.content_policy = "default-src 'none'; sandbox";
  if (!name.empty()) response.fields.push_back({"Content-Disposition", "attachment; filename=\"" + name + "\""});
  response.fields.push_back({"Cache-Control", "no-store"});
  return response;
}

}  // namespace

Response begin_papers(const Call& call) {
  if (!call.body.is_object() || !call.body.contains("document")) {
    return refuse_body("Papers are asked for with a document and a wish.", {});
  }
  formats::ReadJob read = formats::read_job_tree_leniently(call.body["document"]);
  if (!read.job) return refuse_body("The document cannot be used; nothing was begun.", read.problems);
  PapersOrder order;
  const std::string wrong =
      read_wish(call.body.contains("wish") ? call.body["wish"] : Json::object(), *read.job, order);
  if (!wrong.empty()) return refuse_body(wrong, {});
  auto stock = formats::read_catalogue(formats::embedded_stock_catalogue());
  auto rules = formats::read_ruleset(formats::embedded_ruleset(read.job->site.ruleset));
  if (!rules.ruleset) rules = formats::read_ruleset(formats::embedded_ruleset("us"));
  if (!stock.catalogue || !rules.ruleset) return refuse(500, "fault", "The program's own data cannot be read.");
  order.job = *std::move(read.job);
  order.stock = *std::move(stock.catalogue);
  order.ruleset = *std::move(rules.ruleset);
  for (const std::string& name : order.only) {
    const auto& names = paper_names();
    if (std::find(names.begin(), names.end(), name) == names.end()) {
      return refuse_body("/wish/only names no paper of ours: \"" + name + "\".", {});
    }
  }
  order.open = call.pictures.open;
  add_photographs(call.workspace, order);
  const Result<std::uint64_t> begun = call.papers.begin(std::move(order));
  if (!begun) return refuse(409, "conflict", begun.error().message);
  return json_answer(201, standing_json(std::to_string(begun.value()), Standing{}));
}

Response papers_standing(const Call& call) {
  const auto number = number_of(call.ids[0]);
  const auto standing = number ? call.papers.standing(*number) : std::nullopt;
  return standing ? json_answer(200, standing_json(call.ids[0], *standing)) : no_papers();
}

Response send_paper(const Call& call) {
  const auto asked = asked_file(call);
  if (!asked) return no_papers();
  return sent(asked->file->bytes, asked->file->media_type, asked->file->name);
}

Response send_paper_page(const Call& call) {
  const auto asked = asked_file(call);
  const auto page = number_of(call.ids[2]);
  if (!asked || !asked->file->pages || !page || *page == 0) return no_papers();
  // Pages share set text, which the library lets one thread use at a time.
  static std::mutex one_at_a_time;
  const std::lock_guard<std::mutex> lock(one_at_a_time);
  Result<std::string> png =
      paper::png_of(*asked->file->pages, static_cast<std::size_t>(*page - 1), preview_dots_per_inch);
  if (!png) return refuse(png.error());
  return sent(std::move(png).value(), "image/png", "");
}

Response send_papers_zip(const Call& call) {
  const auto number = number_of(call.ids[0]);
  const auto standing = number ? call.papers.standing(*number) : std::nullopt;
  if (!standing || !standing->made) return no_papers();
  Result<std::string> zip = zip_of(standing->made->files, standing->made->date);
  if (!zip) return refuse(zip.error());
  return sent(std::move(zip).value(), "application/zip", "papers.zip");
}

Response end_papers(const Call& call) {
  const auto number = number_of(call.ids[0]);
  if (!number || !call.papers.end(*number)) return no_papers();
  Json tree;
  tree["id"] = call.ids[0];
  return json_answer(200, tree);
}

}  // namespace duskwire::server
