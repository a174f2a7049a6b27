// SPDX-License-Identifier: Apache-2.0
#include "sites/habit_trees.hpp"

#include <algorithm>
#include <limits>
#include <unordered_map>

#include "wiring/graph.hpp"

namespace duskwire::sites {
namespace {

using geometry::Point2;

constexpr std::size_t unset = std::numeric_limits<std::size_t>::max();

class Shaper {
 public:
  Shaper(const job::Job& site, SiteWays& ways, const std::vector<std::size_t>& places, double most_va)
      : site_(site), ways_(ways), places_(places), most_va_(most_va) {
    for (const job::Luminaire& lamp : site.luminaires) {
      const job::LuminaireItem* item = job::find_luminaire(site.catalogue, lamp.item);
      load_va_.push_back(item ? item->power_va : 0);
    }
    for (std::size_t lamp = 0; lamp < load_va_.size(); ++lamp) lamp_at_.emplace(ways.node_of_lamp(lamp), lamp);
    ways.fill_in();
  }

  // False where a lamp cannot be reached.
  bool share_out() {
    std::vector<std::uint32_t> beginnings;
    std::unordered_map<std::uint32_t, std::size_t> place_at;
    for (const std::size_t place : places_) {
      beginnings.push_back(ways_.node_of_place(place));
      place_at.emplace(beginnings.back(), place);
    }
    place_of_.assign(load_va_.size(), unset);
    ways_.start(beginnings);
    std::size_t left = load_va_.size();
    while (left > 0) {
      const auto reached = ways_.next();
      if (!reached) return false;
      const std::size_t lamp = lamp_at(reached->second);
      if (lamp == unset) continue;
      place_of_[lamp] = place_at.at(ways_.beginning_of(reached->second));
      --left;
    }
    return true;
  }

  // From the place to the nearest lamp, on to the nearest that is left, until the run is full.
  void chains(std::size_t place) {
    std::vector<char> left = lamps_of(place);
    auto count = static_cast<std::size_t>(std::count(left.begin(), left.end(), 1));
    while (count > 0) {
      HabitRun run;
      run.place = place;
      std::uint32_t from = ways_.node_of_place(place);
      while (count > 0) {
        const std::size_t lamp = nearest(from, left);
        if (!run.lamps.empty() && run.load_va + load_va_[lamp] > most_va_) break;
        hang(run, lamp, run.lamps.empty() ? std::nullopt : std::optional(run.lamps.size() - 1));
        left[lamp] = 0;
        --count;
        from = ways_.node_of_lamp(lamp);
      }
      runs_.push_back(std::move(run));
    }
  }

  // Prim's tree from the place. Where a branch is full, the next lamp begins a run of its own.
  void spanning_tree(std::size_t place) {
    std::vector<char> left = lamps_of(place);
    const std::vector<std::vector<std::pair<double, std::size_t>>> near = near_lamps(left);
    struct Best {
      double cost = std::numeric_limits<double>::infinity();
      std::size_t run = unset;
      std::size_t on = unset;
    };
    std::vector<Best> best(load_va_.size());
    const std::vector<double> from_place = costs_from(ways_.node_of_place(place));
    for (std::size_t lamp = 0; lamp < best.size(); ++lamp) {
      if (left[lamp] != 0) best[lamp].cost = from_place[lamp];
    }
    while (true) {
      std::size_t next = unset;
      for (std::size_t lamp = 0; lamp < best.size(); ++lamp) {
        if (left[lamp] != 0 && (next == unset || best[lamp].cost < best[next].cost)) next = lamp;
      }
      if (next == unset) return;
      left[next] = 0;
      Best joined = best[next];
      if (joined.run != unset && runs_[joined.run].load_va + load_va_[next] > most_va_) joined = {};
      if (joined.run == unset) {
        joined.run = runs_.size();
        runs_.push_back({place, 0, {}});
        hang_later(runs_.back(), next, std::nullopt);
      } else {
        hang_later(runs_[joined.run], next, joined.on);
      }
      for (const auto& [cost, other] : near[next]) {
        if (left[other] != 0 && cost < best[other].cost)
          best[other] = {cost, joined.run, runs_[joined.run].lamps.size() - 1};
      }
    }
  }

  // The lamp farthest from the transformer and its nearest neighbours are a cluster; the lamp in its middle has the
  // hub.
  void hubs(std::size_t place, std::size_t cluster) {
    std::vector<char> left = lamps_of(place);
    const std::vector<double> from_place = costs_from(ways_.node_of_place(place));
    while (true) {
      std::size_t far = unset;
      for (std::size_t lamp = 0; lamp < left.size(); ++lamp) {
        if (left[lamp] != 0 && (far == unset || from_place[lamp] > from_place[far])) far = lamp;
      }
      if (far == unset) break;
      std::vector<std::size_t> members = gathered(far, left, cluster);
      HabitRun run;
      run.place = place;
      const std::size_t middle = middle_of(members);
      std::iter_swap(members.begin(), std::find(members.begin(), members.end(), middle));
      for (const std::size_t lamp : members) {
        hang_later(run, lamp, lamp == middle ? std::nullopt : std::optional<std::size_t>(0));
      }
      runs_.push_back(std::move(run));
    }
  }

