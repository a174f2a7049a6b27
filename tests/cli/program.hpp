// SPDX-License-Identifier: Apache-2.0
// Runs the built program as a user would: in a folder of its own that holds the examples, through a shell, with nothing
// of the surroundings that would change its output.
#pragma once

#include <string>
#include <vector>

namespace duskwire::cli {

struct Ended {
  int code = -1;          // exit code; 128 + n where signal n ended it
  std::string text;       // standard output
  std::string complaint;  // standard error
};

class Workplace {
 public:
  Workplace();
  ~Workplace();
  Workplace(const Workplace&) = delete;
  Workplace& operator=(const Workplace&) = delete;

  // `line` as typed: "duskwire check examples/small-garden.json".
  [[nodiscard]] Ended run(const std::string& line, const std::string& input = "") const;

  void write(const std::string& name, const std::string& text) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  [[nodiscard]] std::vector<std::string> files() const;  // names, sorted, without "examples"

 private:
  std::string folder_;
};

// Text of a file of the project, by its path from the root.
[[nodiscard]] std::string project_file(const std::string& path);

// Job files below examples/: names, sorted.
[[nodiscard]] std::vector<std::string> example_jobs();

}  // namespace duskwire::cli
