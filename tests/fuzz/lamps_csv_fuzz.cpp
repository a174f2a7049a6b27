// SPDX-License-Identifier: Apache-2.0
// Any bytes into the reader of lamp tables: no crash, every slip fit to be shown, every lamp with numbers in range.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/utf8.hpp"
#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/lamps_csv.hpp"

namespace {

using namespace duskwire;

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  static const job::Catalogue stock = *formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue;
  const formats::ReadLamps read = formats::read_lamps_csv({reinterpret_cast<const char*>(data), size}, stock);
  for (const Problem& problem : read.problems) {
    for (const std::string& text : {problem.message, problem.value, problem.expected, problem.pointer}) {
      demand(well_formed(text) == text, "what a problem says is UTF-8");
    }
  }
  for (const job::Luminaire& lamp : read.lamps) {
    demand(std::abs(lamp.tilt_deg) <= 90 && lamp.dim_pct >= 0 && lamp.dim_pct <= 100, "numbers are in range");
    if (lamp.position) demand(std::abs(lamp.position->x_m) <= 100'000.001, "places are near");
    demand(well_formed(lamp.name) == lamp.name, "names are UTF-8");
  }
  return 0;
}
