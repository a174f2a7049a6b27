// SPDX-License-Identifier: Apache-2.0
#include "faulty/least_cost.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <functional>
#include <map>
#include <unordered_map>

#include "diagnosis/next_reading.hpp"

namespace duskwire::faulty {
namespace {

using Subset = std::uint64_t;  // of the causes, one bit each

bool is_one(Subset causes) { return (causes & (causes - 1)) == 0; }

struct Split {
  double cost_min = 0;
  std::vector<Subset> parts;
  double least_min = 0;  // of it and of all that follows, times the chance of what it divides
};

bool divides_no_coarser(const Split& one, const Split& other) {
  return std::all_of(one.parts.begin(), one.parts.end(), [&](Subset finer) {
    return std::any_of(other.parts.begin(), other.parts.end(), [&](Subset part) { return (finer & ~part) == 0; });
  });
}

// A reading that costs no less than another and divides no finer is never needed.
void drop_dominated(std::vector<Split>& all) {
  std::vector<Split> kept;
  for (Split& one : all) {
    const bool dominated = std::any_of(kept.begin(), kept.end(), [&](const Split& other) {
      return other.cost_min <= one.cost_min && divides_no_coarser(other, one);
    });
    if (!dominated) kept.push_back(std::move(one));
  }
  all = std::move(kept);
}

// All minutes are times the chance of the causes that they are of.
class Search {
 public:
  Search(const SmallCase& one, std::size_t most_parts) : one_(one), most_parts_(most_parts) {
    for (std::size_t i = 0; i < one.causes.size(); ++i) {
      Subset alike = 0;
      for (std::size_t k = 0; k < one.causes.size(); ++k) {
        const bool same =
            std::all_of(one.shown.begin(), one.shown.end(), [&](const auto& shown) { return shown[i] == shown[k]; });
        if (same) alike |= Subset{1} << k;
      }
      alike_.push_back(alike);
    }
  }

  LeastCost run() {
    const double least = search((Subset{1} << one_.causes.size()) - 1);
    return {least, searched_ <= most_parts_};
  }

 private:
  [[nodiscard]] double chance(Subset causes) const {
    double sum = 0;
    for (; causes != 0; causes &= causes - 1) sum += one_.causes[first_of(causes)].chance;
    return sum;
  }

  static std::size_t first_of(Subset causes) { return static_cast<std::size_t>(std::countr_zero(causes)); }

  // Of readings that divide alike the cheapest.
  [[nodiscard]] std::vector<Split> splits(Subset causes) const {
    std::map<std::vector<Subset>, double> found;
    for (std::size_t c = 0; c < one_.shown.size(); ++c) {
      std::vector<Subset> parts(one_.causes.size(), 0);
      for (Subset left = causes; left != 0; left &= left - 1) {
        parts[one_.shown[c][first_of(left)]] |= Subset{1} << first_of(left);
      }
      std::erase(parts, Subset{0});
      if (parts.size() < 2) continue;
      std::sort(parts.begin(), parts.end());
      const double cost = one_.problem.candidates[c].effort_min + diagnosis::to_hand_min;
      const auto [at, fresh] = found.emplace(std::move(parts), cost);
      if (!fresh) at->second = std::min(at->second, cost);
    }
    std::vector<Split> result;
    for (const auto& [parts, cost] : found) result.push_back({cost, parts, 0});
    return result;
  }

  // Readings, if each could divide what is left into any `most` parts: Huffman's code for an alphabet of so many
  // letters (from memory). Causes that no reading tells apart are one.
  [[nodiscard]] double fewest(Subset causes, std::size_t most) const {
    std::vector<double> left;
    while (causes != 0) {
      const Subset together = causes & alike_[first_of(causes)];
      left.push_back(chance(together));
      causes &= ~together;
    }
    if (left.size() < 2) return 0;
    while ((left.size() - 1) % (most - 1) != 0) left.push_back(0);
    std::sort(left.begin(), left.end(), std::greater<double>());
    double sum = 0;
    while (left.size() > 1) {
      double joined = 0;
      for (std::size_t k = 0; k < most; ++k) {
        joined += left.back();
        left.pop_back();
      }
      sum += joined;
      left.insert(std::upper_bound(left.begin(), left.end(), joined, std::greater<double>()), joined);
    }
    return sum;
  }

  // A part of these causes is divided by none but these readings, and into no more parts.
  [[nodiscard]] std::vector<Split> bounded(Subset causes) const {
    std::vector<Split> all = splits(causes);
    std::size_t most = 2;
    double cheapest = HUGE_VAL;
    for (const Split& one : all) {
      most = std::max(most, one.parts.size());
      cheapest = std::min(cheapest, one.cost_min);
    }
    const double whole = chance(causes);
    for (Split& one : all) {
      one.least_min = whole * one.cost_min;
      for (const Subset part : one.parts) one.least_min += cheapest * fewest(part, most);
    }
    return all;
  }

  struct Known {
    double least_min = 0;
    bool searched = false;
  };

  Known& known(Subset causes) {
    const auto [at, fresh] = known_.emplace(causes, Known{});
    if (fresh) {
      double least = HUGE_VAL;
      for (const Split& one : bounded(causes)) least = std::min(least, one.least_min);
      at->second = {std::isfinite(least) ? least : 0, !std::isfinite(least)};
    }
    return at->second;
  }

  double search(Subset causes) {
    if (is_one(causes)) return 0;
    const Known before = known(causes);
    if (before.searched || ++searched_ > most_parts_) return before.least_min;
    std::vector<Split> all = bounded(causes);
    std::sort(all.begin(), all.end(), [](const Split& x, const Split& y) { return x.least_min < y.least_min; });
    drop_dominated(all);
    double best = HUGE_VAL;
    for (const Split& one : all) {
      if (one.least_min >= best) break;
      best = std::min(best, search_after(one, chance(causes), best));
    }
    Known& now = known(causes);
    now = {std::max(now.least_min, best), true};
    return now.least_min;
  }

  // As much as is sure already, once it is no less than `limit_min`.
  double search_after(const Split& one, double whole, double limit_min) {
    double sum = whole * one.cost_min;
    for (const Subset part : one.parts) sum += is_one(part) ? 0 : known(part).least_min;
    std::vector<Subset> parts = one.parts;
    std::sort(parts.begin(), parts.end(), [](Subset x, Subset y) { return std::popcount(x) < std::popcount(y); });
    for (const Subset part : parts) {
      if (sum >= limit_min) break;
      if (is_one(part)) continue;
      const double before = known(part).least_min;
      sum += search(part) - before;
    }
    return sum;
  }

  const SmallCase& one_;
  std::size_t most_parts_;
  std::size_t searched_ = 0;
  std::vector<Subset> alike_;  // by cause: those that no reading tells from it
  std::unordered_map<Subset, Known> known_;
};

}  // namespace

LeastCost least_cost(const SmallCase& one, std::size_t most_parts) { return Search(one, most_parts).run(); }

}  // namespace duskwire::faulty
