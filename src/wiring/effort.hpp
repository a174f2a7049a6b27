// SPDX-License-Identifier: Apache-2.0
// How long a search of this room may go on, and from which seed: the same problem, seed and steps give the same answer.
#pragma once

#include <cstdint>
#include <functional>

namespace duskwire::wiring {

struct Effort {
  std::uint64_t seed = 1;
  std::uint64_t steps = 2000;     // moves tried at most
  std::function<bool()> go_on{};  // asked now and then; false ends the search with the best so far. Empty: never asked.
};

// The only place that asks `go_on`, so that a refusal stays one: a caller's clock is not asked again.
class Budget {
 public:
  explicit Budget(const Effort& effort) : effort_(effort) {}

  // True while another move may be tried; counts it.
  [[nodiscard]] bool take_step() {
    if (taken_ >= effort_.steps || !allowed()) return false;
    ++taken_;
    return true;
  }
  [[nodiscard]] bool allowed() {
    if (!refused_ && effort_.go_on && !effort_.go_on()) refused_ = true;
    return !refused_;
  }
  [[nodiscard]] std::uint64_t taken() const { return taken_; }

 private:
  const Effort& effort_;
  std::uint64_t taken_ = 0;
  bool refused_ = false;
};

}  // namespace duskwire::wiring
