// SPDX-License-Identifier: Apache-2.0
// A mixed-integer linear program as text in the LP format, and what a solver wrote about it. Who runs the solver is not
// this room's business.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace duskwire::wiring {

struct Term {
  double factor = 0;
  std::string variable;
};
using Terms = std::vector<Term>;

// All variables are 0 or more.
class LinearProgram {
 public:
  void add_cost(double factor, const std::string& variable) { costs_[variable] += factor; }
  void at_most(const Terms& terms, double limit) { row(terms, "<=", limit); }
  void at_least(const Terms& terms, double limit) { row(terms, ">=", limit); }
  void equal(const Terms& terms, double value) { row(terms, "=", value); }
  void binary(const std::string& variable) { binaries_.push_back(variable); }
  [[nodiscard]] std::string text() const;

 private:
  void row(const Terms& terms, const char* sense, double value);

  std::map<std::string, double> costs_;
  std::string rows_;
  std::size_t row_count_ = 0;
  std::vector<std::string> binaries_;
};

struct ProgramAnswer {
  std::optional<double> cost;            // absent: nothing cheaper than what was known has been found
  double bound = 0;                      // no answer costs less; infinite: there is none at all
  bool proven = false;                   // within the tolerance that was asked for
  std::map<std::string, double> values;  // those that are not 0
};

struct SolveOptions {
  double seconds = 60;
  bool by_the_clock = false;           // else of the processor
  double tolerance = 0.001;            // of the cost: proven is what is known that near
  std::optional<double> known_answer;  // a cost that can be reached: nothing dearer is looked at
};

// Empty where there is no solver, or it ends before it knows anything.
using ProgramSolver = std::function<std::optional<ProgramAnswer>(const LinearProgram&, const SolveOptions&)>;

// From what CBC leaves: its solution file and what it printed.
[[nodiscard]] std::optional<ProgramAnswer> read_program_answer(const std::string& solution, const std::string& printed,
                                                               const SolveOptions& options);

}  // namespace duskwire::wiring
