// SPDX-License-Identifier: Apache-2.0
// Any bytes into the reader of EULUMDAT files: tests/fuzz/intensity_demands.hpp says what must hold.
#include "intensity_demands.hpp"
#include "light/eulumdat_reader.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  duskwire::demand_sound_reading(duskwire::light::read_eulumdat({reinterpret_cast<const char*>(data), size}));
  return 0;
}
