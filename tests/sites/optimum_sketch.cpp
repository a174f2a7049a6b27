// SPDX-License-Identifier: Apache-2.0
// The wiring that a solution of the program means.
#include <utility>

#include "sites/optimum.hpp"
#include "wiring/exact_names.hpp"

namespace duskwire::sites {
namespace {

using wiring::name;

bool is_on(const std::map<std::string, double>& values, const std::string& variable) {
  const auto found = values.find(variable);
  return found != values.end() && found->second > 0.5;
}

// Reads one solution cable by cable, each after the one that it begins at.
class Reader {
 public:
  Reader(const wiring::ExactProblem& problem, const wiring::ExactProblem::Unit& unit,
         const std::map<std::string, double>& values)
      : in_(problem), unit_(unit), values_(values) {}

  WiringSketch run() {
    sketch_.units.push_back({unit_.item, 0});
    sketch_.outputs.push_back({0, unit_.tap_v});
    follow(0, std::nullopt);
    return std::move(sketch_);
  }

 private:
  void follow(std::uint32_t from, std::optional<std::size_t> cable) {
    for (std::uint32_t end = 1; end < in_.points.size(); ++end) {
      if (end == from || !is_on(values_, name('s', end, from))) continue;
      SketchCable next;
      next.from = cable;
      next.path = path(from, end);
      next.item = item_of(end);
      if (end <= in_.lamps.size()) next.lamps = {end - 1};
      sketch_.cables.push_back(next);
      follow(end, sketch_.cables.size() - 1);
    }
  }

  [[nodiscard]] std::string item_of(std::uint32_t end) const {
    for (std::uint32_t g = 0; g < in_.cables.size(); ++g) {
      for (std::uint32_t c = 0; c < wiring::current_classes; ++c) {
        if (is_on(values_, name('b', end, g, c))) return in_.cables[g].item;
      }
    }
    return "";
  }

  [[nodiscard]] geometry::Polyline path(std::uint32_t from, std::uint32_t end) const {
    geometry::Polyline path{in_.points[from].place};
    std::uint32_t at = from;
    for (std::size_t step = 0; at != end && step < in_.points.size(); ++step) {
      at = next_on_route(end, at);
      path.push_back(in_.points[at].place);
    }
    return path;
  }

  [[nodiscard]] std::uint32_t next_on_route(std::uint32_t end, std::uint32_t at) const {
    for (std::uint32_t way = 0; way < in_.ways.size(); ++way) {
      const auto [a, b] = std::pair(in_.ways[way].a, in_.ways[way].b);
      if (a == at && is_on(values_, name('r', end, 2 * way))) return b;
      if (b == at && is_on(values_, name('r', end, 2 * way + 1))) return a;
    }
    return end;
  }

  const wiring::ExactProblem& in_;
  const wiring::ExactProblem::Unit& unit_;
  const std::map<std::string, double>& values_;
  WiringSketch sketch_;
};

}  // namespace

WiringSketch sketch_of(const wiring::ExactProblem& problem, const wiring::ExactProblem::Unit& unit,
                       const std::map<std::string, double>& values) {
  return Reader(problem, unit, values).run();
}

}  // namespace duskwire::sites
