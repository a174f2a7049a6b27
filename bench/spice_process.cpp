// SPDX-License-Identifier: Apache-2.0
#include "spice_process.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>

namespace duskwire::bench {
namespace {

void write_circuit(const ReducedGarden& garden, std::ofstream& out) {
  out << "a garden\nvsource e 0 dc " << source_v << "\n";
  for (std::size_t k = 0; k < garden.parent.size(); ++k) {
    const std::string above = garden.parent[k] == k ? "e" : fmt::format("n{}", garden.parent[k]);
    out << fmt::format("r{} {} n{} {:.17g}\n", k, above, k, garden.r_ohm[k]);
    if (garden.s_va[k] == 0) continue;
    out << fmt::format("b{} n{} 0 i={}/max(v(n{}),{})\n", k, k, garden.s_va[k], k, garden.v_regulation[k]);
  }
  out << ".options reltol=1e-9 abstol=1e-9 vntol=1e-9\n.control\nset numdgt=14\nop\n";
  out << fmt::format("print v(n{})\nquit\n.endc\n.end\n", garden.parent.size() - 1);
}

}  // namespace

SpiceProcess::SpiceProcess(const ReducedGarden& garden) {
  const auto folder = std::filesystem::temp_directory_path();
  const std::string name = fmt::format("duskwire-bench-{}-{}", getpid(), garden.parent.size());
  circuit_path_ = folder / (name + ".cir");
  answer_path_ = folder / (name + ".txt");
  std::ofstream out(circuit_path_);
  write_circuit(garden, out);
}

SpiceProcess::~SpiceProcess() {
  std::error_code ignored;
  std::filesystem::remove(circuit_path_, ignored);
  std::filesystem::remove(answer_path_, ignored);
}

double SpiceProcess::solve() {
  const std::string command = fmt::format("ngspice -b '{}' >'{}' 2>&1", circuit_path_, answer_path_);
  if (std::system(command.c_str()) != 0) return std::numeric_limits<double>::quiet_NaN();
  std::ifstream in(answer_path_);
  for (std::string line; std::getline(in, line);) {
    const std::size_t equals = line.find(" = ");
    if (line.rfind("v(n", 0) == 0 && equals != std::string::npos)
      return std::strtod(line.c_str() + equals + 3, nullptr);
  }
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace duskwire::bench
