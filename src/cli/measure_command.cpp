// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/photograph_page.hpp"
#include "cli/session.hpp"
#include "formats/calibration_json.hpp"
#include "formats/json_text.hpp"
#include "pictures/codec.hpp"
#include "study/calibrate_view.hpp"

namespace duskwire::cli {
namespace {

// The view asked for; without a name the first.
Result<job::View> view_of(const job::Job& job, const std::string& wanted) {
  if (job.views.empty()) {
    return Error{ErrorCode::not_found, "The job has no view: bring a photograph in and outline a wall of known size."};
  }
  if (wanted.empty()) return job.views.front();
  std::string known;
  for (const job::View& view : job.views) {
    if (view.id == wanted || view.name == wanted) return view;
    known += (known.empty() ? "" : ", ") + view.id;
  }
  return Error{ErrorCode::not_found, fmt::format("The job has no view \"{}\". There are {}.", wanted, known)};
}

// What the picture file itself tells: its size, and the lens where the camera noted it.
std::optional<Error> look_into(const std::string& file, job::View& view) {
  const Result<std::string> bytes = read_file(file);
  if (!bytes) return bytes.error();
  const auto read = pictures::decode(bytes.value());
  if (!read) return Error{read.error().code, fmt::format("{}: {}", file, read.error().message)};
  const pictures::Picture& picture = read.value().picture;
  if (view.width_px <= 0 || view.height_px <= 0) {
    view.width_px = picture.width_px;
    view.height_px = picture.height_px;
  }
  const auto& noted = read.value().note.focal_35mm_equiv;
  if (noted && view.calibration && !view.calibration->focal_px) {
    view.calibration->focal_px = pictures::focal_px(*noted, view.width_px, view.height_px);
  }
  return std::nullopt;
}

}  // namespace

Outcome measure_command(const MeasureRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  Result<job::View> view = view_of(session.job, request.view);
  if (!view) return refuse(view.error());
  if (!request.photo.empty()) {
    if (const auto trouble = look_into(request.photo, view.value())) return refuse(*trouble);
  }
  const study::CalibratedView found = study::calibrate_view(view.value(), session.job.site.units);
  Outcome outcome{found.calibrated && found.findings.empty() ? exit_sound : exit_findings, "", session.remarks};
  outcome.text = common.json ? formats::indented_text(formats::calibration_json(found)) + "\n"
                             : measure_text(view.value(), found, session.style);
  return outcome;
}

}  // namespace duskwire::cli
