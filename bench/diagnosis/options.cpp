// SPDX-License-Identifier: Apache-2.0
#include "options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace duskwire::bench {
namespace {

constexpr const char* help =
    "duskwire_locate_bench [--quick | --long] [--misses] [--hindsight] [--alone] [--only time|small|faults] [--small "
    "COUNT]\n"
    "  [--setting BEGINNING] [--shape chain|tee|hub|loop] [--lamps 8|16|30|60|120]... [--faults COUNT]\n"
    "--quick plays 64 faults a setting and 100 small cases, without it 256 and 500, --long 768 and 500.\n"
    "--misses names each fault that was not among the first three, and whether physics, the choice of readings or\n"
    "the model is to blame. --hindsight asks of each fault how few readings could have singled it out; of 60 lamps "
    "that\n"
    "takes minutes each. --faults: of each shape and size, instead. --alone: no opponents.\n";

void only(const std::string& part, Options& options) {
  options.time = part == "time";
  options.faults = part == "faults";
  if (part != "small") options.small_cases = 0;
}

}  // namespace

Options options_of(int count, char** arguments) {
  Options options;
  std::string part;
  int small_cases = -1;
  for (int k = 1; k < count; ++k) {
    const std::string word = arguments[k];
    const std::string value = k + 1 < count ? arguments[k + 1] : "";
    const bool valued = word == "--only" || word == "--small" || word == "--setting" || word == "--shape" ||
                        word == "--lamps" || word == "--faults";
    if (word == "--quick") options.scale = 1;
    if (word == "--long") options.scale = 12;
    if (word == "--misses") options.misses = true;
    if (word == "--hindsight") options.hindsight = true;
    if (word == "--alone") options.opponents = false;
    if (word == "--faults") options.faults_each = std::atoi(value.c_str());
    if (word == "--only") part = value;
    if (word == "--small") small_cases = std::atoi(value.c_str());
    if (word == "--setting") options.setting = value;
    if (word == "--shape") options.shape = value;
    if (word == "--lamps") options.lamps.push_back(static_cast<std::uint32_t>(std::atoi(value.c_str())));
    static const std::vector<std::string> plain{"--quick", "--long", "--misses", "--hindsight", "--alone"};
    if (!valued && std::find(plain.begin(), plain.end(), word) == plain.end()) {
      fmt::print("{}", help);
      std::exit(word == "--help" ? 0 : 2);
    }
    if (valued) ++k;
  }
  if (options.scale == 1) options.small_cases = 100;
  if (small_cases >= 0) options.small_cases = small_cases;
  if (!part.empty()) only(part, options);
  return options;
}

}  // namespace duskwire::bench
