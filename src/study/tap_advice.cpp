// SPDX-License-Identifier: Apache-2.0
// Which tap for each output: the lowest that keeps every lamp inside its window and in regulation at nominal and in
// every corner, with a reserve to collapse. docs/algorithms/advice.md says why the lowest.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/advice_parts.hpp"
#include "study/number_troubles.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Rounds of choosing: outputs that share a winding pull each other's volts down, a little.
constexpr int most_rounds = 4;
constexpr double same_v = 1e-9;

std::vector<double> taps_of(const job::Job& job, const job::Transformer& transformer, double present_v) {
  const job::TransformerItem* item = job::find_transformer(job.catalogue, transformer.item);
  std::vector<double> taps_v = item ? item->taps_v : std::vector<double>();
  std::erase_if(taps_v, [](double tap_v) { return !(tap_v > 0); });
  if (taps_v.empty()) taps_v.push_back(present_v);
  std::sort(taps_v.begin(), taps_v.end());
  return taps_v;
}

// Numbers of one output on one tap, put together lamp by lamp.
class TapJudge {
 public:
  TapJudge(const Built& built, const Numbers& numbers, std::uint32_t output)
      : built_(built), numbers_(numbers), output_(output) {}

  TapVerdict run(electrical::Workspace& workspace) {
    verdict_.tap_v = electrical::network_of(*built_.prepared).outputs[output_].emf_v;
    verdict_.current_a = numbers_.outputs[output_].current_a;
    for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) {
      if (is_mine(i)) take_lamp(i);
    }
    find_margins(workspace);
    const bool inside = low_lamp_ == none || verdict_.low_room_v >= -same_v;
    verdict_.fits = inside && (verdict_.high_room_lamp.empty() || verdict_.high_room_v >= -same_v);
    verdict_.reason = reason();
    return std::move(verdict_);
  }

 private:
  [[nodiscard]] bool is_mine(std::uint32_t lamp) const {
    return built_.lamps[lamp].counts && built_.supply[built_.node_of_luminaire(lamp)].output == output_;
  }
  [[nodiscard]] const std::string& id(std::uint32_t lamp) const { return built_.job->luminaires[lamp].id; }
  [[nodiscard]] std::string words(std::uint32_t corner) const {
    return corner_words(built_.corners[corner], built_.corners.front());
  }

  void take_lamp(std::uint32_t i) {
    const LampNumbers& numbers = numbers_.lamps[i];
    const Lamp& lamp = built_.lamps[i];
    if (verdict_.lowest_lamp.empty() || numbers.low_v < verdict_.lowest_v) {
      verdict_.lowest_v = numbers.low_v;
      verdict_.lowest_lamp = id(i);
      verdict_.lowest_corner = words(numbers.low_corner);
    }
    if (verdict_.highest_lamp.empty() || numbers.high_v > verdict_.highest_v) {
      verdict_.highest_v = numbers.high_v;
      verdict_.highest_lamp = id(i);
      verdict_.highest_corner = words(numbers.high_corner);
    }
    if (low_lamp_ == none || numbers.low_v - lamp.floor_v < verdict_.low_room_v) {
      low_lamp_ = i;
      verdict_.low_room_v = numbers.low_v - lamp.floor_v;
      verdict_.low_room_lamp = id(i);
    }
    if (lamp.window_max_v <= 0) return;
    if (high_lamp_ == none || lamp.window_max_v - numbers.high_v < verdict_.high_room_v) {
      high_lamp_ = i;
      verdict_.high_room_v = lamp.window_max_v - numbers.high_v;
      verdict_.high_room_lamp = id(i);
    }
  }

  // With the lamps of all other outputs off: they have margins of their own.
  void find_margins(electrical::Workspace& workspace) {
    electrical::Condition mine = built_.nominal;
    if (mine.load_level.empty()) mine.load_level.assign(built_.lamps.size(), 1.0F);
    for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) {
      if (built_.supply[built_.node_of_luminaire(i)].output != output_) mine.load_level[i] = 0;
    }
    verdict_.load_margin = electrical::load_margin(*built_.prepared, mine, workspace).factor;
    verdict_.length_margin = electrical::length_margin(*built_.prepared, mine, workspace).factor;
  }

  [[nodiscard]] std::string reason() const {
    if (low_lamp_ == none) return "no lamp is on";
    const LampNumbers& low = numbers_.lamps[low_lamp_];
    if (verdict_.low_room_v < -same_v) {
      const WordedPair volts = worded_apart(low.low_v, built_.lamps[low_lamp_].floor_v, volt_unit);
      return fmt::format("{} falls to {} ({}), below {}", id(low_lamp_), volts.measured, words(low.low_corner),
                         volts.limit);
    }
    if (high_lamp_ != none && verdict_.high_room_v < -same_v) {
      const LampNumbers& high = numbers_.lamps[high_lamp_];
      const WordedPair volts = worded_apart(high.high_v, built_.lamps[high_lamp_].window_max_v, volt_unit);
      return fmt::format("{} rises to {} ({}), above {}", id(high_lamp_), volts.measured, words(high.high_corner),
                         volts.limit);
    }
    return fmt::format("every lamp stays inside its window, from {} at {} to {} at {}",
                       worded(verdict_.lowest_v, volt_unit), verdict_.lowest_lamp,
                       worded(verdict_.highest_v, volt_unit), verdict_.highest_lamp);
  }

  const Built& built_;
  const Numbers& numbers_;
  std::uint32_t output_;
  TapVerdict verdict_;
  std::uint32_t low_lamp_ = none;
  std::uint32_t high_lamp_ = none;
};

