// SPDX-License-Identifier: Apache-2.0
// One scratch folder per call: a circuit file and a raw file per job, and a control script that runs them all.
#include "electrical/ngspice_process.hpp"

#include <fmt/format.h>
#include <stdlib.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <unordered_map>

namespace duskwire::electrical::testing {
namespace {

namespace fs = std::filesystem;

// Removes itself.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::string pattern = (fs::temp_directory_path() / "duskwire-spice-XXXXXX").string();
    if (mkdtemp(pattern.data()) != nullptr) path_ = pattern;
  }
  ~ScratchFolder() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

Error failed(std::string message) { return {ErrorCode::unavailable, std::move(message)}; }

void write_inputs(const fs::path& folder, const std::vector<SpiceJob>& jobs) {
  std::ofstream script(folder / "all.sp");
  script << "* all\n.control\nset filetype=ascii\nset numdgt=16\noptran 0 0 0 0 0 0\n";
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    std::ofstream(folder / fmt::format("{}.cir", i)) << jobs[i].netlist;
    script << fmt::format("source {}.cir\n", i);
    // Whole steps of a sum of 1/steps may stop short of 1 by rounding: half a step beyond is never reached.
    script << fmt::format("dc vlam {0:.17g} {1:.17g} {0:.17g}\n", 1.0 / jobs[i].steps, 1.0 + 0.5 / jobs[i].steps);
    script << fmt::format("write {}.raw all\n", i);
    script << "destroy all\nremcirc\n";
  }
  script << "quit\n.endc\n.end\n";
}

// The values of the last point of a raw file, by vector name.
Result<std::unordered_map<std::string, double>> last_point(const fs::path& file, int steps) {
  std::ifstream in(file);
  if (!in) return failed("ngspice wrote no answer");
  std::vector<std::string> names;
  int point_count = 0;
  std::string line;
  while (std::getline(in, line) && line != "Values:") {
    if (line.rfind("No. Points:", 0) == 0) point_count = std::stoi(line.substr(11));
    if (line.empty() || line[0] != '\t') continue;
    std::istringstream row(line);
    std::string index, name;
    row >> index >> name;
    names.push_back(name);
  }
  if (point_count != steps) return failed(fmt::format("ngspice stopped after {} of {} points", point_count, steps));
  std::unordered_map<std::string, double> values;
  for (int point = 0; point < point_count; ++point) {
    std::string number;
    in >> number;  // the index of the point
    for (const std::string& name : names) {
      if (!(in >> number)) return failed("ngspice's answer is cut off");
      values[name] = std::strtod(number.c_str(), nullptr);
    }
  }
  return values;
}

Result<std::vector<double>> node_volts(const fs::path& file, const SpiceJob& job) {
  const auto values = last_point(file, job.steps);
  if (!values) return values.error();
  std::vector<double> volts(job.node_count);
  for (std::uint32_t node = 0; node < job.node_count; ++node) {
    const auto a = values.value().find(fmt::format("v(a{})", node));
    const auto b = values.value().find(fmt::format("v(b{})", node));
    if (a == values.value().end() || b == values.value().end()) return failed(fmt::format("no volts of node {}", node));
    volts[node] = a->second - b->second;
  }
  return volts;
}

}  // namespace

std::vector<Result<std::vector<double>>> run_ngspice(const std::vector<SpiceJob>& jobs) {
  const ScratchFolder folder;
  std::vector<Result<std::vector<double>>> answers;
  if (folder.path().empty()) {
    answers.assign(jobs.size(), failed("no scratch folder could be made"));
    return answers;
  }
  write_inputs(folder.path(), jobs);
  const std::string command = fmt::format("cd '{}' && ngspice -b all.sp >out.txt 2>&1", folder.path().string());
  const int status = std::system(command.c_str());
  if (status != 0 && WIFEXITED(status) && WEXITSTATUS(status) == 127) {
    answers.assign(jobs.size(), failed("ngspice is not installed: install the package ngspice"));
    return answers;
  }
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    answers.push_back(node_volts(folder.path() / fmt::format("{}.raw", i), jobs[i]));
  }
  return answers;
}

}  // namespace duskwire::electrical::testing
