// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "sites/lots.hpp"
#include "sites/optimum.hpp"
#include "sites/stock.hpp"
#include "tables.hpp"

namespace duskwire::bench {
namespace {

constexpr double minor_per_unit = 100;
const estimate::InstallRates rates;

class Table {
 public:
  void row(std::uint32_t lamps, std::uint64_t seed, const TableOptions& options) {
    const job::Job site = sites::open_lawn({lamps, seed}, sites::stock());
    const double seconds = options.seconds > 0 ? options.seconds : 2;
    const Stopwatch watch(options.of_processor);
    study::Router router(site, sites::us_rules(), sites::stock(), {});
    router.improve([&] { return watch.s() < seconds; });
    const study::RouteAnswer answer = router.answer();
    if (!answer.job) {
      fmt::print("| {} | {} | none |\n", lamps, seed);
      return;
    }
    const double planner = sites::plain_cost_minor(*answer.job, sites::stock(), rates);
    sites::OptimumOptions proof;
    proof.seconds = options.proof_seconds;
    for (const job::Cable& cable : answer.job->cables) proof.ways_kept.push_back(cable.path);
    for (const job::Joint& joint : answer.job->joints) {
      if (joint.position) proof.joints_kept.push_back(*joint.position);
    }
    proof.known_cost_minor = planner;
    const Stopwatch proof_watch;
    const auto best = sites::optimum(site, sites::stock(), rates, proof);
    if (!best) {
      fmt::print("| {} | {} | {:.2f} | none |\n", lamps, seed, planner / minor_per_unit);
      return;
    }
    const double gap_pct = 100 * (planner / best->bound_minor - 1);
    fmt::print("| {} | {} | {:.2f} | {:.2f} | {:.2f} | {:.2f} | {} | {} | {:.0f} |\n", lamps, seed,
               planner / minor_per_unit, best->cost_minor / minor_per_unit, best->bound_minor / minor_per_unit, gap_pct,
               best->proven ? "yes" : "no", best->sound ? "yes" : "no", proof_watch.s());
    std::fflush(stdout);
    sum_pct_ += gap_pct;
    worst_pct_ = std::max(worst_pct_, gap_pct);
    ++count_;
  }

  void end() const {
    if (count_ > 0)
      fmt::print("\nMean gap to the bound {:.2f} %, worst {:.2f} %, {} sites.\n", sum_pct_ / count_, worst_pct_,
                 count_);
  }

 private:
  double sum_pct_ = 0;
  double worst_pct_ = 0;
  int count_ = 0;
};

}  // namespace

void print_optima(const TableOptions& options) {
  fmt::print(
      "Installed cost without fixtures, nothing rounded up, in units of the currency. Method and what \"optimum\" "
      "means\n"
      "here: docs/algorithms/planner-optimum.md. Sound: whether the optimum would pass a check, which it need not.\n\n"
      "| lamps | seed | planner | cheapest known | bound | gap to bound % | proven | sound | s |\n"
      "| ---: | ---: | ---: | ---: | ---: | ---: | --- | --- | ---: |\n");
  const std::vector<std::uint32_t> usual{4, 5, 6, 8};
  Table table;
  for (const std::uint32_t lamps : options.sizes.empty() ? usual : options.sizes) {
    for (std::uint64_t i = 0; i < (options.seeds > 0 ? options.seeds : 2); ++i) {
      table.row(lamps, options.first_seed + i, options);
    }
  }
  table.end();
}

}  // namespace duskwire::bench
