// SPDX-License-Identifier: Apache-2.0
// How far the kernels of the wiring planner are from published optima: a line per instance of tests/reference/routing,
// with the time that each may take. Writes a Markdown table.
//   duskwire_routing_gaps [SECONDS each, 10 where left out]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include "wiring/capacitated_tree.hpp"
#include "wiring/steiner_tree.hpp"

namespace duskwire::bench {
namespace {

using Clock = std::chrono::steady_clock;
using wiring::Effort;

const std::string folder = std::string(DUSKWIRE_SOURCE_DIR) + "/tests/reference/routing/";

std::vector<std::vector<std::string>> rows_of(const std::string& table) {
  std::ifstream file(folder + table);
  std::string line;
  std::getline(file, line);
  std::vector<std::vector<std::string>> rows;
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::vector<std::string>& row = rows.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
  }
  return rows;
}

wiring::SteinerProblem read_graph(const std::string& name) {
  std::ifstream file(folder + "steiner/" + name);
  wiring::SteinerProblem problem;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words(line);
    std::string key;
    std::uint32_t a = 0;
    std::uint32_t b = 0;
    double cost = 0;
    words >> key;
    if (key == "Nodes") words >> problem.graph.nodes;
    if (key == "E" && words >> a >> b >> cost) problem.graph.edges.push_back({a - 1, b - 1, cost});
    if (key == "T" && words >> a) problem.terminals.push_back(a - 1);
  }
  return problem;
}

wiring::CapacitatedProblem read_matrix(const std::string& name, double capacity) {
  std::ifstream file(folder + "capacitated/" + name + ".txt");
  wiring::CapacitatedProblem problem;
  file >> problem.nodes >> problem.root;
  problem.capacity = capacity;
  problem.demand.resize(problem.nodes);
  problem.cost.resize(static_cast<std::size_t>(problem.nodes) * problem.nodes);
  for (double& demand : problem.demand) file >> demand;
  for (double& cost : problem.cost) file >> cost;
  return problem;
}

class Table {
 public:
  explicit Table(const char* title) {
    fmt::print("\n{}\n\n| instance | optimum | found | gap % | s |\n| --- | ---: | ---: | ---: | ---: |\n", title);
  }

  void row(const std::string& name, double optimum, double seconds, const std::function<double(const Effort&)>& solve) {
    const auto begin = Clock::now();
    const auto end = begin + std::chrono::duration<double>(seconds);
    const double cost = solve({1, std::numeric_limits<std::uint64_t>::max(), [end] { return Clock::now() < end; }});
    const double took_s = std::chrono::duration<double>(Clock::now() - begin).count();
    const double gap_pct = 100 * (cost / optimum - 1);
    fmt::print("| {} | {} | {} | {:.3f} | {:.1f} |\n", name, optimum, cost, gap_pct, took_s);
    sum_pct_ += gap_pct;
    worst_pct_ = std::max(worst_pct_, gap_pct);
    ++count_;
  }

  void end() const {
    fmt::print("\nMean {:.3f} %, worst {:.3f} %, {} instances.\n", sum_pct_ / count_, worst_pct_, count_);
  }

 private:
  double sum_pct_ = 0;
  double worst_pct_ = 0;
  int count_ = 0;
};

void run(double seconds) {
  Table steiner("Steiner trees");
  for (const auto& cells : rows_of("steiner.csv")) {
    const wiring::SteinerProblem problem = read_graph(cells.at(0));
    steiner.row(cells.at(0), std::stod(cells.at(1)), seconds,
                [&](const Effort& effort) { return wiring::steiner_tree(problem, {effort}).value().cost; });
  }
  steiner.end();
  Table capacitated("Capacitated trees");
  for (const auto& cells : rows_of("capacitated.csv")) {
    const wiring::CapacitatedProblem problem = read_matrix(cells.at(0), std::stod(cells.at(1)));
    capacitated.row(cells.at(0) + ", capacity " + cells.at(1), std::stod(cells.at(2)), seconds,
                    [&](const Effort& effort) { return wiring::capacitated_tree(problem, effort).value().cost; });
  }
  capacitated.end();
}

}  // namespace
}  // namespace duskwire::bench

int main(int argc, char** argv) {
  const double seconds = argc > 1 ? std::strtod(argv[1], nullptr) : 10;
  if (!(seconds > 0)) {
    fmt::print(stderr, "The seconds for each instance must be a number above 0, not \"{}\".\n", argv[1]);
    return 2;
  }
  duskwire::bench::run(seconds);
  return 0;
}
