// SPDX-License-Identifier: Apache-2.0
// Jobs: list, open, save, make, duplicate, archive, and their revisions.
#include <fmt/format.h>

#include <charconv>

#include "server/answers.hpp"
#include "server/body.hpp"
#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

constexpr std::size_t label_limit_bytes = 800;  // 200 characters of UTF-8
constexpr std::size_t summary_limit_bytes = 4096;
constexpr int revisions_per_answer = 200;

store::JobFacts facts_of(const Json& document) {
  return {text_at(document, {"title"}), text_at(document, {"client", "name"}), text_at(document, {"site", "address"}),
          text_at(document, {"stage"}), text_at(document, {"created"})};
}

std::optional<std::int64_t> whole_number(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
}

// The head of an opened job, with the stored text as it is: a large document is not read and written anew.
std::string opened_text(const store::JobDocument& job, bool with_archived) {
  Json head;
  head["id"] = job.id;
  head["revision"] = job.revision;
  head["changed"] = job.changed;
  head["checksum"] = job.checksum;
  if (with_archived) head["archived"] = job.archived;
  std::string text = formats::compact_text(head);
  text.back() = ',';
  return text + "\"document\":" + job.document + "}";
}

Response saved_answer(const std::string& id, const store::SaveOutcome& outcome, unsigned status) {
  if (const auto* error = std::get_if<Error>(&outcome)) return refuse(*error);
  if (const auto* conflict = std::get_if<store::Conflict>(&outcome)) {
    return refuse_conflict(*conflict, fmt::format("The job \"{}\"", id));
  }
  Json tree = saved_json(std::get<store::Saved>(outcome));
  tree["id"] = id;
  return json_answer(status, tree);
}

// What PUT and POST have in common; `id` empty: as the document says.
store::Save save_from(const Call& call, Body& body, std::string id) {
  store::Save save;
  save.save_id = body.id("save_id");
  save.label = body.text("label", label_limit_bytes);
  save.summary = body.object_text("summary", summary_limit_bytes);
  save.document = body.document("duskwire-job", id);
  if (body.problems().empty()) save.facts = facts_of(call.body["document"]);
  save.id = std::move(id);
  return save;
}

}  // namespace

Response list_jobs(const Call& call) {
  const auto rows = call.workspace.jobs();
  if (!rows) return refuse(rows.error());
  Json list = Json::array();
  for (const store::JobRow& row : rows.value()) {
    Json line;
    line["id"] = row.id;
    line["revision"] = row.revision;
    line["changed"] = row.changed;
    line["archived"] = row.archived;
    line["title"] = row.facts.title;
    line["client"] = row.facts.client;
    line["place"] = row.facts.place;
    line["stage"] = row.facts.stage;
    line["created"] = row.facts.created;
    line["summary"] = row.summary.empty() ? Json() : Json::parse(row.summary, nullptr, false);
    list.push_back(std::move(line));
  }
  Json tree;
  tree["jobs"] = std::move(list);
  return json_answer(200, tree);
}

Response open_job(const Call& call) {
  const auto job = call.workspace.job(call.ids[0]);
  if (!job) return refuse(job.error());
  const std::string tag = fmt::format("\"{}-{}\"", job.value().revision, job.value().checksum);
  const std::string* known = call.head.field("if-none-match");
  Response response;
  if (known != nullptr && *known == tag) {
    response.status = 304;
    response.fields.push_back({"Cache-Control", "no-store"});
  } else {
    response = json_text_answer(200, opened_text(job.value(), true));
  }
  response.fields.push_back({"ETag", tag});
  return response;
}

Response save_job(const Call& call) {
  Body body(call.body);
  const std::int64_t base_revision = body.whole_number("base_revision");
  std::string base_checksum = body.text("base_checksum", checksum_digits);
  store::Save save = save_from(call, body, call.ids[0]);
  if (!body.problems().empty()) return refuse_body("The save cannot be read; nothing was stored.", body.problems());
  if (base_revision == 0) {
    return refuse_body("A job is made by POST /api/jobs; a save needs the revision that it is based on.", {});
  }
  save.base_revision = base_revision;
  save.base_checksum = std::move(base_checksum);
  return saved_answer(save.id, call.workspace.save(save), 200);
}

Response make_job(const Call& call) {
  Body body(call.body);
  const std::string id =
      call.body.is_object() && call.body.contains("document") ? text_at(call.body["document"], {"id"}) : "";
  if (!is_id(id)) {
    Problem problem{Severity::error, "/document/id", id.substr(0, 60), "1 to 64 characters out of A-Z a-z 0-9 . _ -",
                    "The document's id cannot name a job here: use 1 to 64 characters out of A-Z a-z 0-9 . _ -"};
    return refuse_body("The job cannot be read; nothing was stored.", {problem});
  }
  const store::Save save = save_from(call, body, id);
  if (!body.problems().empty()) return refuse_body("The job cannot be read; nothing was stored.", body.problems());
  return saved_answer(id, call.workspace.save(save), 201);
}

Response duplicate_job(const Call& call) {
  Body body(call.body);
  store::Save save;
  save.save_id = body.id("save_id");
  save.id = body.id("id");
  const std::string title = body.required_text("title", 1000);
  if (!body.problems().empty()) return refuse_body("The copy cannot be made.", body.problems());
  const auto source = call.workspace.job(call.ids[0]);
  if (!source) return refuse(source.error());
  Json document = Json::parse(source.value().document, nullptr, false);
  document["id"] = save.id;
  document["title"] = title;
  save.facts = facts_of(document);
  save.label = fmt::format("Copy of {}, revision {}", call.ids[0], source.value().revision);
  save.document = formats::compact_text(document);
  return saved_answer(save.id, call.workspace.save(save), 201);
}

Response archive_job(const Call& call) {
  Body body(call.body);
  const bool archived = body.boolean("archived");
  if (!body.problems().empty()) return refuse_body("The request cannot be read.", body.problems());
  const auto done = call.workspace.set_archived(call.ids[0], archived);
  if (!done) return refuse(done.error());
  Json tree;
  tree["id"] = call.ids[0];
  tree["archived"] = archived;
  return json_answer(200, tree);
}

Response list_revisions(const Call& call) {
  std::optional<std::int64_t> before;
  std::string_view query = call.head.query();
  if (!query.empty()) {
    constexpr std::string_view key = "before=";
    if (query.substr(0, key.size()) == key) before = whole_number(query.substr(key.size()));
    if (!before) return refuse_body("The address takes ?before=REVISION, a whole number.", {});
  }
  const auto rows = call.workspace.revisions(call.ids[0], before, revisions_per_answer);
  if (!rows) return refuse(rows.error());
  Json list = Json::array();
  for (const store::RevisionRow& row : rows.value()) {
    Json line;
    line["revision"] = row.revision;
    line["changed"] = row.changed;
    line["label"] = row.label;
    line["bytes"] = row.bytes;
    list.push_back(std::move(line));
  }
  Json tree;
  tree["revisions"] = std::move(list);
  return json_answer(200, tree);
}

Response open_revision(const Call& call) {
  const auto number = whole_number(call.ids[1]);
  if (!number)
    return refuse(404, "not_found",
                  fmt::format("There is no revision \"{}\": a revision is a whole number.", call.ids[1]));
  const auto job = call.workspace.revision(call.ids[0], *number);
  if (!job) return refuse(job.error());
  return json_text_answer(200, opened_text(job.value(), false));
}

}  // namespace duskwire::server
