// SPDX-License-Identifier: Apache-2.0
// Seeded faults against the diagnosis: how often the true place comes first, how many readings single it out beside
// half-splitting and random choice, whether stated chances hold; the order of reading against the optimum of small
// cases; time. Prints a table; --quick plays a few gardens only.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string>

#include "faulty/garden.hpp"
#include "faulty/problem_of.hpp"
#include "misses.hpp"
#include "options.hpp"
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
};

constexpr std::array<double, 9> claim_edges{0.02, 0.1, 0.25, 0.5, 0.65, 0.75, 0.85, 0.95, 0.985};  // and up to 1
constexpr std::size_t claim_bins = claim_edges.size();

struct Sums {
  int games = 0;
  std::map<int, int> first;  // after so many readings
  std::map<int, int> third;
  double readings = 0;
  int right = 0;
  double half = 0;
  double random = 0;
  int random_games = 0;
  std::size_t hidden = 0;
  int nothing_left = 0;  // to read above ground, before a bracket was singled out
  int apart_first = 0;   // after five, what no reading above ground tells apart counted as one
  int apart_third = 0;
  int all_first = 0;  // with every reading above ground taken
  int all_third = 0;
  std::array<int, 4> blamed{};  // for misses of the first three
  double bound = 0;             // readings at least: entropy over the most that one reading can say
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

void run(const Setting& setting, faulty::Shape shape, std::uint32_t lamps, int games, std::uint64_t seed, bool misses,
         Sums& sums) {
  for (int game = 0; game < games; ++game) {
    // Dice of their own for what is drawn and for what is read, so that other choices meet the same faults.
    const std::uint64_t own = 100000 * seed + 10 * static_cast<std::uint64_t>(game);
    wiring::Dice dice(own);
    wiring::Dice meter(own + 1);
    wiring::Dice other(own + 2);
    const faulty::Garden garden = faulty::make_garden(shape, lamps, dice);
    const diagnosis::FaultProblem plan = faulty::problem_of(garden.network, {}, garden.leads);
    const faulty::Truth truth = faulty::make_truth(plan, setting.faults, setting.mischief, dice, &sums.hidden);
    const Played ours = play(plan, truth, Policy::ours, most_readings, setting.mischief, setting.lamps_seen, meter);
    note(sums, ours, truth, judge(plan, truth, ours, 5, misses, other));
    if (!setting.opponents) continue;
    sums.half += static_cast<double>(ideal_half_split(plan, truth));
    if (game % 4 == 0) {
      const Played random = play(plan, truth, Policy::random, 30, setting.mischief, setting.lamps_seen, other);
      sums.random += static_cast<double>(random.readings);
      ++sums.random_games;
    }
  }
}

double share(int part, int whole) { return whole > 0 ? 100.0 * part / whole : 0; }

void print(const std::string& name, const Sums& s) {
  fmt::print("{:<26} {:>5}  first {:>5.1f} % / {:>5.1f} %   in three {:>5.1f} % / {:>5.1f} %   readings {:.2f}", name,
             s.games, share(s.first.at(3), s.games), share(s.first.at(5), s.games), share(s.third.at(3), s.games),
             share(s.third.at(5), s.games), s.readings / s.games);
  if (s.half > 0) {
    fmt::print("   half-split {:.2f} (ours {:.2f} of it)", s.half / s.games, s.readings / s.half);
  }
  if (s.random_games > 0) fmt::print("   random {:.1f}", s.random / s.random_games);
  fmt::print("   right when sure {:.1f} %\n", share(s.right, s.games));
}

void print_claims(const Sums& s) {
  fmt::print("  claimed and held:");
  for (std::size_t bin = 0; bin < claim_bins; ++bin) {
    if (s.claims[bin] < 10) continue;
    fmt::print("  {:.0f} % -> {:.0f} % ({})", 100 * s.claimed[bin] / s.claims[bin], share(s.held[bin], s.claims[bin]),
               s.claims[bin]);
  }
  fmt::print("\n  entropy bound {:.2f} readings (ours {:.2f} of it)", s.bound / s.games, s.readings / s.bound);
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
  into.half += one.half;
  into.random += one.random;
  into.random_games += one.random_games;
  into.hidden += one.hidden;
  into.nothing_left += one.nothing_left;
  into.apart_first += one.apart_first;
  into.apart_third += one.apart_third;
  into.all_first += one.all_first;
  into.all_third += one.all_third;
  for (std::size_t k = 0; k < into.blamed.size(); ++k) into.blamed[k] += one.blamed[k];
  into.bound += one.bound;
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
      for (const auto& [lamps, games] : {std::pair{8U, 24}, {16U, 20}, {30U, 12}, {60U, 6}, {120U, 2}}) {
        if (options.lamps > 0 && options.lamps != lamps) continue;
        Sums sums;
        run(setting, static_cast<faulty::Shape>(shape), lamps, std::max(1, games * options.scale / 4),
            1000 * static_cast<std::uint64_t>(shape) + lamps, options.misses, sums);
        if (setting.opponents) print(fmt::format("  {} of {}", shapes[shape], lamps), sums);
        merge(all, sums);
        if (lamps == 30 || lamps == 60) merge(middling, sums);
      }
    }
    if (all.games == 0) continue;
    print(setting.name, all);
    print_claims(all);
    if (middling.bound > 0) {
      fmt::print("  30 to 60 lamps, {} faults: entropy bound {:.2f} readings (ours {:.2f} of it)\n", middling.games,
                 middling.bound / middling.games, middling.readings / middling.bound);
    }
    print_kinds(all);
  }
}

}  // namespace duskwire::bench

int main(int count, char** arguments) {
  const duskwire::bench::Options options = duskwire::bench::options_of(count, arguments);
  fmt::print("after 3 / after 5 readings; readings: mean until one bracket is likelier than 90 %\n");
  if (options.time) duskwire::bench::print_time(options.shape);
  if (options.small_cases > 0) duskwire::bench::print_small_cases(options.small_cases);
  if (options.faults) duskwire::bench::run_all(options);
}
