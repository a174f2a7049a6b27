// SPDX-License-Identifier: Apache-2.0
#include "estimate/cable_length.hpp"

#include <cmath>

namespace duskwire::estimate {
namespace {

std::optional<double> as_length(double length_m) {
  return std::isfinite(length_m) && length_m >= 0 ? std::optional<double>(length_m) : std::nullopt;
}

double slack_m(const job::Job& job, const EndPlace& place, const std::optional<double>& own_m) {
  if (own_m) return as_length(*own_m).value_or(0);
  const job::Practice& practice = job.practice;
  switch (place.kind) {
    case EndKind::unknown:
      return 0;
    case EndKind::output:
      return practice.slack_at_transformer_m;
    case EndKind::joint:
      return practice.slack_at_splice_m;
    case EndKind::luminaire:
      return job.luminaires[place.index].slack_m.value_or(practice.slack_at_luminaire_m);
  }
  return 0;
}

}  // namespace

EndIndex::EndIndex(const job::Job& job) {
  for (std::size_t i = 0; i < job.transformers.size(); ++i) {
    for (const job::Output& output : job.transformers[i].outputs) {
      places_.emplace(output.id, EndPlace{EndKind::output, i});
    }
  }
  for (std::size_t i = 0; i < job.joints.size(); ++i) places_.emplace(job.joints[i].id, EndPlace{EndKind::joint, i});
  for (std::size_t i = 0; i < job.luminaires.size(); ++i) {
    places_.emplace(job.luminaires[i].id, EndPlace{EndKind::luminaire, i});
  }
}

EndPlace EndIndex::find(std::string_view id) const {
  const auto found = places_.find(id);
  return found == places_.end() ? EndPlace{} : found->second;
}

std::optional<double> route_length_m(const job::Cable& cable) {
  if (cable.length_m) return as_length(*cable.length_m);
  if (cable.path.size() < 2) return std::nullopt;
  double length_m = 0;
  for (std::size_t i = 1; i < cable.path.size(); ++i) {
    length_m += geometry::distance_m(cable.path[i - 1], cable.path[i]);
  }
  return as_length(length_m);
}

double slack_at_from_m(const job::Job& job, const EndIndex& ends, const job::Cable& cable) {
  return slack_m(job, ends.find(cable.from), cable.slack_from_m);
}

double slack_at_to_m(const job::Job& job, const EndIndex& ends, const job::Cable& cable) {
  return slack_m(job, ends.find(cable.to), cable.slack_to_m);
}

std::optional<CableLength> cable_length(const job::Job& job, const EndIndex& ends, const job::Cable& cable) {
  const std::optional<double> route_m = route_length_m(cable);
  if (!route_m) return std::nullopt;
  return CableLength{*route_m, slack_at_from_m(job, ends, cable), slack_at_to_m(job, ends, cable)};
}

}  // namespace duskwire::estimate
