// SPDX-License-Identifier: Apache-2.0
#include "study/ask.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/ask_network.hpp"
#include "study/ask_words.hpp"

namespace duskwire::study {
namespace {

constexpr double least_length_m = 0.01;

Error invalid(std::string message) { return {ErrorCode::invalid, std::move(message)}; }

bool between(double value, double low, double high) { return value >= low && value <= high; }

std::optional<Error> first_error(const Question& question) {
  if (question.lamps && (*question.lamps < 1 || *question.lamps > most_asked_lamps)) {
    return invalid(fmt::format("The number of lamps is {}: expected 1 to {}.", *question.lamps, most_asked_lamps));
  }
  if (question.length_m && !between(*question.length_m, least_length_m, most_asked_length_m)) {
    return invalid(fmt::format("The length is {:g} m: expected {:g} to {:g} m.", *question.length_m, least_length_m,
                               most_asked_length_m));
  }
  struct Range {
    const char* what;
    double value, low, high;
  };
  const double window_v = question.window_min_v;
  const Range ranges[] = {
      {"the tap in volts", question.tap_v.value_or(12), 1, 50},
      {"the power of a lamp in watts", question.lamp_w, 0.01, 1000},
      {"the power factor", question.power_factor, 0.1, 1},
      {"the resistance of the source in ohms", question.source_ohm, 0, 10},
      {"the lower end of the window in volts", window_v, 0.5, 50},
      {"the upper end of the window in volts", question.window_max_v, window_v, 100},
      {"the volts at which a lamp goes dark", question.cut_off_v, 0, 50},
      {"the mains tolerance in per cent", question.mains_tolerance_pct, 0, 50},
      {"the cable's temperature in C", question.cable_c, -40, 150},
      {"the length of a lead in metres", question.lead_length_m, 0, 100},
      {"the resistance of a lead in ohms per metre", question.lead_ohm_per_m_20c, 0, 10},
      {"the cable's resistance in ohms per metre", question.cable ? question.cable->ohm_per_m_20c : 1, 1e-7, 10},
  };
  for (const Range& range : ranges) {
    if (between(range.value, range.low, range.high)) continue;
    return invalid(fmt::format("{} is {:g}: expected {:g} to {:g}.", range.what, range.value, range.low, range.high));
  }
  return std::nullopt;
}

Result<Asked> what_is_asked(const Question& question) {
  Asked asked = Asked::nothing;
  int gaps = 0;
  const auto look = [&](bool given, Asked part) {
    if (given) return;
    asked = part;
    ++gaps;
  };
  look(question.lamps.has_value(), Asked::lamps);
  look(question.length_m.has_value(), Asked::length);
  look(question.tap_v.has_value(), Asked::tap);
  look(question.cable.has_value(), Asked::cable);
  if (gaps > 1) {
    return invalid(
        "More than one part is left out: give all but one of lamps, length, tap and cable. The one that is "
        "left out is what you are asking for.");
  }
  if (asked == Asked::tap && question.taps_v.empty()) return invalid("There are no taps to choose from.");
  if (asked == Asked::cable && question.cables.empty()) return invalid("There are no cables to choose from.");
  return asked;
}

class Asker {
 public:
  Asker(const Question& question, Asked asked) : question_(question) {
    full_.question = &question;
    full_.lamps = question.lamps.value_or(1);
    full_.length_m = question.length_m.value_or(least_length_m);
    full_.tap_v = question.tap_v.value_or(0);
    full_.cable = question.cable ? &*question.cable : nullptr;
    asked_ = asked;
  }

  Answer run() {
    bool unbounded = false;
    std::vector<Tried> tried;
    switch (asked_) {
      case Asked::nothing:
        break;
      case Asked::lamps:
        unbounded = find_lamps();
        break;
      case Asked::length:
        unbounded = find_length();
        break;
      case Asked::tap:
        tried = find_tap();
        break;
      case Asked::cable:
        tried = find_cable();
        break;
    }
    Answer answer = solve_question(full_);
    answer.asked = asked_;
    answer.found = asked_ == Asked::nothing || answer.holds;
    answer.unbounded = unbounded && answer.holds;
    answer.tried = std::move(tried);
    return answer;
  }

