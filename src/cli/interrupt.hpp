// SPDX-License-Identifier: Apache-2.0
// Ctrl-C as a wish to stop, not as the end of the program: for work that has something to show when it is cut short.
#pragma once

namespace duskwire::cli {

// As long as one lives, the first Ctrl-C is kept here; a second one ends the program as usual. One at a time.
class Interrupt {
 public:
  Interrupt();
  ~Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;

  [[nodiscard]] static bool met();
};

}  // namespace duskwire::cli
