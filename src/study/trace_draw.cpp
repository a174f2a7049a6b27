// SPDX-License-Identifier: Apache-2.0
#include "study/trace_draw.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/trace_ways.hpp"
#include "study/route_ids.hpp"

namespace duskwire::study {
namespace {

// Closer than that along the way, lamps share a joint.
constexpr double one_joint_m = 0.6;
constexpr double least_lead_m = 0.3;
// Below that a lamp is not drawn on a run.
constexpr double likely = 0.5;

// A stop on a way: lamps are spliced there, or other ways leave.
struct Stop {
  double along_m = 0;
  std::vector<std::uint32_t> lamps;
  std::vector<std::uint32_t> ways;
};

// What hangs beyond a cable.
struct Beyond {
  double none_of_them = 1;  // chance that no lamp drawn there hangs there
  double current_a = 0;

  void add(const Beyond& more) {
    none_of_them *= more.none_of_them;
    current_a += more.current_a;
  }
};

class Drawer {
 public:
  Drawer(const job::Job& job, const TraceRequest& request, const TraceAsked& asked,
         const diagnosis::TraceAnswer& answer, const std::vector<std::size_t>& cable)
      : request_(request), asked_(asked), answer_(answer), cable_(cable), ids_(job) {
    drawn_.job = job;
  }

  TraceDrawn run() {
    for (std::uint32_t r = 0; r < request_.runs.size(); ++r) {
      run_ = r;
      const diagnosis::WayTree tree(asked_.problem.runs[r].ways);
      tree_ = &tree;
      drawn_.parts.emplace_back();
      drawn_.blind_m.push_back(0);
      draw(0, request_.runs[r].output);
      if (!drawn_.parts.back().empty()) keep_item();
    }
    return std::move(drawn_);
  }

 private:
  [[nodiscard]] std::vector<Stop> stops(std::uint32_t way) const {
    std::vector<Stop> found;
    for (std::uint32_t lamp = 0; lamp < answer_.lamps.size(); ++lamp) {
      const auto& places = answer_.lamps[lamp].places;
      if (places.empty() || places.front().run != run_ || places.front().way != way) continue;
      if (places.front().chance >= likely) found.push_back({places.front().along_m, {lamp}, {}});
    }
    for (std::uint32_t other = way + 1; other < tree_->size(); ++other) {
      if (tree_->parting(other).way == way && carries(other))
        found.push_back({tree_->parting(other).along_m, {}, {other}});
    }
    std::stable_sort(found.begin(), found.end(), [](const Stop& x, const Stop& y) { return x.along_m < y.along_m; });
    std::vector<Stop> merged;
    for (Stop& stop : found) {
      if (merged.empty() || stop.along_m - merged.back().along_m > one_joint_m) {
        merged.push_back(std::move(stop));
        continue;
      }
      merged.back().lamps.insert(merged.back().lamps.end(), stop.lamps.begin(), stop.lamps.end());
      merged.back().ways.insert(merged.back().ways.end(), stop.ways.begin(), stop.ways.end());
    }
    return merged;
  }

  [[nodiscard]] bool carries(std::uint32_t way) const { return !stops(way).empty(); }

  Beyond draw(std::uint32_t way, const std::string& from) {
    const std::vector<Stop> all = stops(way);
    if (!all.empty()) {
      drawn_.blind_m[run_] = std::max(drawn_.blind_m[run_], tree_->length_m(way) - all.back().along_m);
    }
    return draw_from(way, from, 0, all, 0);
  }

  // The rest of a way from one of its joints on.
  Beyond draw_from(std::uint32_t way, const std::string& from, double from_m, const std::vector<Stop>& all,
                   std::size_t next) {
    Beyond beyond;
    if (next >= all.size()) return beyond;
    const Stop& stop = all[next];
    const std::string joint = add_joint(way, stop, next + 1 == all.size());
    const std::size_t part = add_cable(way, from, joint, from_m, stop.along_m);
    for (const std::uint32_t lamp : stop.lamps) beyond.add(hang(lamp, joint));
    const double at_end = stop.lamps.empty() ? -1 : 1 - beyond.none_of_them;
    for (const std::uint32_t other : stop.ways) beyond.add(draw(other, joint));
    beyond.add(draw_from(way, joint, stop.along_m, all, next + 1));
    drawn_.parts[run_][part].current_a = beyond.current_a;
    drawn_.parts[run_][part].chance = 1 - beyond.none_of_them;
    drawn_.parts[run_][part].end_chance = at_end < 0 ? drawn_.parts[run_][part].chance : at_end;
    return beyond;
  }

  std::string add_joint(std::uint32_t way, const Stop& stop, bool last) {
    job::Joint joint;
    joint.id = ids_.joint();
    joint.position = tree_->stretch(way, stop.along_m, stop.along_m).back();
    joint.kind = !stop.ways.empty()      ? job::JointKind::branch
                 : stop.lamps.size() > 2 ? job::JointKind::hub
                 : last                  ? job::JointKind::end_of_run
                                         : job::JointKind::in_line;
    drawn_.job.joints.push_back(joint);
    return joint.id;
  }

  Beyond hang(std::uint32_t lamp, const std::string& joint) {
    job::Luminaire& luminaire = drawn_.job.luminaires[asked_.lamps[lamp]];
    const diagnosis::TracePlace& place = answer_.lamps[lamp].places.front();
    luminaire.joint = joint;
    luminaire.lead_length_m = std::max(least_lead_m, std::round(10 * place.lead_m) / 10);
    double here = 0;
    for (const diagnosis::TracePlace& one : answer_.lamps[lamp].places) here += one.run == run_ ? one.chance : 0;
    return {1 - std::min(1.0, here), asked_.problem.lamps[lamp].rated_a};
  }

  // Its number among the run's parts.
  std::size_t add_cable(std::uint32_t way, const std::string& from, const std::string& to, double from_m, double to_m) {
    job::Cable cable;
    cable.id = ids_.cable(request_.runs[run_].id);
    cable.item = asked_.items[run_][cable_[run_]]->id;
    cable.from = from;
    cable.to = to;
    cable.path = tree_->stretch(way, from_m, to_m);
    drawn_.parts[run_].push_back({cable.id, from, to, to_m - from_m, 0, 0, 0});
    drawn_.job.cables.push_back(std::move(cable));
    return drawn_.parts[run_].size() - 1;
  }

  void keep_item() {
    const job::CableItem& item = *asked_.items[run_][cable_[run_]];
    if (!job::find_cable(drawn_.job.catalogue, item.id)) drawn_.job.catalogue.cables.push_back(item);
  }

  const TraceRequest& request_;
  const TraceAsked& asked_;
  const diagnosis::TraceAnswer& answer_;
  const std::vector<std::size_t>& cable_;
  RouteIds ids_;
  TraceDrawn drawn_;
  std::uint32_t run_ = 0;
  const diagnosis::WayTree* tree_ = nullptr;
};

}  // namespace

TraceDrawn draw_trace(const job::Job& job, const TraceRequest& request, const TraceAsked& asked,
                      const diagnosis::TraceAnswer& answer, const std::vector<std::size_t>& cable) {
  return Drawer(job, request, asked, answer, cable).run();
}

}  // namespace duskwire::study
