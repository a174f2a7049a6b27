// SPDX-License-Identifier: Apache-2.0
#include "opponents.hpp"

#include <fmt/format.h>

#include "half_split.hpp"

namespace duskwire::bench {

void Effort::add(double more_readings, double more_opened, double more_minutes) {
  readings += more_readings;
  opened += more_opened;
  minutes += more_minutes;
}

namespace {

Effort effort_of(const Found& found) {
  return {static_cast<double>(found.readings), static_cast<double>(found.opened), found.minutes};
}

Effort effort_of(const Practised& practised) {
  return {static_cast<double>(practised.readings), static_cast<double>(practised.opened), practised.minutes};
}

}  // namespace

void Opponents::face(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, const Played& played,
                     std::size_t most, const faulty::Mischief& mischief, bool lamps_seen, std::uint64_t seed,
                     bool with_random) {
  const Points points(plan);
  wiring::Dice goes_on(seed);
  wiring::Dice falls_back(seed + 1);
  wiring::Dice by_volts_dice(seed + 2);
  wiring::Dice by_look_dice(seed + 3);
  ++games;
  ours += static_cast<double>(played.readings);
  ideal += static_cast<double>(ideal_half_split(points, truth));
  const Effort own = effort_of(pursue(plan, truth, played, Policy::ours, most, mischief, goes_on));
  ours_found.add(own);
  const Played half = play(plan, truth, Policy::half, most, mischief, lamps_seen, falls_back);
  fallback += static_cast<double>(half.readings);
  fallback_found.add(effort_of(pursue(plan, truth, half, Policy::half, most, mischief, falls_back)));
  const Practised volts = practised_half_split(plan, points, truth, false, mischief, by_volts_dice);
  by_volts.add(effort_of(volts));
  misled_volts += volts.misled;
  const Practised look = practised_half_split(plan, points, truth, true, mischief, by_look_dice);
  by_look.add(effort_of(look));
  misled_look += look.misled;
  if (!look.misled) {
    ours_unmisled += own.steps();
    look_unmisled += effort_of(look).steps();
  }
  digging_min += digging_only_min(plan, truth);
  if (!with_random) return;
  constexpr std::size_t most_at_random = 30;
  wiring::Dice other(seed + 4);
  random +=
      static_cast<double>(play(plan, truth, Policy::random, most_at_random, mischief, lamps_seen, other).readings);
  ++random_games;
}

void Opponents::merge(const Opponents& other) {
  games += other.games;
  ours += other.ours;
  ideal += other.ideal;
  fallback += other.fallback;
  ours_found.add(other.ours_found);
  fallback_found.add(other.fallback_found);
  by_volts.add(other.by_volts);
  by_look.add(other.by_look);
  misled_volts += other.misled_volts;
  misled_look += other.misled_look;
  ours_unmisled += other.ours_unmisled;
  look_unmisled += other.look_unmisled;
  digging_min += other.digging_min;
  random += other.random;
  random_games += other.random_games;
}

void Opponents::print() const {
  if (games == 0) return;
  fmt::print("  to 90 %: ours {:.2f}, ideal half-split {:.2f} (ours {:.2f} of it), the tool's fallback {:.2f} ({:.2f})",
             ours / games, ideal / games, ours / ideal, fallback / games, ours / fallback);
  if (random_games > 0) fmt::print(", random {:.1f}", random / random_games);
  fmt::print("\n  until the fault lies open, readings + openings in vain, minutes:\n");
  const auto line = [&](const char* name, const Effort& effort) {
    fmt::print("    {:<32} {:>5.2f} + {:.2f}  {:>6.1f} min  ours {:.2f} of the steps, {:.2f} of the minutes\n", name,
               effort.readings / games, effort.opened / games, effort.minutes / games,
               ours_found.steps() / effort.steps(), ours_found.minutes / effort.minutes);
  };
  line("ours", ours_found);
  line("the tool's fallback", fallback_found);
  line("half-split by volts", by_volts);
  line("half-split after a look", by_look);
  fmt::print(
      "    misled: {} of {} by volts, {} after a look; of those not misled after a look ours {:.2f} of the steps\n",
      misled_volts, games, misled_look, look_unmisled > 0 ? ours_unmisled / look_unmisled : 0);
  fmt::print("    digging alone by chance over effort {:.1f} min (ours {:.2f} of it)\n", digging_min / games,
             ours_found.minutes / digging_min);
}

}  // namespace duskwire::bench
