// SPDX-License-Identifier: Apache-2.0
// Any bytes into the reader of LM-63 files: tests/fuzz/intensity_demands.hpp says what must hold.
#include "intensity_demands.hpp"
#include "light/lm63_reader.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  duskwire::demand_sound_reading(duskwire::light::read_lm63({reinterpret_cast<const char*>(data), size}));
  return 0;
}