 private:
  // No lamp below its window. Whether one is above it is asked of the answer alone: more load or length only lowers the
  // volts, so the edge that is looked for is the lower one.
  [[nodiscard]] bool low_end_holds() const { return try_question(full_).worst_low_v >= question_.window_min_v; }
  [[nodiscard]] bool holds_with_lamps(std::uint32_t lamps) {
    full_.lamps = lamps;
    return low_end_holds();
  }
  [[nodiscard]] bool holds_at_length(double length_m) {
    full_.length_m = length_m;
    return low_end_holds();
  }

  // Found by doubling and halving. True if the cap was met first.
  bool find_lamps() {
    std::uint32_t good = 1;
    if (!holds_with_lamps(good)) return false;
    std::uint32_t bad = 2;
    while (bad <= most_asked_lamps && holds_with_lamps(bad)) {
      good = bad;
      bad *= 2;
    }
    if (bad > most_asked_lamps) {
      bad = most_asked_lamps + 1;
      if (holds_with_lamps(most_asked_lamps)) return true;
    }
    while (bad - good > 1) {
      const std::uint32_t middle = good + (bad - good) / 2;
      (holds_with_lamps(middle) ? good : bad) = middle;
    }
    full_.lamps = good;
    return false;
  }

  bool find_length() {
    constexpr double fine_m = 0.005;
    if (holds_at_length(most_asked_length_m)) return true;
    double good = least_length_m;
    if (!holds_at_length(good)) return false;
    double bad = most_asked_length_m;
    while (bad - good > fine_m) {
      const double middle = (good + bad) / 2;
      (holds_at_length(middle) ? good : bad) = middle;
    }
    full_.length_m = good;
    return false;
  }

  // The lowest tap that holds; where none does, the one with the most volts at the last lamp inside the window's top.
  std::vector<Tried> find_tap() {
    std::vector<double> taps_v = question_.taps_v;
    std::sort(taps_v.begin(), taps_v.end());
    std::vector<Tried> all;
    std::optional<double> chosen_v;
    for (const double tap_v : taps_v) {
      full_.tap_v = tap_v;
      all.push_back(try_question(full_));
      all.back().value = tap_v;
      if (all.back().holds && !chosen_v) chosen_v = tap_v;
    }
    if (!chosen_v) {
      chosen_v = taps_v.front();
      for (const Tried& tried : all) {
        if (tried.worst_high_v <= question_.window_max_v) chosen_v = tried.value;
      }
    }
    full_.tap_v = *chosen_v;
    return all;
  }

  // The thinnest cable that holds; where none does, the thickest.
  std::vector<Tried> find_cable() {
    std::vector<const job::CableItem*> cables;
    for (const job::CableItem& cable : question_.cables) {
      if (cable.ohm_per_m_20c > 0) cables.push_back(&cable);
    }
    std::stable_sort(cables.begin(), cables.end(),
                     [](const job::CableItem* p, const job::CableItem* q) { return p->area_mm2 < q->area_mm2; });
    if (cables.empty()) cables.push_back(&question_.cables.front());
    std::vector<Tried> all;
    const job::CableItem* chosen = nullptr;
    for (const job::CableItem* cable : cables) {
      full_.cable = cable;
      all.push_back(try_question(full_));
      all.back().value = cable->area_mm2;
      all.back().name = cable->title.empty() ? cable->id : cable->title;
      if (all.back().holds && !chosen) chosen = cable;
    }
    full_.cable = chosen ? chosen : cables.back();
    return all;
  }

  const Question& question_;
  FullQuestion full_;
  Asked asked_ = Asked::nothing;
};

}  // namespace

Result<Answer> ask(const Question& question, job::DisplayUnits units) {
  if (const auto error = first_error(question)) return *error;
  const Result<Asked> asked = what_is_asked(question);
  if (!asked) return asked.error();
  Answer answer = Asker(question, asked.value()).run();
  answer.sentence = answer_words(question, answer, units);
  return answer;
}

}  // namespace duskwire::study
