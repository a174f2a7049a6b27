// SPDX-License-Identifier: Apache-2.0
#include "study/night_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "study/calibrate_view.hpp"
#include "study/lit_scene.hpp"
#include "study/night_pieces.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Walls of a photograph and of a plan are never the same to the centimetre.
constexpr double lift_m = 0.08;

// A worse fit than this share of the picture's width is worth a word.
constexpr double poor_fit_share = 0.006;

const job::View* find_view(const job::Job& job, std::string_view id) {
  const auto found =
      std::find_if(job.views.begin(), job.views.end(), [&](const job::View& view) { return view.id == id; });
  return found == job.views.end() ? nullptr : &*found;
}

void add_lamps(const LitJob& lit, const job::Job& job, NightView& out) {
  out.scene = lit.scene;
  for (std::size_t i = 0; i < lit.lamps.size(); ++i) {
    light::Lamp& lamp = out.scene.lamps[i];
    out.states.push_back({lamp.share, lamp.colour_temperature_k});
    lamp.share = 1;
    const job::Luminaire& luminaire = job.luminaires[lit.lamps[i].luminaire];
    out.lamps.push_back({luminaire.id, luminaire.name});
  }
  for (const Finding& finding : lit.findings) out.remarks.push_back(finding.message);
}

void add_caster(const NightView* before, NightView& out) {
  if (before != nullptr && before->caster && before->scene.solid == out.scene.solid) {
    out.caster = before->caster;
  } else {
    out.caster = geometry::quickest_ray_caster(out.scene.solid);
  }
}

std::string reflectance_words(const job::View& view) {
  std::string words;
  for (const job::PictureSurface& surface : view.surfaces) {
    words += fmt::format("{}{} {:.2f}{}", words.empty() ? "" : ", ", surface.name.empty() ? surface.id : surface.name,
                         surface.reflectance.value_or(usual_reflectance(surface.kind)),
                         surface.reflectance ? "" : " (usual)");
  }
  return words;
}

void add_assumptions(const job::View& view, NightView& out) {
  const auto on =
      std::count_if(out.states.begin(), out.states.end(), [](const auto& state) { return state.share > 0; });
  out.assumptions.push_back(
      fmt::format("{} of {} lamps on, each dimmed and fed as in the job.", on, out.states.size()));
  out.assumptions.push_back("Surfaces are matt. Mean reflectance: " + reflectance_words(view) + ".");
  out.assumptions.push_back("Light that bounces from one surface to another is not counted.");
  out.assumptions.push_back(fmt::format("Moon and sky: {:.2g} lx on level ground.", out.tone.ambient_lx));
  out.assumptions.push_back(fmt::format(
      "The camera was found from the marked wall, with {:.1f} picture elements of misfit.", out.residual_px));
}

void bring_pieces_forward(job::DisplayUnits units, NightView& out) {
  for (std::size_t i = 0; i < out.plate.pieces.size(); ++i) {
    const double moved_m = bring_forward(out.plate.pieces[i], out.plate.camera, *out.caster);
    if (moved_m > 0) {
      out.remarks.push_back(fmt::format("{}: {} behind what the plan has there, and brought forward.", out.names[i],
                                        worded(moved_m, distance_unit(units), 1)));
    }
  }
}

}  // namespace

Result<NightView> night_view(const job::Job& job, std::string_view id, std::uint32_t width_px, std::uint32_t height_px,
                             const NightView* before) {
  const job::View* view = find_view(job, id);
  if (view == nullptr) {
    return Error{ErrorCode::not_found, fmt::format("The job has no view \"{}\": name one of its views.", id)};
  }
  if (view->surfaces.empty() && view->trees.empty()) {
    return Error{ErrorCode::invalid,
                 fmt::format("{} has nothing that lamps could light: outline a wall, the ground or a tree on it.",
                             called(view->id, view->name))};
  }
  const Result<light::Calibrated> calibrated = calibrated_view(*view, width_px, height_px);
  if (!calibrated) return calibrated.error();
  NightView out;
  out.view = view->id;
  out.plate.camera = calibrated.value().camera;
  out.residual_px = calibrated.value().residual_px;
  const double scale_x = view->width_px > 0 ? width_px / view->width_px : 1;
  const double scale_y = view->height_px > 0 ? height_px / view->height_px : 1;
  NightPieces pieces = night_pieces(job.plan, *view, out.plate.camera.position, scale_x, scale_y);
  out.plate.pieces = std::move(pieces.pieces);
  out.ids = std::move(pieces.ids);
  out.names = std::move(pieces.names);
  out.tone = {view->night.camera_share, view->night.exposure_stops, view->night.ambient_lx, view->night.white_k};
  out.care.lift_m = lift_m;
  add_lamps(lit_scene(job), job, out);
  add_caster(before, out);
  bring_pieces_forward(job.site.units, out);
  if (out.residual_px > poor_fit_share * width_px) {
    out.remarks.push_back(
        fmt::format("The camera fits the marks to {:.1f} picture elements only: mark the wall anew.", out.residual_px));
  }
  add_assumptions(*view, out);
  return out;
}

}  // namespace duskwire::study