TapVerdict judge_tap(const job::Job& job, std::uint32_t output) {
  const Built built = build(job);
  const electrical::WorkspacePtr workspace = electrical::make_workspace(*built.prepared);
  Scope scope;
  scope.margins = scope.shorts = false;
  const Numbers numbers = analyse(built, *workspace, scope);
  return TapJudge(built, numbers, output).run(*workspace);
}

bool has_reserve(const TapVerdict& tap) { return tap.load_margin >= least_margin && tap.length_margin >= least_margin; }

TapVerdict* lowest_that_does(std::vector<TapVerdict>& taps) {
  const auto with_reserve =
      std::find_if(taps.begin(), taps.end(), [](const TapVerdict& tap) { return tap.fits && has_reserve(tap); });
  if (with_reserve != taps.end()) return &*with_reserve;
  const auto any = std::find_if(taps.begin(), taps.end(), [](const TapVerdict& tap) { return tap.fits; });
  return any == taps.end() ? nullptr : &*any;
}

std::string reserve_words(const TapVerdict& tap) {
  const double factor = std::min(tap.load_margin, tap.length_margin);
  if (factor <= 0) return "a lamp is out of regulation";
  return fmt::format("{:.0f} % more load or length puts a lamp out of regulation", 100 * (factor - 1));
}

std::string reason_of(const TapAdvice& advice, const TapVerdict* chosen) {
  if (!chosen) {
    const TapVerdict& highest = advice.taps.back();
    return fmt::format("No tap of {} keeps every lamp of {} inside its window; on tap {:g} {}.", advice.transformer,
                       advice.output, highest.tap_v, highest.reason);
  }
  const auto below = std::find_if(advice.taps.rbegin(), advice.taps.rend(),
                                  [&](const TapVerdict& tap) { return tap.tap_v < chosen->tap_v; });
  const bool has_below = below != advice.taps.rend();
  std::string text =
      fmt::format("Tap {:g} is the lowest that keeps every lamp of {} inside its window in every corner{} ({} to {})",
                  chosen->tap_v, advice.output, has_below && below->fits ? " with a reserve" : "",
                  worded(chosen->lowest_v, volt_unit), worded(chosen->highest_v, volt_unit));
  if (has_below) {
    const std::string why = below->fits ? reserve_words(*below) : below->reason;
    text += fmt::format("; on tap {:g} {}", below->tap_v, why);
  }
  if (!has_reserve(*chosen)) text += "; it is close to collapse: " + reserve_words(*chosen);
  return text + ".";
}

class TapAdviser {
 public:
  explicit TapAdviser(const job::Job& job) : job_(job), trial_(job), built_(build(trial_)) {}

  std::vector<TapAdvice> run() {
    const Numbers numbers = analyse(built_, {false, false, false});
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) {
      if (numbers.outputs[o].lamp_count > 0) used_.push_back(o);
    }
    std::vector<TapAdvice> all(used_.size());
    for (int round = 0; round < most_rounds; ++round) {
      bool moved = false;
      for (std::size_t k = 0; k < used_.size(); ++k) {
        all[k] = advise_output(used_[k]);
        moved = settle(all[k], used_[k]) || moved;
      }
      if (!moved) break;
    }
    return all;
  }

 private:
  job::Output& output(std::uint32_t o) {
    const OutputRef ref = built_.outputs[o];
    return trial_.transformers[ref.transformer].outputs[ref.output];
  }

  TapAdvice advise_output(std::uint32_t o) {
    const OutputRef ref = built_.outputs[o];
    const job::Transformer& transformer = trial_.transformers[ref.transformer];
    const job::Output& present = job_.transformers[ref.transformer].outputs[ref.output];
    TapAdvice advice;
    advice.output = present.id;
    advice.transformer = transformer.id;
    advice.present_tap_v = present.tap_v;
    const double settled_v = output(o).tap_v;
    for (const double tap_v : taps_of(trial_, transformer, present.tap_v)) {
      output(o).tap_v = tap_v;
      advice.taps.push_back(judge_tap(trial_, o));
      advice.taps.back().present = std::abs(tap_v - present.tap_v) < same_v;
    }
    output(o).tap_v = settled_v;
    TapVerdict* chosen = lowest_that_does(advice.taps);
    if (chosen) {
      chosen->chosen = true;
      advice.chosen_tap_v = chosen->tap_v;
      if (!chosen->present) advice.changes = {{job::ChangeKind::set_tap, present.id, "", "", chosen->tap_v}};
    }
    advice.reason = reason_of(advice, chosen);
    return advice;
  }

  // The next outputs are judged with this one on its advised tap. True if that is new.
  bool settle(const TapAdvice& advice, std::uint32_t o) {
    const double tap_v = advice.chosen_tap_v.value_or(advice.present_tap_v);
    const bool moved = std::abs(output(o).tap_v - tap_v) >= same_v;
    output(o).tap_v = tap_v;
    return moved;
  }

  const job::Job& job_;
  job::Job trial_;
  Built built_;
  std::vector<std::uint32_t> used_;
};

}  // namespace

std::vector<TapAdvice> advise_taps(const job::Job& job) { return TapAdviser(job).run(); }

}  // namespace duskwire::study