  // Ways last and in order, so that later cables find the trenches of earlier ones.
  std::vector<HabitRun> dug() {
    for (HabitRun& run : runs_) {
      for (HungLamp& hung : run.lamps) {
        if (hung.route.path.empty()) lead_there(run, hung);
      }
    }
    return std::move(runs_);
  }

 private:
  [[nodiscard]] std::size_t lamp_at(std::uint32_t node) const {
    const auto found = lamp_at_.find(node);
    return found == lamp_at_.end() ? unset : found->second;
  }
  [[nodiscard]] std::vector<char> lamps_of(std::size_t place) const {
    std::vector<char> own(place_of_.size());
    for (std::size_t lamp = 0; lamp < own.size(); ++lamp) own[lamp] = place_of_[lamp] == place ? 1 : 0;
    return own;
  }

  std::size_t nearest(std::uint32_t from, const std::vector<char>& left) {
    ways_.start({from});
    while (const auto reached = ways_.next()) {
      const std::size_t lamp = lamp_at(reached->second);
      if (lamp != unset && left[lamp] != 0) return lamp;
    }
    return static_cast<std::size_t>(std::find(left.begin(), left.end(), 1) - left.begin());
  }

  std::vector<double> costs_from(std::uint32_t from) {
    std::vector<double> costs(load_va_.size(), std::numeric_limits<double>::infinity());
    ways_.start({from});
    while (const auto reached = ways_.next()) {
      const std::size_t lamp = lamp_at(reached->second);
      if (lamp != unset) costs[lamp] = reached->first;
    }
    return costs;
  }

  // Of each lamp the nearest few of the same place.
  std::vector<std::vector<std::pair<double, std::size_t>>> near_lamps(const std::vector<char>& own) {
    constexpr std::size_t few = 12;
    std::vector<std::vector<std::pair<double, std::size_t>>> near(own.size());
    for (std::size_t lamp = 0; lamp < own.size(); ++lamp) {
      if (own[lamp] == 0) continue;
      ways_.start({ways_.node_of_lamp(lamp)});
      while (near[lamp].size() < few) {
        const auto reached = ways_.next();
        if (!reached) break;
        const std::size_t other = lamp_at(reached->second);
        if (other != unset && other != lamp && own[other] != 0) near[lamp].emplace_back(reached->first, other);
      }
    }
    return near;
  }

  std::vector<std::size_t> gathered(std::size_t first, std::vector<char>& left, std::size_t cluster) {
    std::vector<std::size_t> members;
    double sum_va = 0;
    ways_.start({ways_.node_of_lamp(first)});
    while (members.size() < cluster) {
      const auto reached = ways_.next();
      if (!reached) break;
      const std::size_t lamp = lamp_at(reached->second);
      if (lamp == unset || left[lamp] == 0) continue;
      if (!members.empty() && sum_va + load_va_[lamp] > most_va_) break;
      members.push_back(lamp);
      sum_va += load_va_[lamp];
      left[lamp] = 0;
    }
    return members;
  }

  [[nodiscard]] std::size_t middle_of(const std::vector<std::size_t>& members) const {
    const auto at = [&](std::size_t lamp) {
      return Point2{site_.luminaires[lamp].position->x_m, site_.luminaires[lamp].position->y_m};
    };
    std::size_t best = members.front();
    double best_m = std::numeric_limits<double>::infinity();
    for (const std::size_t lamp : members) {
      double sum_m = 0;
      for (const std::size_t other : members) sum_m += geometry::distance_m(at(lamp), at(other));
      if (sum_m < best_m) {
        best = lamp;
        best_m = sum_m;
      }
    }
    return best;
  }

  void hang_later(HabitRun& run, std::size_t lamp, std::optional<std::size_t> on) {
    run.lamps.push_back({lamp, on, {}});
    run.load_va += load_va_[lamp];
  }
  void hang(HabitRun& run, std::size_t lamp, std::optional<std::size_t> on) {
    hang_later(run, lamp, on);
    lead_there(run, run.lamps.back());
  }
  void lead_there(const HabitRun& run, HungLamp& hung) {
    const std::uint32_t from = hung.on ? ways_.node_of_lamp(run.lamps[*hung.on].lamp) : ways_.node_of_place(run.place);
    const std::uint32_t to = ways_.node_of_lamp(hung.lamp);
    ways_.start({from});
    while (const auto reached = ways_.next()) {
      if (reached->second == to) break;
    }
    hung.route = ways_.route_to(to);
    ways_.dig(hung.route);
  }

  const job::Job& site_;
  SiteWays& ways_;
  const std::vector<std::size_t>& places_;
  double most_va_ = 0;
  std::vector<double> load_va_;
  std::unordered_map<std::uint32_t, std::size_t> lamp_at_;
  std::vector<std::size_t> place_of_;
  std::vector<HabitRun> runs_;
};

}  // namespace

std::vector<HabitRun> habit_runs(Habit habit, const job::Job& site, SiteWays& ways,
                                 const std::vector<std::size_t>& places, double most_va, std::size_t cluster) {
  Shaper shaper(site, ways, places, most_va);
  if (!shaper.share_out()) return {};
  for (const std::size_t place : places) {
    if (habit == Habit::chain) shaper.chains(place);
    if (habit == Habit::spanning_tree) shaper.spanning_tree(place);
    if (habit == Habit::hubs) shaper.hubs(place, cluster);
  }
  return shaper.dug();
}

}  // namespace duskwire::sites
