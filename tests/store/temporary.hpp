// SPDX-License-Identifier: Apache-2.0
// A folder that goes away with the test, a clock and ids that count, and short ways to open and save.
#pragma once

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <memory>
#include <string>

#include "store/workspace.hpp"

namespace duskwire::store::testing {

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "duskwire-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

inline Environment counting_environment() {
  auto count = std::make_shared<int>(0);
  return {[count] { return "2026-03-01T10:00:" + std::to_string(10 + (*count)++ % 50) + "Z"; },
          [] { return std::string("0123456789abcdef"); }};
}

inline std::unique_ptr<Workspace> open_or_fail(const std::string& path) {
  Result<std::unique_ptr<Workspace>> opened = Workspace::open(path, counting_environment());
  if (!opened) throw std::runtime_error(opened.error().message);
  return std::move(opened).value();
}

inline Save save_of(const std::string& id, std::int64_t base_revision, const std::string& document) {
  Save save;
  save.id = id;
  save.base_revision = base_revision;
  save.save_id = id + "-after-" + std::to_string(base_revision);
  save.label = "Change " + std::to_string(base_revision + 1);
  save.document = document;
  save.facts = {"Title of " + id, "client", "place", "design", "2026-03-01"};
  return save;
}

// The revision that a save made; fails the test where it made none.
inline std::int64_t saved_revision(const SaveOutcome& outcome) {
  if (const auto* saved = std::get_if<Saved>(&outcome)) return saved->revision;
  if (const auto* error = std::get_if<Error>(&outcome)) ADD_FAILURE() << error->message;
  if (std::holds_alternative<Conflict>(outcome)) ADD_FAILURE() << "a conflict";
  return -1;
}

}  // namespace duskwire::store::testing
