// SPDX-License-Identifier: Apache-2.0
// The planner against three habits on seeded lots, or, with --optimum, against the optimum on small lawns.
//   duskwire_planner_bench [--optimum] [--sizes 10,40] [--seeds N] [--first-seed N] [--seconds S] [--processor]
//     [--proof-seconds S]
#include <fmt/format.h>

#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>

#include "tables.hpp"

namespace {

using duskwire::bench::TableOptions;

std::optional<double> positive(const std::string& text) {
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != 0 || !(value > 0)) return std::nullopt;
  return value;
}

bool read_sizes(const std::string& text, TableOptions& options) {
  std::istringstream in(text);
  for (std::string word; std::getline(in, word, ',');) {
    const auto lamps = positive(word);
    if (!lamps || *lamps > 20000) return false;
    options.sizes.push_back(static_cast<std::uint32_t>(*lamps));
  }
  return !options.sizes.empty();
}

bool read_option(std::string_view option, const std::string& value, TableOptions& options) {
  if (option == "--sizes") return read_sizes(value, options);
  const auto number = positive(value);
  if (!number) return false;
  if (option == "--seeds") options.seeds = static_cast<std::uint32_t>(*number);
  if (option == "--first-seed") options.first_seed = static_cast<std::uint32_t>(*number);
  if (option == "--seconds") options.seconds = *number;
  if (option == "--proof-seconds") options.proof_seconds = *number;
  return option == "--seeds" || option == "--first-seed" || option == "--seconds" || option == "--proof-seconds";
}

}  // namespace

int main(int argc, char** argv) {
  TableOptions options;
  bool optimum = false;
  for (int i = 1; i < argc; ++i) {
    const std::string_view option = argv[i];
    if (option == "--optimum") {
      optimum = true;
    } else if (option == "--processor") {
      options.of_processor = true;
    } else if (i + 1 < argc && read_option(option, argv[i + 1], options)) {
      ++i;
    } else {
      fmt::print(stderr,
                 "\"{}\" is not understood here. Options: --optimum, --sizes 10,40 (lamps), --seeds N, --first-seed N, "
                 "--seconds S, --processor, --proof-seconds S; numbers above 0.\n",
                 option);
      return 2;
    }
  }
  if (optimum) {
    duskwire::bench::print_optima(options);
  } else {
    duskwire::bench::print_lots(options);
  }
  return 0;
}
