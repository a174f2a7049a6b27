// SPDX-License-Identifier: Apache-2.0
// Night pictures at full size: asked for with the document as it is on the page, made in the background.
#include <charconv>

#include "formats/job_reader.hpp"
#include "formats/night_json.hpp"
#include "server/answers.hpp"
#include "server/night_desk.hpp"
#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

using Standing = DeskStanding<MadeNight>;

constexpr const char* state_names[] = {"working", "done", "failed"};

std::optional<std::uint64_t> number_of(const std::string& id) {
  std::uint64_t number = 0;
  const auto [end, fault] = std::from_chars(id.data(), id.data() + id.size(), number);
  if (fault != std::errc{} || end != id.data() + id.size()) return std::nullopt;
  return number;
}

Response no_night() {
  return refuse(404, "not_found", "There is no such night picture: it was fetched long ago, ended, or never begun.");
}

Json standing_json(std::uint64_t number, const Standing& standing) {
  Json tree;
  tree["id"] = std::to_string(number);
  tree["state"] = state_names[static_cast<std::size_t>(standing.state)];
  tree["share"] = standing.share;
  tree["message"] = standing.message;
  tree["assumptions"] = standing.made ? standing.made->assumptions : std::vector<std::string>{};
  tree["remarks"] = standing.made ? standing.made->remarks : std::vector<std::string>{};
  return tree;
}

const job::View* find_view(const job::Job& job, const std::string& id) {
  for (const job::View& view : job.views) {
    if (view.id == id) return &view;
  }
  return nullptr;
}

}  // namespace

Response begin_night(const Call& call) {
  if (!call.body.is_object() || !call.body.contains("document") || !call.body.contains("wish")) {
    return refuse_body("A night picture is asked for with a document and a wish.", {});
  }
  formats::ReadJob read = formats::read_job_tree_leniently(call.body["document"]);
  if (!read.job) return refuse_body("The document cannot be used; nothing was begun.", read.problems);
  auto asked = formats::read_night_wish(formats::compact_text(call.body["wish"]));
  if (!asked.request)
    return refuse_body("What is asked of the night cannot be used; nothing was begun.", asked.problems);
  const job::View* view = find_view(*read.job, asked.request->view);
  if (view == nullptr) return refuse(404, "not_found", "The document has no view of that id.");
  auto picture = call.workspace.picture(view->image);
  if (!picture) return refuse(404, "not_found", "The view's photograph is not in the workspace: send it first.");
  NightOrder order{*std::move(read.job), *std::move(asked.request), std::move(picture.value().bytes)};
  const Result<std::uint64_t> begun = call.nights.begin(std::move(order));
  if (!begun) return refuse(409, "conflict", begun.error().message);
  return json_answer(201, standing_json(begun.value(), Standing{}));
}

Response night_standing(const Call& call) {
  const auto number = number_of(call.ids[0]);
  const auto standing = number ? call.nights.standing(*number) : std::nullopt;
  return standing ? json_answer(200, standing_json(*number, *standing)) : no_night();
}

Response send_night(const Call& call) {
  const auto number = number_of(call.ids[0]);
  const auto standing = number ? call.nights.standing(*number) : std::nullopt;
  if (!standing || !standing->made) return no_night();
  Response response;
  response.media_type = "image/png";
  response.body = standing->made->png;
  response.content_policy = "default-src 'none'; sandbox";
  response.fields.push_back({"Content-Disposition", "attachment; filename=\"night.png\""});
  response.fields.push_back({"Cache-Control", "no-store"});
  return response;
}

Response end_night(const Call& call) {
  const auto number = number_of(call.ids[0]);
  if (!number || !call.nights.end(*number)) return no_night();
  Json tree;
  tree["id"] = call.ids[0];
  return json_answer(200, tree);
}

}  // namespace duskwire::server
