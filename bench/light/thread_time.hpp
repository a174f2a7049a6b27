// SPDX-License-Identifier: Apache-2.0
// Processor time of this thread: what others do on the machine meanwhile does not count.
#pragma once

#include <ctime>

namespace duskwire::bench {

inline double thread_seconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

}  // namespace duskwire::bench
