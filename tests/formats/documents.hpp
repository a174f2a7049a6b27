// SPDX-License-Identifier: Apache-2.0
// Documents for tests: files of the project as text, and copies of them with one thing changed.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "formats/json_text.hpp"

namespace duskwire::formats {

inline std::string project_file(const std::string& name) {
  std::ifstream in(std::string(DUSKWIRE_SOURCE_DIR) + "/" + name, std::ios::binary);
  EXPECT_TRUE(in) << name;
  return {std::istreambuf_iterator<char>(in), {}};
}

// A job that uses every key of the format, unknown ones too.
inline std::string full_job_text() { return project_file("tests/schema/full-job.json"); }

// The full job with the value at a pointer replaced, or added.
inline std::string full_job_with(const std::string& pointer, const Json& value) {
  Json tree = Json::parse(full_job_text());
  tree[Json::json_pointer(pointer)] = value;
  return tree.dump();
}

// ... and with a key taken away.
inline std::string full_job_without(const std::string& pointer, const std::string& key) {
  Json tree = Json::parse(full_job_text());
  EXPECT_EQ(tree[Json::json_pointer(pointer)].erase(key), 1u) << pointer << " " << key;
  return tree.dump();
}

inline std::vector<std::string> error_pointers(const Problems& problems) {
  std::vector<std::string> pointers;
  for (const Problem& problem : problems) {
    if (problem.severity == Severity::error) pointers.push_back(problem.pointer);
  }
  return pointers;
}

inline std::string told(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) {
    text += problem.pointer + " | " + problem.value + " | " + problem.expected + " | " + problem.message + "\n";
  }
  return text;
}

}  // namespace duskwire::formats
