// SPDX-License-Identifier: Apache-2.0
// `operator new` of this test program, told to fail at its n-th call, once or from then on, for the calling thread
// alone.
#pragma once

#include <cstdint>

namespace duskwire::testing {

struct FailingNew {
  std::int64_t calls = 0;
  std::int64_t fail_at = -1;  // counted from 0; below 0: never
  bool ever_after = false;
  std::int64_t live = 0;  // made and not given back
};

[[nodiscard]] FailingNew& failing_new();

}  // namespace duskwire::testing
