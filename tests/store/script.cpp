// SPDX-License-Identifier: Apache-2.0
#include "store/script.hpp"

#include <stdexcept>

#include "store/disk_vfs.hpp"
#include "store/temporary.hpp"

namespace duskwire::store::testing {
namespace {

std::string body(char letter, std::size_t size) { return "{\"n\":\"" + std::string(size, letter) + "\"}"; }

std::optional<Error> error_in(const SaveOutcome& outcome) {
  if (const auto* error = std::get_if<Error>(&outcome)) return *error;
  if (std::holds_alternative<Conflict>(outcome)) return Error{ErrorCode::conflict, "a conflict that should not be"};
  return std::nullopt;
}

template <class T>
std::optional<Error> error_in(const Result<T>& result) {
  if (result.ok()) return std::nullopt;
  return result.error();
}

Command save(const std::string& id, std::int64_t base, std::size_t size) {
  return {"save " + id, [=](Session& session) {
            return error_in(session.workspace->save(save_of(id, base, body(static_cast<char>('a' + base), size))));
          }};
}

Command stale_save(const std::string& id) {
  return {"stale save " + id, [=](Session& session) -> std::optional<Error> {
            Save stale = save_of(id, 1, body('z', 500));
            stale.save_id = "stale";
            const SaveOutcome outcome = session.workspace->save(stale);
            if (const auto* error = std::get_if<Error>(&outcome)) return *error;
            if (std::holds_alternative<Saved>(outcome)) return Error{ErrorCode::invalid, "a stale save was stored"};
            return std::nullopt;
          }};
}

Picture picture_of(char letter, std::size_t size) {
  Picture picture{"", "image/png", 2, 3, std::string(size, letter)};
  picture.hash = sha256_hex(picture.bytes);
  return picture;
}

Command picture(char letter, std::size_t size) {
  return {"picture", [=](Session& session) {
            return error_in(session.workspace->add_picture(picture_of(letter, size), sha256_hex({&letter, 1})));
          }};
}

Command archive(const std::string& id, bool archived) {
  return {"archive " + id, [=](Session& session) { return error_in(session.workspace->set_archived(id, archived)); }};
}

Command shop(std::int64_t base) {
  return {"shop catalogue", [=](Session& session) {
            return error_in(
                session.workspace->save_shop_catalogue({base, "shop-" + std::to_string(base), body('s', 3000)}));
          }};
}

Command read(const std::string& id) {
  return {"read " + id, [=](Session& session) -> std::optional<Error> {
            if (const auto found = error_in(session.workspace->jobs())) return found;
            return error_in(session.workspace->job(id));
          }};
}

Command reopen() {
  return {"close and open", [](Session& session) {
            session.workspace.reset();
            return open_session(session);
          }};
}

}  // namespace

std::optional<Error> open_session(Session& session) {
  if (session.workspace) return std::nullopt;
  auto opened = Workspace::open(session.path, {[] { return std::string("2026-03-01T10:00:00Z"); },
                                               [] { return std::string("0123456789abcdef"); }});
  if (!opened) return opened.error();
  session.workspace = std::move(opened).value();
  return std::nullopt;
}

const std::vector<Command>& script() {
  static const std::vector<Command> commands = {
      {"open", open_session},
      save("garden", 0, 900),
      save("garden", 1, 900),
      picture('p', 3000),
      save("garden", 2, 6000),
      stale_save("garden"),
      save("yard", 0, 900),
      archive("garden", true),
      read("yard"),
      shop(0),
      save("yard", 1, 60000),
      reopen(),
      save("yard", 2, 900),
      picture('q', 40000),
      shop(1),
      archive("garden", false),
      save("garden", 3, 900),
      save("garden", 4, 900),
      save("garden", 5, 30000),
      picture('p', 3000),
      read("garden"),
      save("lane", 0, 900),
      reopen(),
      save("lane", 1, 900),
      save("lane", 2, 12000),
      archive("yard", true),
      save("lane", 3, 900),
      stale_save("yard"),
      save("garden", 6, 25000),
      picture('r', 9000),
      save("yard", 3, 900),
  };
  return commands;
}

Result<std::string> content_of(Workspace& workspace) {
  std::string text;
  const auto jobs = workspace.jobs();
  if (!jobs) return jobs.error();
  for (const JobRow& row : jobs.value()) {
    text += "job " + row.id + (row.archived ? " archived " : " ") + row.facts.title + " " + row.changed + "\n";
    const auto revisions = workspace.revisions(row.id, std::nullopt, 1000);
    if (!revisions) return revisions.error();
    for (const RevisionRow& revision : revisions.value()) {
      const auto read = workspace.revision(row.id, revision.revision);
      if (!read) return read.error();
      text += "  " + std::to_string(revision.revision) + " " + revision.label + " " + read.value().document + "\n";
    }
  }
  for (const auto& [letter, size] : {std::pair('p', 3000), std::pair('q', 40000), std::pair('r', 9000)}) {
    const auto found = workspace.picture(picture_of(letter, static_cast<std::size_t>(size)).hash);
    if (!found && found.error().code != ErrorCode::not_found) return found.error();
    if (!found) continue;
    text += "picture " + found.value().bytes;
    // What was posted leads to the same picture: both were stored together or neither.
    text += workspace.picture(sha256_hex({&letter, 1})).ok() ? " as posted\n" : " LACKS ITS POSTED HASH\n";
  }
  const auto shop = workspace.shop_catalogue();
  if (!shop) return shop.error();
  text += "shop " + std::to_string(shop.value().revision) + " " + shop.value().document + "\n";
  const auto wrong = workspace.verify();
  if (!wrong) return wrong.error();
  for (const std::string& line : wrong.value()) text += "WRONG: " + line + "\n";
  return text;
}

const std::vector<std::string>& contents_of_script() {
  static const std::vector<std::string> contents = [] {
    const Folder folder;
    DiskVfs vfs;
    Session session{folder.file("w"), nullptr};
    std::vector<std::string> all;
    for (const Command& command : script()) {
      if (const auto error = command.run(session)) throw std::runtime_error(command.name + ": " + error->message);
      Result<std::string> content = content_of(*session.workspace);
      if (!content) throw std::runtime_error(content.error().message);
      if (all.empty()) all.push_back(content.value());
      all.push_back(std::move(content).value());
    }
    return all;
  }();
  return contents;
}

}  // namespace duskwire::store::testing
