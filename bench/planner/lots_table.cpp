// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <map>
#include <optional>

#include "sites/baselines.hpp"
#include "sites/fixture_cost.hpp"
#include "sites/lots.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "tables.hpp"

namespace duskwire::bench {
namespace {

constexpr double minor_per_unit = 100;
const estimate::InstallRates rates;

struct Size {
  std::uint32_t lamps;
  std::uint32_t seeds;
  double seconds;
};
constexpr std::array<Size, 8> usual{
    {{10, 5, 2}, {20, 5, 2}, {40, 5, 2}, {80, 5, 4}, {150, 3, 10}, {400, 2, 20}, {1000, 1, 40}, {2000, 1, 55}}};

Size size_for(std::uint32_t lamps, const TableOptions& options) {
  Size size = usual.back();
  for (std::size_t i = usual.size(); i-- > 0;) {
    if (lamps <= usual[i].lamps) size = usual[i];
  }
  size.lamps = lamps;
  if (options.seeds > 0) size.seeds = options.seeds;
  if (options.seconds > 0) size.seconds = options.seconds;
  return size;
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  constexpr double kb_per_mb = 1024;
  return static_cast<double>(usage.ru_maxrss) / kb_per_mb;
}

struct Planned {
  study::RouteAnswer answer;
  double first_s = 0;  // until the first wiring
  double whole_s = 0;  // until the last one is checked
  double peak_mb = 0;
};

Planned planned(const job::Job& site, std::uint64_t seed, double seconds, bool of_processor) {
  study::RouteRequest request;
  request.seed = seed;
  const Stopwatch watch(of_processor);
  study::Router router(site, sites::us_rules(), sites::stock(), request);
  Planned planned;
  router.improve([] { return false; });
  planned.first_s = watch.s();
  router.improve([&] { return watch.s() < seconds; });
  planned.answer = router.answer();
  planned.whole_s = watch.s();
  planned.peak_mb = peak_mb();
  return planned;
}

// By the full solver at every corner, not by the planner's word.
bool is_sound(const job::Job& job) {
  const study::Report report = study::check(job, sites::us_rules(), sites::stock(), {.cures = false});
  return report.sound && std::all_of(report.lamps.begin(), report.lamps.end(), [](const study::LampReport& lamp) {
           return !lamp.output.empty() && lamp.worst_low_v >= lamp.window_min_v &&
                  lamp.worst_high_v <= lamp.window_max_v;
         });
}

class Table {
 public:
  void row(const Size& size, std::uint64_t seed, bool of_processor) {
    const job::Job site = sites::lot({size.lamps, seed}, sites::stock());
    const double fixtures = sites::fixture_cost_minor(site, sites::stock(), rates);
    const Planned plan = planned(site, seed, size.seconds, of_processor);
    const estimate::InstalledCost& cost = plan.answer.planned.cost;
    const double wiring = static_cast<double>(cost.cost_minor) - fixtures;
    std::string habits;
    std::optional<double> best;
    for (const sites::Habit habit : sites::habits) {
      const auto other = sites::baseline(habit, site, sites::us_rules(), sites::stock(), rates);
      const double minor = other ? static_cast<double>(other->cost.cost_minor) - fixtures : 0;
      habits += other ? fmt::format(" {:.0f} |", minor / minor_per_unit) : " none |";
      if (other && (!best || minor < *best)) best = minor;
    }
    const bool sound = plan.answer.job && is_sound(*plan.answer.job);
    std::string saving = "";
    if (best && sound) {
      const double saving_pct = 100 * (1 - wiring / *best);
      saving = fmt::format("{:.1f}", saving_pct);
      savings_pct_[size.lamps].push_back(saving_pct);
    }
    fmt::print("| {} | {} | {:.0f} | {:.0f} | {:.0f} | {:.0f} | {} | {} |{} {} | {:.2f} | {:.1f} | {:.0f} | {} |\n",
               size.lamps, seed, fixtures / minor_per_unit, wiring / minor_per_unit, cost.trench_m, cost.cable_m,
               cost.joints, plan.answer.planned.transformers, habits, saving, plan.first_s, plan.whole_s, plan.peak_mb,
               sound ? "yes" : "no");
    std::fflush(stdout);
  }

  void end() const {
    fmt::print("\n| lamps | mean saving % | least | sites |\n| ---: | ---: | ---: | ---: |\n");
    for (const auto& [lamps, all] : savings_pct_) {
      double sum = 0;
      for (const double one : all) sum += one;
      fmt::print("| {} | {:.1f} | {:.1f} | {} |\n", lamps, sum / static_cast<double>(all.size()),
                 *std::min_element(all.begin(), all.end()), all.size());
    }
  }

 private:
  std::map<std::uint32_t, std::vector<double>> savings_pct_;
};

}  // namespace

void print_lots(const TableOptions& options) {
  fmt::print(
      "Installed cost in units of the currency, an estimate: fixtures are the same for all, the others without them.\n"
      "Saving: against the cheapest of the three habits. Memory: the peak of the process so far.\n\n"
      "| lamps | seed | fixtures | planner | trench m | cable m | joints | transformers | chain | spanning tree | hubs "
      "| "
      "saving % | first s | s | MB | sound |\n"
      "| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | --- "
      "|\n");
  std::vector<std::uint32_t> sizes = options.sizes;
  if (sizes.empty()) {
    for (const Size& size : usual) sizes.push_back(size.lamps);
  }
  Table table;
  for (const std::uint32_t lamps : sizes) {
    const Size size = size_for(lamps, options);
    for (std::uint64_t i = 0; i < size.seeds; ++i) table.row(size, options.first_seed + i, options.of_processor);
  }
  table.end();
}

}  // namespace duskwire::bench
