// SPDX-License-Identifier: Apache-2.0
// How far the search for a wiring is: one line on standard error that is written over, where that is a terminal.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "study/route.hpp"

namespace duskwire::cli {

// "1.4 s  8 of 8 lamps  1204.00 USD, 14 % under the first  62.1 m dug  12 joints", no longer than the width.
[[nodiscard]] std::string progress_text(const study::RouteProgress& progress, double elapsed_s,
                                        const std::string& currency, const TextStyle& style);

class ProgressLine {
 public:
  ProgressLine();
  // Takes the line away again.
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  [[nodiscard]] bool is_seen() const { return seen_; }
  void show(const std::string& text);

 private:
  bool seen_;
  bool shown_ = false;
};

}  // namespace duskwire::cli
