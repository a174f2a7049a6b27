// SPDX-License-Identifier: Apache-2.0
#include "estimate/trench.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "estimate/cable_length.hpp"
#include "estimate/dug_ground.hpp"
#include "estimate/ground_stretches.hpp"
#include "estimate/laid_sleeves.hpp"
#include "geometry/polygon.hpp"
#include "job/plan_ground.hpp"

namespace duskwire::estimate {
namespace {

using geometry::Point2;
using Ground = std::optional<job::GroundKind>;

constexpr double sample_m = 0.1;
// A path of kilometres is sampled coarser, so that a slip of the hand does not cost minutes.
constexpr double most_samples = 20'000;

Point2 between(Point2 from, Point2 to, double share) {
  return {from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)};
}

double minutes_per_m(const InstallRates& rates, const Ground& ground) {
  return ground ? rates.trench_min_per_m.at(static_cast<std::size_t>(*ground)) : rates.unknown_trench_min_per_m;
}

// Roots call for hands whatever grows over them, so a root zone counts before soft ground here; for the cover over a
// cable it does not.
class RootZones {
 public:
  explicit RootZones(const job::Plan& plan) {
    for (const job::Area& area : plan.areas) {
      if (area.kind == job::GroundKind::root_zone) zones_.push_back(&area);
    }
  }
  [[nodiscard]] Ground over(const Ground& ground, Point2 point) const {
    const bool soft = !ground || ground == job::GroundKind::bed || ground == job::GroundKind::lawn ||
                      ground == job::GroundKind::gravel;
    const bool in_roots = soft && std::any_of(zones_.begin(), zones_.end(), [&](const job::Area* zone) {
                            return geometry::contains(zone->outline, point);
                          });
    return in_roots ? Ground(job::GroundKind::root_zone) : ground;
  }

 private:
  std::vector<const job::Area*> zones_;
};

bool is_dug(const Ground& ground) { return ground != job::GroundKind::building && ground != job::GroundKind::deck; }

class Digger {
 public:
  Digger(const job::Job& job, const InstallRates& rates, const std::vector<std::string>& sleeves_to_lay)
      : rates_(rates), ground_(job.plan), roots_(job.plan), sleeves_(job.plan, sleeves_to_lay) {}

  void lay(const job::Cable& cable) {
    const std::optional<double> route_m = route_length_m(cable);
    if (!route_m) return;
    first_stretch_ = work_.stretches.size();
    cable_ = &cable.id;
    const double path_m = length_m(cable.path);
    if (path_m > 0 && std::isfinite(path_m)) {
      lay_along_path(cable, path_m, *route_m / path_m);
    } else {
      lay_by_length(cable, *route_m);
    }
  }

  [[nodiscard]] const TrenchWork& work() const { return work_; }

 private:
  // Where it lies nobody knows: through the sleeve that it names, the rest in ground of its own.
  void lay_by_length(const job::Cable& cable, double route_m) {
    const job::Sleeve* sleeve = sleeves_.named(cable.sleeve);
    const double pulled_m = sleeve ? std::min(route_m, length_m(sleeve->path)) : 0;
    if (pulled_m > 0) pull(pulled_m, cable.ground);
    if (route_m > pulled_m) dig(route_m - pulled_m, cable.ground);
  }

  // `scale`: metres of route to a metre as drawn.
  void lay_along_path(const job::Cable& cable, double path_m, double scale) {
    const auto sleeves = sleeves_.serving(cable);
    const double step_m = std::max(sample_m, path_m / most_samples);
    fresh_.clear();
    for (std::size_t i = 1; i < cable.path.size(); ++i) {
      const Point2 from = cable.path[i - 1];
      const Point2 to = cable.path[i];
      const double piece_m = geometry::distance_m(from, to);
      double passed_m = 0;
      for (const job::GroundStretch& stretch : ground_.along({from, to})) {
        const Ground ground = stretch.kind ? stretch.kind : cable.ground;
        const double samples = std::ceil(stretch.length_m / step_m);
        const double each_m = stretch.length_m / samples;
        for (double k = 0.5; k < samples; ++k) {
          lay_sample(between(from, to, (passed_m + k * each_m) / piece_m), each_m * scale, ground, sleeves);
        }
        passed_m += stretch.length_m;
      }
    }
    // Only now: a cable does not share with itself.
    for (const Point2 point : fresh_) open_.add(point);
  }

  void lay_sample(Point2 point, double route_m, const Ground& ground, const std::vector<const job::Sleeve*>& sleeves) {
    if (runs_through(sleeves, point, ground && is_hard(*ground))) {
      pull(route_m, ground);
    } else if (!open_.is_open_at(point)) {
      dig(route_m, roots_.over(ground, point));
      fresh_.push_back(point);
    } else {
      stretch(roots_.over(ground, point)).shared_m += route_m;
    }
  }

  void dig(double route_m, const Ground& ground) {
    const double minutes = route_m * minutes_per_m(rates_, ground);
    TrenchStretch& met = stretch(ground);
    met.minutes += minutes;
    work_.minutes += minutes;
    if (is_dug(ground)) {
      met.dug_m += route_m;
      work_.dug_m += route_m;
    } else {
      met.fastened_m += route_m;
    }
  }

  void pull(double route_m, const Ground& ground) {
    const double minutes = route_m * rates_.sleeve_pull_min_per_m;
    TrenchStretch& met = stretch(ground);
    met.pulled_m += route_m;
    met.minutes += minutes;
    work_.minutes += minutes;
  }

  // That of the cable at hand and this ground.
  TrenchStretch& stretch(const Ground& ground) {
    for (std::size_t i = first_stretch_; i < work_.stretches.size(); ++i) {
      if (work_.stretches[i].ground == ground) return work_.stretches[i];
    }
    work_.stretches.push_back({*cable_, ground, 0, 0, 0, 0, 0});
    return work_.stretches.back();
  }

  const InstallRates& rates_;
  job::PlanGround ground_;
  RootZones roots_;
  LaidSleeves sleeves_;
  DugGround open_;
  std::vector<Point2> fresh_;  // dug for the cable at hand
  TrenchWork work_;
  const std::string* cable_ = nullptr;  // at hand
  std::size_t first_stretch_ = 0;       // of it
};

}  // namespace

TrenchWork trench_work(const job::Job& job, const InstallRates& rates, const std::vector<std::string>& sleeves_to_lay) {
  Digger digger(job, rates, sleeves_to_lay);
  for (const job::Cable& cable : job.cables) digger.lay(cable);
  return digger.work();
}

}  // namespace duskwire::estimate
