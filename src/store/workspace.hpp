// SPDX-License-Identifier: Apache-2.0
// The workspace file: jobs with all their revisions, pictures by content hash, the shop's catalogue. A save appends a
// revision; nothing is overwritten or deleted. An answer is given only once its data is safely on disk.
//
// Documents are opaque text here: what the list shows of them comes along as facts. One Workspace holds the file alone
// (a second program is refused); its calls may come from any thread and are taken one at a time.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.hpp"

namespace duskwire::store {

// The outside world, so that tests can stand in for it.
struct Environment {
  std::function<std::string()> now_utc;    // ISO 8601 with Z
  std::function<std::string()> random_id;  // 16 or more characters out of A-Z a-z 0-9 . _ -
};

// What the list of jobs shows, read out of the document by the caller.
struct JobFacts {
  std::string title;
  std::string client;
  std::string place;
  std::string stage;
  std::string created;
};

struct JobRow {
  std::string id;
  std::int64_t revision = 0;
  std::string changed;
  bool archived = false;
  JobFacts facts;
  std::string summary;  // JSON text as it came with the last save; empty: none
};

struct JobDocument {
  std::string id;
  std::int64_t revision = 0;
  std::string changed;
  bool archived = false;
  std::string document;
  std::string checksum;  // of this very revision: see Save::base_checksum
};

struct RevisionRow {
  std::int64_t revision = 0;
  std::string changed;
  std::string label;
  std::int64_t bytes = 0;
};

struct Save {
  std::string id;
  std::int64_t base_revision = 0;  // 0: the job must not exist yet
  // Of the base revision. Numbers are given again once a backup was put back; this tells the same number apart. Empty:
  // the number alone has to do.
  std::string base_checksum = "";
  std::string save_id;  // repeating a save whose answer got lost gives the first answer
  std::string label;
  std::string document;
  JobFacts facts;
  std::string summary;
};

struct Saved {
  std::int64_t revision = 0;
  std::string changed;
  std::string checksum;
};

// The save was based on another revision than the present one, or on another one of the same number; nothing was
// stored.
struct Conflict {
  std::int64_t base_revision = 0;
  std::int64_t current_revision = 0;
  std::string current_changed;
  std::string current_save_id;
  std::string current_checksum;
};

using SaveOutcome = std::variant<Saved, Conflict, Error>;

struct Picture {
  std::string hash;  // SHA-256 of `bytes`, 64 lower-case hex digits
  std::string media_type;
  std::int64_t width_px = 0;
  std::int64_t height_px = 0;
  std::string bytes;
};

struct ShopCatalogue {
  std::int64_t revision = 0;  // 0: never saved
  std::string changed;
  std::string document;
  std::string checksum;
};

struct ShopCatalogueSave {
  std::int64_t base_revision = 0;
  std::string save_id;
  std::string document;
  std::string base_checksum = "";  // as of a job's Save
};

struct Contents {
  std::int64_t jobs = 0;
  std::int64_t revisions = 0;
  std::int64_t pictures = 0;
  std::string fingerprint;  // two workspaces with the same one hold the same
};

// SHA-256 as 64 lower-case hex digits.
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

class Workspace {
 public:
  // Opens or makes the file. Errors: unavailable (cannot be opened, in use by another program), no_room (disk full),
  // unsupported (made by a later version), invalid (not a workspace, or damaged: the message names what is wrong; the
  // file is left as it is).
  static Result<std::unique_ptr<Workspace>> open(const std::string& path, Environment environment);
  ~Workspace();
  Workspace(const Workspace&) = delete;
  Workspace& operator=(const Workspace&) = delete;

  [[nodiscard]] const std::string& workspace_id() const;

  Result<std::vector<JobRow>> jobs();
  Result<JobDocument> job(const std::string& id);
  SaveOutcome save(const Save& save);
  Result<bool> set_archived(const std::string& id, bool archived);
  // Newest first, below `before` where it is given, at most `limit`.
  Result<std::vector<RevisionRow>> revisions(const std::string& id, std::optional<std::int64_t> before, int limit);
  Result<JobDocument> revision(const std::string& id, std::int64_t revision);

  // True if it was new. `posted_hash` is the hash of what the client sent: the same upload then finds the same picture.
  Result<bool> add_picture(const Picture& picture, const std::string& posted_hash);
  // By its own hash, or by the hash of what was posted.
  Result<Picture> picture(const std::string& hash);

  Result<ShopCatalogue> shop_catalogue();
  SaveOutcome save_shop_catalogue(const ShopCatalogueSave& save);

  // A consistent copy while work goes on, into a file that does not exist yet or is empty. Where it fails, or is cut
  // short, that file is left empty or is refused when it is opened.
  Result<bool> back_up(const std::string& path);
  Result<Contents> contents();
  // Every stored document and picture against its hash, and the file against its own rules: what is wrong, if anything.
  Result<std::vector<std::string>> verify();
  // The file may not grow beyond so many pages of 4 KiB: for a disk that is shared, and for tests of a full one.
  Result<bool> limit_size(std::int64_t pages);

 private:
  struct State;
  explicit Workspace(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace duskwire::store
