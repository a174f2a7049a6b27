// SPDX-License-Identifier: Apache-2.0
#include "store/truth.hpp"

namespace duskwire::store::testing {
namespace {

std::string text_of(const JobRow& row) {
  return row.id + "|" + std::to_string(row.revision) + "|" + row.changed + (row.archived ? "|archived|" : "|") +
         row.facts.title + "|" + row.facts.client + "|" + row.facts.place + "|" + row.facts.stage + "|" +
         row.facts.created + "|" + row.summary;
}

}  // namespace

Truth truth_of(Workspace& workspace, const std::vector<std::string>& pictures) {
  Truth truth;
  const std::vector<JobRow> jobs = workspace.jobs().value();
  for (const JobRow& row : jobs) {
    truth.jobs[row.id] = row;
    const std::vector<RevisionRow> revisions = workspace.revisions(row.id, std::nullopt, 1000).value();
    for (const RevisionRow& revision : revisions) {
      truth.documents[{row.id, revision.revision}] = workspace.revision(row.id, revision.revision).value().document;
    }
  }
  for (const std::string& hash : pictures) truth.pictures[hash] = workspace.picture(hash).value().bytes;
  truth.shop = workspace.shop_catalogue().value().document;
  return truth;
}

std::string lie_of(Workspace& workspace, const Truth& truth, std::size_t& served) {
  if (const auto jobs = workspace.jobs()) {
    if (jobs.value().size() != truth.jobs.size()) return "another number of jobs";
    for (const JobRow& row : jobs.value()) {
      const auto found = truth.jobs.find(row.id);
      if (found == truth.jobs.end() || text_of(found->second) != text_of(row)) return "another job: " + text_of(row);
      ++served;
    }
  }
  for (const auto& [id, row] : truth.jobs) {
    const auto head = workspace.job(id);
    if (!head) continue;
    ++served;
    if (head.value().revision != row.revision) return "an older revision of " + id;
  }
  for (const auto& [key, document] : truth.documents) {
    const auto read = workspace.revision(key.first, key.second);
    if (!read) continue;
    ++served;
    if (read.value().document != document) return "another document for " + key.first;
  }
  for (const auto& [hash, bytes] : truth.pictures) {
    const auto read = workspace.picture(hash);
    if (!read) continue;
    ++served;
    if (read.value().bytes != bytes) return "another picture";
  }
  if (const auto shop = workspace.shop_catalogue(); shop && shop.value().document != truth.shop) {
    return "another catalogue of the shop";
  }
  return "";
}

}  // namespace duskwire::store::testing
