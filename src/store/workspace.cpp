// SPDX-License-Identifier: Apache-2.0
#include "store/workspace.hpp"

#include <fmt/format.h>

#include "store/events.hpp"
#include "store/workspace_state.hpp"

namespace duskwire::store {
namespace {

Error no_such_job(const std::string& id) {
  return {ErrorCode::not_found, fmt::format("There is no job \"{}\" in this workspace.", id)};
}

constexpr const char* head_of_job =
    "SELECT revision, changed, save_id, checksum FROM revisions WHERE job = ? ORDER BY revision DESC LIMIT 1";

Error damaged_facts(const std::string& job) {
  return {ErrorCode::invalid, fmt::format("What is stored of job \"{}\" does not match its hash: the file is damaged "
                                          "there. Restore the last backup, or run duskwire salvage.",
                                          job)};
}

// Silent damage never reaches a client. The columns: those of a sealed revision, archived, document.
Result<JobDocument> read_revision(SQLite::Database& db, SQLite::Statement& query) {
  JobDocument result;
  result.id = query.getColumn(0).getString();
  result.revision = query.getColumn(1).getInt64();
  result.changed = query.getColumn(2).getString();
  result.archived = query.getColumn(sealed_revision_count).getInt() != 0;
  result.document = query.getColumn(sealed_revision_count + 1).getString();
  result.checksum = query.getColumn(11).getString();
  if (checksum_of(result.id, result.revision, result.document) != result.checksum) {
    return Error{
        ErrorCode::invalid,
        "A stored document does not match its checksum: the file is damaged there. Open an earlier revision, or "
        "restore the last backup."};
  }
  if (!is_sealed_revision(query) || !is_sealed_flag(db, result.id, result.archived)) return damaged_facts(result.id);
  return result;
}

}  // namespace

Workspace::Workspace(std::unique_ptr<State> state) : state_(std::move(state)) {}
Workspace::~Workspace() = default;

Result<std::unique_ptr<Workspace>> Workspace::open(const std::string& path, Environment environment) try {
  Result<std::unique_ptr<SQLite::Database>> database = open_database(path);
  if (!database) return database.error();
  auto state = std::make_unique<State>();
  state->environment = std::move(environment);
  state->database = std::move(database).value();
  state->path = path;
  try {
    SQLite::Database& db = *state->database;
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement make(db, "INSERT OR IGNORE INTO about (key, value) VALUES ('workspace_id', ?)");
    const std::string id = "w-" + state->environment.random_id();
    make.bind(1, id);
    if (make.exec() == 1) append_event(db, "workspace", "workspace_id", digest_of({id}));
    state->id = db.execAndGet("SELECT value FROM about WHERE key = 'workspace_id'").getString();
    transaction.commit();
  } catch (const SQLite::Exception& failure) {
    return error_of(failure);
  }
  return std::unique_ptr<Workspace>(new Workspace(std::move(state)));
} catch (const std::bad_alloc&) {
  return Error{ErrorCode::unavailable, "There is not enough memory to open the workspace. It was left as it is."};
}

const std::string& Workspace::workspace_id() const { return state_->id; }

Result<std::vector<JobRow>> Workspace::jobs() {
  return state_->run<Result<std::vector<JobRow>>>([](SQLite::Database& db) -> Result<std::vector<JobRow>> {
    // From each job to its last revision: the other way round each revision that ever was would be read.
    SQLite::Statement query(
        db, fmt::format("SELECT {}, j.archived FROM jobs j CROSS JOIN revisions r ON r.job = j.id AND r.revision = "
                        "(SELECT max(revision) FROM revisions WHERE job = j.id) ORDER BY r.sequence DESC",
                        sealed_revision_columns));
    std::vector<JobRow> rows;
    while (query.executeStep()) {
      JobRow row;
      row.id = query.getColumn(0).getString();
      row.revision = query.getColumn(1).getInt64();
      row.changed = query.getColumn(2).getString();
      row.archived = query.getColumn(sealed_revision_count).getInt() != 0;
      if (!is_sealed_revision(query) || !is_sealed_flag(db, row.id, row.archived)) return damaged_facts(row.id);
      row.facts = {query.getColumn(5).getString(), query.getColumn(6).getString(), query.getColumn(7).getString(),
                   query.getColumn(8).getString(), query.getColumn(9).getString()};
      row.summary = query.getColumn(10).getString();
      rows.push_back(std::move(row));
    }
    return rows;
  });
}

Result<JobDocument> Workspace::job(const std::string& id) {
  return state_->run<Result<JobDocument>>([&](SQLite::Database& db) -> Result<JobDocument> {
    SQLite::Statement query(
        db, fmt::format("SELECT {}, j.archived, r.document FROM revisions r JOIN jobs j ON j.id = r.job WHERE r.job = "
                        "? ORDER BY r.revision DESC LIMIT 1",
                        sealed_revision_columns));
    query.bind(1, id);
    if (!query.executeStep()) return no_such_job(id);
    return read_revision(db, query);
  });
}

Result<JobDocument> Workspace::revision(const std::string& id, std::int64_t revision) {
  return state_->run<Result<JobDocument>>([&](SQLite::Database& db) -> Result<JobDocument> {
    SQLite::Statement query(
        db, fmt::format("SELECT {}, j.archived, r.document FROM revisions r JOIN jobs j ON j.id = r.job WHERE r.job = "
                        "? AND r.revision = ?",
                        sealed_revision_columns));
    query.bind(1, id);
    query.bind(2, revision);
    if (!query.executeStep()) {
      return Error{ErrorCode::not_found, fmt::format("There is no revision {} of job \"{}\".", revision, id)};
    }
    return read_revision(db, query);
  });
}

namespace {

// The answer that an earlier save of the same id got, if there was one.
std::optional<Saved> earlier_answer(SQLite::Database& db, const Save& save) {
  SQLite::Statement query(db, "SELECT revision, changed, checksum FROM revisions WHERE job = ? AND save_id = ?");
  query.bind(1, save.id);
  query.bind(2, save.save_id);
  if (!query.executeStep()) return std::nullopt;
  return Saved{query.getColumn(0).getInt64(), query.getColumn(1).getString(), query.getColumn(2).getString()};
}

void append_revision(SQLite::Database& db, const Save& save, const Saved& saved) {
  SQLite::Statement insert(
      db,
      "INSERT INTO revisions (job, revision, changed, save_id, label, title, client, place, stage, "
      "created, summary, document, checksum) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  int at = 0;
  insert.bind(++at, save.id);
  insert.bind(++at, saved.revision);
  for (const std::string& text :
       {saved.changed, save.save_id, save.label, save.facts.title, save.facts.client, save.facts.place,
        save.facts.stage, save.facts.created, save.summary, save.document, saved.checksum}) {
    insert.bind(++at, text);
  }
  insert.exec();
  SQLite::Statement stored(
      db, fmt::format("SELECT {} FROM revisions r WHERE job = ? AND revision = ?", sealed_revision_columns));
  stored.bind(1, save.id);
  stored.bind(2, saved.revision);
  stored.executeStep();
  append_event(db, "revision", fmt::format("{} {}", save.id, saved.revision), digest_of_revision(stored));
}

}  // namespace

SaveOutcome Workspace::save(const Save& save) {
  return state_->run<SaveOutcome>([&](SQLite::Database& db) -> SaveOutcome {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    if (const std::optional<Saved> before = earlier_answer(db, save)) return *before;
    Conflict head;
    head.base_revision = save.base_revision;
    {
      SQLite::Statement query(db, head_of_job);
      query.bind(1, save.id);
      if (query.executeStep()) {
        head.current_revision = query.getColumn(0).getInt64();
        head.current_changed = query.getColumn(1).getString();
        head.current_save_id = query.getColumn(2).getString();
        head.current_checksum = query.getColumn(3).getString();
      }
    }
    if (head.current_revision == 0 && save.base_revision != 0) return no_such_job(save.id);
    if (is_other_base(head, save.base_checksum)) return head;
    if (head.current_revision == 0) {
      SQLite::Statement make(db, "INSERT INTO jobs (id) VALUES (?)");
      make.bind(1, save.id);
      make.exec();
    }
    const std::int64_t next = head.current_revision + 1;
    Saved saved{next, state_->environment.now_utc(), checksum_of(save.id, next, save.document)};
    append_revision(db, save, saved);
    // From here on the save is stored: nothing may fail before it is answered.
    transaction.commit();
    return SaveOutcome(std::move(saved));
  });
}

Result<bool> Workspace::set_archived(const std::string& id, bool archived) {
  return state_->run<Result<bool>>([&](SQLite::Database& db) -> Result<bool> {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    SQLite::Statement known(db, "SELECT archived FROM jobs WHERE id = ?");
    known.bind(1, id);
    if (!known.executeStep()) return no_such_job(id);
    if ((known.getColumn(0).getInt() != 0) == archived) return true;
    known.reset();
    SQLite::Statement update(db, "UPDATE jobs SET archived = ? WHERE id = ?");
    update.bind(1, archived ? 1 : 0);
    update.bind(2, id);
    update.exec();
    append_event(db, "archived", id, digest_of_flag(archived));
    transaction.commit();
    return true;
  });
}

Result<std::vector<RevisionRow>> Workspace::revisions(const std::string& id, std::optional<std::int64_t> before,
                                                      int limit) {
  return state_->run<Result<std::vector<RevisionRow>>>([&](SQLite::Database& db) -> Result<std::vector<RevisionRow>> {
    SQLite::Statement known(db, "SELECT 1 FROM jobs WHERE id = ?");
    known.bind(1, id);
    if (!known.executeStep()) return no_such_job(id);
    SQLite::Statement query(
        db, fmt::format("SELECT {}, length(CAST(document AS BLOB)) FROM revisions r WHERE job = ? AND revision < ? "
                        "ORDER BY revision DESC LIMIT ?",
                        sealed_revision_columns));
    query.bind(1, id);
    query.bind(2, before.value_or(INT64_MAX));
    query.bind(3, limit);
    std::vector<RevisionRow> rows;
    while (query.executeStep()) {
      if (!is_sealed_revision(query)) return damaged_facts(id);
      rows.push_back({query.getColumn(1).getInt64(), query.getColumn(2).getString(), query.getColumn(4).getString(),
                      query.getColumn(sealed_revision_count).getInt64()});
    }
    return rows;
  });
}

}  // namespace duskwire::store
