// SPDX-License-Identifier: Apache-2.0
// Seeded faults against the diagnosis: how often the true place comes first, how many readings single it out beside
// half-splitting and random choice, whether stated chances hold; the order of reading against the optimum of small
// cases; time. Prints a table; --quick plays a few gardens only.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>

#include "faulty/garden.hpp"
#include "faulty/problem_of.hpp"
#include "hindsight.hpp"
#include "misses.hpp"
#include "opponents.hpp"
#include "options.hpp"
#include "physics.hpp"
#include "policies.hpp"
#include "small_and_quick.hpp"

namespace duskwire::bench {
namespace {

struct Setting {
  std::string name;
  std::size_t faults = 1;
  faulty::Mischief mischief;
  bool lamps_seen = false;
  bool opponents = false;
  bool alike = false;  // every reading above ground costs the same: then the count of readings is what is asked for
};

constexpr std::array<double, 9> claim_edges{0.02, 0.1, 0.25, 0.5, 0.65, 0.75, 0.85, 0.95, 0.985};  // and up to 1
constexpr std::size_t claim_bins = claim_edges.size();

struct Sums {
  int games = 0;
  std::map<int, int> first;  // after so many readings
  std::map<int, int> third;
  double readings = 0;
  int right = 0;
  Opponents opponents;
  std::array<int, 4> fewest{};  // faults that take none, one, two, more readings in hindsight
  double fewest_ours = 0;       // readings of ours for them, and at least by entropy
  double fewest_bound = 0;
  std::size_t hidden = 0;
  int nothing_left = 0;  // to read above ground, before a bracket was singled out
  int apart_first = 0;   // after five, what no reading above ground tells apart counted as one
  int apart_third = 0;
  int all_first = 0;  // with every reading above ground taken
  int all_third = 0;
  std::array<int, 4> blamed{};  // for misses of the first three
  double bound = 0;             // readings at least: entropy over the most that one reading can say at any step
  double stop_bound = 0;        // less what a stop at 90 % leaves open, over the most that one can say at the beginning
  double stop_bound_any = 0;    // the same over the most at any step
  int sets = 0;
  double sets_held = 0;
  std::array<double, claim_bins> claimed{};
  std::array<int, claim_bins> claims{};
  std::array<int, claim_bins> held{};
  std::map<int, std::array<int, 3>> by_kind;  // first and in the first three after five, of
};

constexpr std::size_t most_readings = 12;

void note(Sums& sums, const Played& played, const faulty::Truth& truth, const Judged& judged) {
  ++sums.games;
  for (const int after : {0, 1, 2, 3, 5}) {
    const std::size_t rank = rank_after(played, static_cast<std::size_t>(after));
    sums.first[after] += rank == 1;
    sums.third[after] += rank <= 3;
  }
  sums.readings += static_cast<double>(played.readings);
  sums.right += played.right;
  sums.nothing_left += played.nothing_left;
  for (const auto& [chance, held] : played.claims) {
    const auto bin = static_cast<std::size_t>(std::upper_bound(claim_edges.begin() + 1, claim_edges.end(), chance) -
                                              claim_edges.begin() - 1);
    sums.claimed[bin] += chance;
    ++sums.claims[bin];
    sums.held[bin] += held;
  }
  if (played.most_bit > 0) sums.bound += played.entropy_bit / played.most_bit;
  const double asked_bit = std::max(0.0, played.entropy_bit - played.stop_bit);
  if (played.first_bit > 0) sums.stop_bound += asked_bit / played.first_bit;
  if (played.most_bit > 0) sums.stop_bound_any += asked_bit / played.most_bit;
  sums.sets += played.sets;
  sums.sets_held += played.sets_held;
  sums.apart_first += judged.rank_apart == 1;
  sums.apart_third += judged.rank_apart <= 3;
  sums.all_first += judged.rank_all == 1;
  sums.all_third += judged.rank_all <= 3;
  ++sums.blamed[static_cast<std::size_t>(judged.blame)];
  auto& kind = sums.by_kind[static_cast<int>(truth.faults.front().kind)];
  kind[0] += rank_after(played, 5) == 1;
  kind[1] += rank_after(played, 5) <= 3;
  ++kind[2];
}

void make_alike(diagnosis::FaultProblem& plan) {
  for (diagnosis::Candidate& one : plan.candidates) {
    if (needs_no_spade(one)) one.effort_min = 1;
  }
}

void run(const Setting& setting, faulty::Shape shape, std::uint32_t lamps, int games, std::uint64_t seed,
         const Options& options, Sums& sums) {
  for (int game = 0; game < games; ++game) {
    // Dice of their own for what is drawn and for what is read, so that other choices meet the same faults.
    const std::uint64_t own = 100000 * seed + 10 * static_cast<std::uint64_t>(game);
    wiring::Dice dice(own);
    wiring::Dice meter(own + 1);
    wiring::Dice other(own + 2);
    const faulty::Garden garden = faulty::make_garden(shape, lamps, dice);
    diagnosis::FaultProblem plan = faulty::problem_of(garden.network, {}, garden.leads);
    if (setting.alike) make_alike(plan);
    const faulty::Truth truth = faulty::make_truth(plan, setting.faults, setting.mischief, dice, &sums.hidden);
    const Played ours = play(plan, truth, Policy::ours, most_readings, setting.mischief, setting.lamps_seen, meter);
    note(sums, ours, truth, judge(plan, truth, ours, 5, options.misses, other));
    if (options.hindsight) {
      ++sums.fewest[static_cast<std::size_t>(fewest_readings(plan, truth, setting.mischief, own + 8))];
      sums.fewest_ours += static_cast<double>(ours.readings);
      if (ours.most_bit > 0) sums.fewest_bound += ours.entropy_bit / ours.most_bit;
    }
    if (!setting.opponents || !options.opponents) continue;
    sums.opponents.face(plan, truth, ours, most_readings, setting.mischief, setting.lamps_seen, own + 3, game % 4 == 0);
  }
}

double share(int part, int whole) { return whole > 0 ? 100.0 * part / whole : 0; }

void print(const std::string& name, const Sums& s) {
  fmt::print("{:<26} {:>5}  first {:>5.1f} % / {:>5.1f} %   in three {:>5.1f} % / {:>5.1f} %   readings {:.2f}", name,
             s.games, share(s.first.at(3), s.games), share(s.first.at(5), s.games), share(s.third.at(3), s.games),
             share(s.third.at(5), s.games), s.readings / s.games);
  fmt::print("   right when sure {:.1f} %\n", share(s.right, s.games));
}

void print_bounds(const Sums& s) {
  fmt::print("\n  entropy bound {:.2f} readings (ours {:.2f} of it)", s.bound / s.games, s.readings / s.bound);
  fmt::print("; of a stop at 90 %, by the best reading at the beginning {:.2f} ({:.2f}), at any step {:.2f} ({:.2f})",
             s.stop_bound / s.games, s.readings / s.stop_bound, s.stop_bound_any / s.games,
             s.readings / s.stop_bound_any);
}

// Wilson's interval of 95 % for a share (from memory); as if each claim were of a fault of its own.
std::pair<double, double> wilson(int held, int of) {
  constexpr double z = 1.96;
  const double n = of;
  const double at = (held + z * z / 2) / (n + z * z);
  const double half = z / (n + z * z) * std::sqrt(held * (n - held) / n + z * z / 4);
  return {at - half, at + half};
}

void print_claims(const Sums& s) {
  fmt::print("  claimed and held:");
  for (std::size_t bin = 0; bin < claim_bins; ++bin) {
    if (s.claims[bin] < 10) continue;
    const auto [low, high] = wilson(s.held[bin], s.claims[bin]);
    fmt::print("  {:.0f} % -> {:.0f} % ({}: {:.0f} to {:.0f} %)", 100 * s.claimed[bin] / s.claims[bin],
               share(s.held[bin], s.claims[bin]), s.claims[bin], 100 * low, 100 * high);
  }
  print_bounds(s);
  fmt::print("\n  90 % sets held {:.1f} % of {}", s.sets > 0 ? 100 * s.sets_held / s.sets : 0, s.sets);
  fmt::print("\n  after 5, what physics cannot tell apart as one: first {:.1f} %, in three {:.1f} %",
             share(s.apart_first, s.games), share(s.apart_third, s.games));
  fmt::print("\n  with every reading above ground taken: first {:.1f} %, in three {:.1f} %",
             share(s.all_first, s.games), share(s.all_third, s.games));
  fmt::print("\n  not in the first three after 5: {} alike in all readings, {} by the choice, {} by the model",
             s.blamed[1], s.blamed[2], s.blamed[3]);
  fmt::print("\n  not singled out, and nothing above ground left that is worth reading: {} of {}", s.nothing_left,
             s.games);
  fmt::print("\n  faults that no reading would show, drawn again: {}\n", s.hidden);
}

void print_hindsight(const Sums& s) {
  const int faults = s.fewest[0] + s.fewest[1] + s.fewest[2] + s.fewest[3];
  if (faults == 0) return;
  const double least = s.fewest[1] + 2.0 * s.fewest[2] + 3.0 * s.fewest[3];
  fmt::print(
      "  in hindsight none {}, one {}, two {}, three or more {}: {:.2f} readings at least, {:.2f} of the entropy "
      "bound; ours {:.2f} of it\n",
      s.fewest[0], s.fewest[1], s.fewest[2], s.fewest[3], least / faults, least / s.fewest_bound,
      s.fewest_ours / least);
}

void print_kinds(const Sums& s) {
  static constexpr const char* names[] = {
      "sound",        "open",        "one conductor", "one conductor", "resistive", "short in a span", "dead lamp",
      "water",        "short lamp",  "added load",    "wrong gauge",   "wrong tap", "weak output",     "tripped",
      "bridged taps", "transformer", "no mains",      "control",       "low mains", "crossed"};
  fmt::print("  first / in three / of, after 5, by fault:");
  for (const auto& [kind, counts] : s.by_kind) {
    fmt::print("  {} {}/{}/{}", names[kind], counts[0], counts[1], counts[2]);
  }
  fmt::print("\n");
}

void merge(Sums& into, const Sums& one) {
  into.games += one.games;
  for (const auto& [k, n] : one.first) into.first[k] += n;
  for (const auto& [k, n] : one.third) into.third[k] += n;
  into.readings += one.readings;
  into.right += one.right;
  into.opponents.merge(one.opponents);
  for (std::size_t k = 0; k < into.fewest.size(); ++k) into.fewest[k] += one.fewest[k];
  into.fewest_ours += one.fewest_ours;
  into.fewest_bound += one.fewest_bound;
  into.hidden += one.hidden;
  into.nothing_left += one.nothing_left;
  into.apart_first += one.apart_first;
  into.apart_third += one.apart_third;
  into.all_first += one.all_first;
  into.all_third += one.all_third;
  for (std::size_t k = 0; k < into.blamed.size(); ++k) into.blamed[k] += one.blamed[k];
  into.bound += one.bound;
  into.stop_bound += one.stop_bound;
  into.stop_bound_any += one.stop_bound_any;
  into.sets += one.sets;
  into.sets_held += one.sets_held;
  for (std::size_t b = 0; b < claim_bins; ++b) {
    into.claimed[b] += one.claimed[b];
    into.claims[b] += one.claims[b];
    into.held[b] += one.held[b];
  }
  for (const auto& [k, n] : one.by_kind) {
    for (std::size_t i = 0; i < n.size(); ++i) into.by_kind[k][i] += n[i];
  }
}

}  // namespace

void run_all(const Options& options) {
  static constexpr const char* shapes[] = {"chain", "tee", "hub", "loop"};
  std::vector<Setting> settings = {{"single", 1, {}, false, true},
                                   {"readings alike", 1, {}, false, true, true},
                                   {"lamps seen first", 1, {}, true, false},
                                   {"one reading in 20 wrong", 1, {0.05, 0}, false, false},
                                   {"lengths off by 10 %", 1, {0, 0.10}, false, false},
                                   {"two faults", 2, {}, false, false}};
  for (const Setting& setting : settings) {
    if (setting.name.rfind(options.setting, 0) != 0) continue;
    Sums all;
    Sums middling;  // the sizes for which the entropy bound is asked
    for (int shape = 0; shape < 4; ++shape) {
      if (!options.shape.empty() && options.shape != shapes[shape]) continue;
      Opponents in_this_shape;
      for (const auto& [lamps, games] : {std::pair{8U, 24}, {16U, 20}, {30U, 12}, {60U, 6}, {120U, 2}}) {
        const auto& sizes = options.lamps;
        if (!sizes.empty() && std::find(sizes.begin(), sizes.end(), lamps) == sizes.end()) continue;
        Sums sums;
        run(setting, static_cast<faulty::Shape>(shape), lamps,
            options.faults_each > 0 ? options.faults_each : std::max(1, games * options.scale / 4),
            1000 * static_cast<std::uint64_t>(shape) + lamps, options, sums);
        if (setting.opponents) print(fmt::format("  {} of {}", shapes[shape], lamps), sums);
        in_this_shape.merge(sums.opponents);
        merge(all, sums);
        if (lamps == 30 || lamps == 60) merge(middling, sums);
      }
      if (in_this_shape.games > 0 && options.shape.empty()) fmt::print("  all of shape {}:\n", shapes[shape]);
      if (options.shape.empty()) in_this_shape.print();
    }
    if (all.games == 0) continue;
    print(setting.name, all);
    all.opponents.print();
    print_claims(all);
    print_hindsight(all);
    if (middling.bound > 0) {
      fmt::print("  30 to 60 lamps, {} faults, {:.2f} readings:", middling.games, middling.readings / middling.games);
      print_bounds(middling);
      fmt::print("\n");
      print_hindsight(middling);
    }
    print_kinds(all);
  }
}

}  // namespace duskwire::bench

int main(int count, char** arguments) {
  const duskwire::bench::Options options = duskwire::bench::options_of(count, arguments);
  fmt::print("after 3 / after 5 readings; readings: mean until one bracket is likelier than 90 %\n");
  if (options.time) duskwire::bench::print_time(options.shape);
  if (options.small_cases > 0) {
    duskwire::bench::print_small_cases(options.small_cases);
    duskwire::bench::print_many_causes(options.small_cases);
  }
  if (options.faults) duskwire::bench::run_all(options);
}
