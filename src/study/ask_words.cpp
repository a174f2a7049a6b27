// SPDX-License-Identifier: Apache-2.0
#include "study/ask_words.hpp"

#include <fmt/format.h>

#include "study/wording.hpp"

namespace duskwire::study {
namespace {

const char* state_words(electrical::LampState state) {
  switch (state) {
    case electrical::LampState::off:
      return "dark";
    case electrical::LampState::dim:
      return "dim: out of regulation";
    case electrical::LampState::regulated:
      return "in regulation";
    case electrical::LampState::over:
      return "over its window";
  }
  return "";
}

std::string growth_words(double factor, bool beyond_cap, const char* what) {
  return beyond_cap ? fmt::format("more than {:.0f} times the {}", factor, what)
                    : fmt::format("{:.0f} % more {}", 100 * (factor - 1), what);
}

std::string edge_words(const Answer& answer) {
  if (answer.load_margin <= 0) return "";
  return fmt::format(" It takes {} or {} to lose the first lamp.",
                     growth_words(answer.load_margin, answer.load_beyond_cap, "load"),
                     growth_words(answer.length_margin, answer.length_beyond_cap, "length"));
}

std::string lead(const Question& question, const Answer& answer, job::DisplayUnits units) {
  const std::string cable = conductor_words(answer.cable, units);
  const std::string length = worded(answer.length_m, distance_unit(units));
  if (!answer.found && answer.worst_high_v > question.window_max_v) {
    return fmt::format("Not on this tap: the nearest lamp sees {}, over its window. ",
                       worded(answer.worst_high_v, volt_unit));
  }
  const char* most = answer.unbounded ? "At least " : "At most ";
  switch (answer.asked) {
    case Asked::nothing:
      return "";
    case Asked::lamps:
      return answer.found ? fmt::format("{}{}. ", most, counted(answer.lamps, "lamp")) : "Not even one lamp. ";
    case Asked::length:
      return answer.found ? fmt::format("{}{}. ", most, length) : "No length at all. ";
    case Asked::tap:
      return answer.found ? fmt::format("Tap {:g}. ", answer.tap_v)
                          : fmt::format("None of these {} taps. ", question.taps_v.size());
    case Asked::cable:
      return answer.found ? fmt::format("{}. ", cable) : "Not even the thickest cable. ";
  }
  return "";
}

}  // namespace

std::string answer_words(const Question& question, const Answer& answer, job::DisplayUnits units) {
  std::string text = lead(question, answer, units);
  text += fmt::format("{} of {:g} W over {} of {} on tap {:g}: the last lamp sees {} and is {}",
                      counted(answer.lamps, "lamp"), question.lamp_w, worded(answer.length_m, distance_unit(units)),
                      conductor_words(answer.cable, units), answer.tap_v, worded(answer.last_v, volt_unit),
                      state_words(answer.last_state));
  if (question.mains_tolerance_pct > 0) {
    text +=
        fmt::format(" ({} to {} over all lamps with mains {:g} % down and up)", worded(answer.worst_low_v, volt_unit),
                    worded(answer.worst_high_v, volt_unit), question.mains_tolerance_pct);
  }
  return text + "." + edge_words(answer);
}

}  // namespace duskwire::study
