// SPDX-License-Identifier: Apache-2.0
#include "study/lamp_distribution.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "light/beams.hpp"
#include "light/intensity_reader.hpp"
#include "light/zones.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {
namespace {

using job::BeamShape;
using job::LuminaireKind;

// A wall wash spreads less up and down than to the sides (common practice, no source).
constexpr double wash_up_share = 2.0 / 3;

// Optics this wide are mostly made even (common practice, no source).
constexpr double least_flood_deg = 60;

light::Distribution beam_of(const job::LuminaireItem& item) {
  const double beam_deg = beam_used_deg(item);
  switch (shape_of(item)) {
    case BeamShape::flood:
      return light::flood_beam(beam_deg, item.flux_lm);
    case BeamShape::wash:
      return light::wash_beam(beam_deg, wash_up_share * beam_deg, item.flux_lm);
    case BeamShape::ring:
      return light::ring_beam(item.flux_lm);
    case BeamShape::half_ring:
      return light::half_ring_beam(item.flux_lm);
    case BeamShape::step:
      return light::step_beam(beam_deg, item.flux_lm);
    case BeamShape::all_round:
      return light::all_round_beam(item.flux_lm);
    case BeamShape::by_kind:
    case BeamShape::spot:
    case BeamShape::strip:
      break;
  }
  return light::spot_beam(beam_deg, item.flux_lm);
}

// A half turn about C 0: what looked up looks down, and left and right change sides with it.
light::Distribution turned_over(const light::Distribution& d) {
  light::Distribution turned = d;
  std::reverse(turned.vertical_deg.begin(), turned.vertical_deg.end());
  for (double& gamma_deg : turned.vertical_deg) gamma_deg = 180 - gamma_deg;
  if (d.horizontal_deg.size() > 1) {
    std::reverse(turned.horizontal_deg.begin(), turned.horizontal_deg.end());
    for (double& c_deg : turned.horizontal_deg) c_deg = 360 - c_deg;
  }
  std::reverse(turned.intensity_cd.begin(), turned.intensity_cd.end());  // planes and rows at once
  return turned;
}

bool goes_up(const light::Distribution& d) {
  return light::zone_flux_lm(d, {90, 180}) > light::zone_flux_lm(d, {0, 90});
}

light::Distribution from_file(const job::LuminaireItem& item, const light::IntensityFile& file) {
  light::Distribution d = light::as_type_c(file.distribution);
  return stance_of(item) == Stance::aimed && goes_up(d) ? turned_over(d) : d;
}

}  // namespace

BeamShape shape_of(const job::LuminaireItem& item) {
  if (item.beam_shape != BeamShape::by_kind) return item.beam_shape;
  switch (item.kind) {
    case LuminaireKind::path:
      return BeamShape::ring;
    case LuminaireKind::bollard:
      return item.beam_deg > 0 && item.beam_deg <= 180 ? BeamShape::half_ring : BeamShape::ring;
    case LuminaireKind::wall_wash:
      return BeamShape::wash;
    case LuminaireKind::step:
      return BeamShape::step;
    case LuminaireKind::strip:
      return BeamShape::strip;
    default:
      if (item.beam_deg >= 360) return BeamShape::all_round;
      return item.beam_deg >= least_flood_deg ? BeamShape::flood : BeamShape::spot;
  }
}

double beam_used_deg(const job::LuminaireItem& item) {
  if (item.beam_deg > 0) return item.beam_deg;
  switch (shape_of(item)) {
    case BeamShape::wash:
      return 90;
    case BeamShape::step:
    case BeamShape::strip:
      return 120;
    case BeamShape::ring:
    case BeamShape::all_round:
      return 360;
    case BeamShape::half_ring:
      return 180;
    default:
      return 36;
  }
}

light::Distribution distribution_of(const job::LuminaireItem& item) {
  if (!item.intensity_file.empty()) {
    const light::ReadIntensities read = light::read_intensities(item.intensity_file);
    if (read.file) return from_file(item, *read.file);
  }
  return beam_of(item);
}

Problems light_findings(const job::LuminaireItem& item) {
  Problems findings;
  if (!item.intensity_file.empty()) {
    light::ReadIntensities read = light::read_intensities(item.intensity_file);
    for (Problem& problem : read.problems) {
      if (!problem.pointer.empty()) problem.message = problem.pointer + ": " + problem.message;
      problem.pointer = "/intensity_file";
      findings.push_back(std::move(problem));
    }
    if (read.file && stance_of(item) == Stance::aimed && goes_up(light::as_type_c(read.file->distribution))) {
      findings.push_back(
          {Severity::note, "/intensity_file", "light mostly upwards", "gamma 0 along the aim",
           "The file was measured as mounted, looking up. Its light is turned so that it follows the aim."});
    }
    if (read.file) return findings;
  }
  if (!(item.flux_lm > 0)) {
    findings.push_back({Severity::warning, "/flux_lm", fmt::format("{}", item.flux_lm), "above 0 lm",
                        "The item has no lumens, so it gives no light here. Enter them from its data sheet."});
  }
  const BeamShape shape = shape_of(item);
  const bool needs_beam = shape != BeamShape::ring && shape != BeamShape::half_ring && shape != BeamShape::all_round;
  if (needs_beam && !(item.beam_deg > 0)) {
    findings.push_back({Severity::note, "/beam_deg", "", "the full beam angle, in degrees",
                        fmt::format("The item has no beam angle. {:.0f} degrees are taken, as is usual for its kind.",
                                    beam_used_deg(item))});
  }
  return findings;
}

}  // namespace duskwire::study
