// SPDX-License-Identifier: Apache-2.0
#include "cli/progress_line.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "cli/quantity.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

// Back to the start of the line, and what stands there away (ECMA-48).
constexpr std::string_view wipe = "\r\x1b[K";

void put(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

bool can_wipe() {
  const char* terminal = std::getenv("TERM");
  return ::isatty(STDERR_FILENO) == 1 && !(terminal != nullptr && std::string_view(terminal) == "dumb");
}

std::string gain_text(const study::RouteProgress& progress) {
  const double gain = progress.first_minor > 0 ? 1 - progress.cost_minor / progress.first_minor : 0;
  return gain >= 0.005 ? fmt::format(", {} under the first", percent(gain)) : "";
}

}  // namespace

std::string progress_text(const study::RouteProgress& progress, double elapsed_s, const std::string& currency,
                          const TextStyle& style) {
  std::string text = fmt::format("{} s  {} of {} lamps", number(elapsed_s, 1), progress.lamps_placed, progress.lamps);
  if (progress.cost_minor > 0) {
    text += fmt::format("  {}{}  {} dug  {} joints", money(std::llround(progress.cost_minor), currency),
                        gain_text(progress), length(progress.trench_m, style), progress.joints);
  }
  return clip(text, style.width - 1, style.glyphs.ellipsis);
}

ProgressLine::ProgressLine() : seen_(can_wipe()) {}

ProgressLine::~ProgressLine() {
  if (shown_) put(wipe);
}

void ProgressLine::show(const std::string& text) {
  if (!seen_) return;
  put(std::string(wipe) + text);
  shown_ = true;
}

}  // namespace duskwire::cli
