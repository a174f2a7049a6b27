// SPDX-License-Identifier: Apache-2.0
#include "sites/linear_program.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>

namespace duskwire::sites {
namespace {

void append(std::string& text, const Term& term) {
  text += fmt::format("{}{:.10g} {}\n", term.factor < 0 ? "- " : "+ ", std::abs(term.factor), term.variable);
}

// Files of one solve, gone afterwards.
class Folder {
 public:
  Folder() {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() / fmt::format("duskwire-optimum-{}-{}", getpid(), ++count);
    std::filesystem::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string file(const char* name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

void read_values(std::istream& in, ProgramAnswer& answer) {
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    std::string index;
    std::string name;
    double number = 0;
    if (words >> index && index == "**") words >> index;
    if (words >> name >> number) answer.values[name] = number;
  }
}

// CBC prints the bound only where it stops before the proof is whole.
std::optional<double> printed_bound(const std::string& path) {
  std::ifstream in(path);
  std::optional<double> bound;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("Lower bound:", 0) == 0) bound = std::strtod(line.c_str() + 12, nullptr);
  }
  return bound;
}

// The first line tells how it ended: "Optimal - objective value 123.4", "Infeasible - ...", "Stopped on time - ...", or
// "Stopped on time (no integer solution - continuous used) - ...".
std::optional<ProgramAnswer> read_answer(const std::string& solution_path, const std::string& log_path,
                                         const SolveOptions& options) {
  std::ifstream in(solution_path);
  std::string line;
  if (!std::getline(in, line)) return std::nullopt;
  ProgramAnswer answer;
  const bool is_infeasible = line.find("nfeasible") != std::string::npos;
  answer.proven = is_infeasible || line.rfind("Optimal", 0) == 0;
  const std::size_t value = line.find("objective value");
  if (value != std::string::npos && !is_infeasible && line.find("no integer solution") == std::string::npos) {
    answer.cost = std::strtod(line.c_str() + value + 15, nullptr);
    read_values(in, answer);
  }
  const double least = answer.cost.value_or(options.known_answer.value_or(std::numeric_limits<double>::infinity()));
  const auto printed = printed_bound(log_path);
  if (!answer.proven && !printed) return std::nullopt;
  answer.bound = answer.proven ? least * (1 - options.tolerance) : *printed;
  return answer;
}

}  // namespace

void LinearProgram::row(const Terms& terms, const char* sense, double value) {
  rows_ += fmt::format(" c{}: ", row_count_++);
  for (const Term& term : terms) append(rows_, term);
  rows_ += fmt::format("{} {:.10g}\n", sense, value);
}

std::string LinearProgram::text() const {
  std::string text = "Minimize\n cost: ";
  for (const auto& [variable, factor] : costs_) append(text, {factor, variable});
  text += "Subject To\n" + rows_ + "Binaries\n";
  for (const std::string& variable : binaries_) text += " " + variable + "\n";
  return text + "End\n";
}

std::optional<ProgramAnswer> solve_with_cbc(const LinearProgram& program, const SolveOptions& options) {
  const Folder folder;
  std::ofstream(folder.file("model.lp")) << program.text();
  const std::string cut_off = options.known_answer ? fmt::format("cutoff {}", *options.known_answer) : "";
  const std::string command =
      fmt::format("cbc '{}' ratioGap {} seconds {} {} solve solution '{}' >'{}' 2>&1", folder.file("model.lp"),
                  options.tolerance, options.seconds, cut_off, folder.file("solution.txt"), folder.file("log.txt"));
  if (std::system(command.c_str()) != 0) return std::nullopt;
  return read_answer(folder.file("solution.txt"), folder.file("log.txt"), options);
}

}  // namespace duskwire::sites
