// SPDX-License-Identifier: Apache-2.0
#include "estimate/labour.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/units.hpp"
#include "estimate/trench.hpp"

namespace duskwire::estimate {
namespace {

struct CategoryWork {
  WorkKind kind;
  const char* id;
  const char* text;
};

CategoryWork work_of(Category category) {
  switch (category) {
    case Category::luminaire:
      return {WorkKind::fixtures, "work/fixtures", "Setting the lights"};
    case Category::transformer:
    case Category::control:
      return {WorkKind::transformers, "work/transformers", "Hanging and wiring transformers and controls"};
    case Category::cable:
      return {WorkKind::cable, "work/cable", "Laying cable"};
    case Category::connector:
      return {WorkKind::splices, "work/splices", "Splices"};
    case Category::mount:
    case Category::sundry:
      break;
  }
  return {WorkKind::small_goods, "work/small-goods", "Stakes, mounts, sleeves, staples, tags"};
}

// By the number of the kind of ground: what a trench there is called, and its part of an id.
struct GroundWords {
  const char* id;
  const char* text;
};
constexpr std::array<GroundWords, ground_kind_count> ground_words{{{"bed", "Trench in planting beds"},
                                                                   {"lawn", "Trench in lawn"},
                                                                   {"gravel", "Trench in gravel"},
                                                                   {"paving", "Passing under paving"},
                                                                   {"drive", "Passing under a drive"},
                                                                   {"street", "Passing under a street"},
                                                                   {"building", "Fastening along a building"},
                                                                   {"deck", "Fastening below a deck"},
                                                                   {"wall", "Passing along a wall"},
                                                                   {"steps", "Passing at steps"},
                                                                   {"water", "Passing at water"},
                                                                   {"pool", "Passing at a pool"},
                                                                   {"root-zone", "Trench among roots, by hand"},
                                                                   {"forbidden", "Trench in ground to be spared"}}};

class Sheet {
 public:
  void add(Work work) {
    if (!(work.minutes > 0)) return;
    labour_.minutes += work.minutes;
    labour_.work.push_back(std::move(work));
  }
  // Adds to the entry of the same id where there is one.
  void gather(const CategoryWork& kind, double minutes) {
    if (!(minutes > 0)) return;
    labour_.minutes += minutes;
    for (Work& work : labour_.work) {
      if (work.id != kind.id) continue;
      work.minutes += minutes;
      return;
    }
    labour_.work.push_back({kind.id, kind.kind, kind.text, minutes, "Minutes of the catalogue for each piece"});
  }
  [[nodiscard]] double minutes() const { return labour_.minutes; }
  [[nodiscard]] Labour take(double trips) {
    labour_.trips = trips;
    return std::move(labour_);
  }

 private:
  Labour labour_;
};

struct GroundSum {
  double route_m = 0;
  double minutes = 0;
};

std::string pace_words(const GroundSum& ground, job::DisplayUnits units) {
  const double min_per_m = ground.minutes / ground.route_m;
  if (units == job::DisplayUnits::metric) {
    return fmt::format("{:.1f} m at {:.2f} min a metre", ground.route_m, min_per_m);
  }
  return fmt::format("{:.0f} ft at {:.2f} min a foot", ground.route_m / units::m_per_ft, min_per_m * units::m_per_ft);
}

void add_ground(const char* id, const char* text, const GroundSum& ground, job::DisplayUnits units, Sheet& sheet) {
  if (!(ground.route_m > 0)) return;
  sheet.add({fmt::format("trench/{}", id), WorkKind::trench, text, ground.minutes,
             pace_words(ground, units) + ", each stretch once"});
}

void add_trench(const TrenchWork& trench, const PriceRates& rates, job::DisplayUnits units, Sheet& sheet) {
  std::array<GroundSum, ground_kind_count> by_ground;
  GroundSum unknown;
  GroundSum pulled;
  for (const TrenchStretch& stretch : trench.stretches) {
    const double pull_min = stretch.pulled_m * rates.install.sleeve_pull_min_per_m;
    GroundSum& sum = stretch.ground ? by_ground.at(static_cast<std::size_t>(*stretch.ground)) : unknown;
    sum.route_m += stretch.dug_m + stretch.fastened_m;
    sum.minutes += stretch.minutes - pull_min;
    pulled.route_m += stretch.pulled_m;
    pulled.minutes += pull_min;
  }
  for (std::size_t i = 0; i < ground_kind_count; ++i) {
    add_ground(ground_words[i].id, ground_words[i].text, by_ground[i], units, sheet);
  }
  add_ground("unknown", "Trench in ground that the plan does not name", unknown, units, sheet);
  add_ground("sleeves", "Pulling cable through sleeves", pulled, units, sheet);
}

void add_commissioning(const job::Job& job, const PriceRates& rates, Sheet& sheet) {
  const double lamps = static_cast<double>(job.luminaires.size());
  double outputs = 0;
  for (const job::Transformer& transformer : job.transformers) {
    outputs += static_cast<double>(transformer.outputs.size());
  }
  sheet.add({"work/commissioning", WorkKind::commissioning, "Commissioning: volts, amps, aiming",
             lamps * rates.commissioning_min_per_lamp + outputs * rates.commissioning_min_per_output,
             fmt::format("{:g} min a light, {:g} min an output", rates.commissioning_min_per_lamp,
                         rates.commissioning_min_per_output)});
}

// The days that the work on site takes, and one more for the night visit.
double usual_trips(double site_minutes, bool has_night_visit, const PriceRates& rates) {
  const double day_min = 60 * rates.work_day_h * rates.crew_size;
  const double days = day_min > 0 ? std::ceil(site_minutes / day_min) : 0;
  return days + (has_night_visit ? 1 : 0);
}

}  // namespace

Labour labour(const job::Job& job, const Materials& list, const PriceRates& rates,
              const std::vector<std::string>& sleeves_to_lay) {
  Sheet sheet;
  for (const MaterialLine& line : list.lines) sheet.gather(work_of(line.category), line.labour_min);
  add_trench(trench_work(job, rates.install, sleeves_to_lay), rates, job.site.units, sheet);
  add_commissioning(job, rates, sheet);
  const double site_minutes = sheet.minutes();
  const double night_min = job.luminaires.empty() ? 0 : 60 * rates.night_visit_h * rates.night_visit_people;
  sheet.add({"work/night-visit", WorkKind::night_visit, "Night visit: aiming in the dark, with the client", night_min,
             fmt::format("{:g} people for {:g} h", rates.night_visit_people, rates.night_visit_h)});
  const bool is_any = sheet.minutes() > 0;
  const double trips = is_any ? rates.trips.value_or(usual_trips(site_minutes, night_min > 0, rates)) : 0;
  sheet.add({"work/travel", WorkKind::travel, "On the road", 60 * trips * rates.crew_size * rates.trip_h,
             fmt::format("{:g} trips, {:g} people, {:g} h each", trips, rates.crew_size, rates.trip_h)});
  sheet.add({"work/contingency", WorkKind::contingency, "For the unknown in the ground",
             sheet.minutes() * rates.contingency_pct / 100,
             fmt::format("{:g} % of all hours: {}", rates.contingency_pct, rates.contingency_reason)});
  return sheet.take(trips);
}

}  // namespace duskwire::estimate
