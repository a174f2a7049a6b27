// SPDX-License-Identifier: Apache-2.0
#include "wiring/linear_program.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <sstream>

namespace duskwire::wiring {
namespace {

void append(std::string& text, const Term& term) {
  text += fmt::format("{}{:.10g} {}\n", term.factor < 0 ? "- " : "+ ", std::abs(term.factor), term.variable);
}

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
std::optional<double> printed_bound(const std::string& printed) {
  std::istringstream in(printed);
  std::optional<double> bound;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("Lower bound:", 0) == 0) bound = std::strtod(line.c_str() + 12, nullptr);
  }
  return bound;
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

// The first line tells how it ended: "Optimal - objective value 123.4", "Infeasible - ...", "Stopped on time - ...", or
// "Stopped on time (no integer solution - continuous used) - ...".
std::optional<ProgramAnswer> read_program_answer(const std::string& solution, const std::string& printed,
                                                 const SolveOptions& options) {
  std::istringstream in(solution);
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
  const auto bound = printed_bound(printed);
  if (!answer.proven && !bound) return std::nullopt;
  answer.bound = answer.proven ? least * (1 - options.tolerance) : *bound;
  return answer;
}

}  // namespace duskwire::wiring
