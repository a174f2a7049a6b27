// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "base/nearest.hpp"
#include "cli/commands.hpp"
#include "cli/interrupt.hpp"
#include "cli/night_photo.hpp"
#include "cli/output_file.hpp"
#include "cli/progress_line.hpp"
#include "cli/quantity.hpp"
#include "cli/session.hpp"
#include "formats/json_text.hpp"
#include "paper/night_sheet.hpp"
#include "paper/view_night.hpp"
#include "pictures/codec.hpp"

namespace duskwire::cli {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto between_looks = std::chrono::milliseconds(100);

double seconds_since(Clock::time_point begun) { return std::chrono::duration<double>(Clock::now() - begun).count(); }

Outcome complain(std::string text) { return {exit_bad_input, "", std::move(text) + "\n"}; }

std::vector<std::string> view_ids(const job::Job& job) {
  std::vector<std::string> ids;
  for (const job::View& view : job.views) ids.push_back(view.id);
  return ids;
}

// The view asked for; the only one where none was named.
Or<const job::View*> find_view(const job::Job& job, const std::string& wanted) {
  if (wanted.empty() && job.views.size() == 1) return &job.views.front();
  for (const job::View& view : job.views) {
    if (view.id == wanted) return &view;
  }
  const std::vector<std::string> ids = view_ids(job);
  if (ids.empty()) {
    return complain(
        "The job has no view: bring a photograph in and calibrate it first (docs/guide.md, the night view).");
  }
  if (wanted.empty()) return complain(fmt::format("--view: name one of {}.", fmt::join(ids, ", ")));
  const std::string meant = nearest(wanted, ids);
  return complain(fmt::format(
      "--view: the job has no view \"{}\". {}", wanted,
      meant.empty() ? fmt::format("It has {}.", fmt::join(ids, ", ")) : fmt::format("Did you mean {}?", meant)));
}

Result<paper::ViewNight> make(const study::NightWish& wish, const job::Job& job, const std::string& photograph,
                              std::optional<std::uint32_t> most_width_px) {
  ProgressLine line;
  const Clock::time_point begun = Clock::now();
  Clock::time_point look = begun;
  const paper::NightSize size{most_width_px, std::thread::hardware_concurrency()};
  return paper::view_night(job, wish, photograph, size, [&](double share) {
    if (line.is_seen() && Clock::now() >= look) {
      line.show(fmt::format("{} s  {} of the night picture", number(seconds_since(begun), 1), percent(share)));
      look = Clock::now() + between_looks;
    }
    return !Interrupt::met();
  });
}

bool ends_with(const std::string& text, const std::string& ending) {
  return text.size() >= ending.size() && text.compare(text.size() - ending.size(), ending.size(), ending) == 0;
}

Result<std::string> encode(const pictures::Picture& sheet, const std::string& file) {
  if (ends_with(file, ".jpg") || ends_with(file, ".jpeg")) return pictures::encode_jpeg(sheet);
  return pictures::encode_png(sheet);
}

std::string page_of(const study::NightView& view, const paper::RenderedNight& night, const std::string& file,
                    double elapsed_s) {
  const auto on = std::count_if(view.states.begin(), view.states.end(), [](const auto& s) { return s.share > 0; });
  std::string text = fmt::format("{}: {} by {} picture elements, {} of {} lamps on, {} s.\n", file, night.width_px,
                                 night.height_px, on, view.states.size(), number(elapsed_s, 1));
  text += "A calculated impression, not a promise. Assumed:\n";
  for (const std::string& line : view.assumptions) text += "  " + line + "\n";
  for (const std::string& line : view.remarks) text += "  Look at: " + line + "\n";
  return text;
}

std::string json_of(const study::NightView& view, const paper::RenderedNight& night) {
  formats::Json out;
  out["view"] = view.view;
  out["width_px"] = night.width_px;
  out["height_px"] = night.height_px;
  out["adaptation_cd_m2"] = night.adaptation_cd_m2;
  out["lamps"] = formats::Json::array();
  for (std::size_t i = 0; i < view.lamps.size(); ++i) {
    out["lamps"].push_back({{"id", view.lamps[i].id},
                            {"share", view.states[i].share},
                            {"colour_temperature_k", view.states[i].colour_temperature_k}});
  }
  out["assumptions"] = view.assumptions;
  out["remarks"] = view.remarks;
  return formats::indented_text(out) + "\n";
}

}  // namespace

Outcome night_command(const NightRequest& request, const Common& common, const TextStyle& style) {
  if (common.output.empty()) return complain("Name the picture to write: --output FILE.png (or .jpg).");
  const Result<bool> writable = may_write(common.output, common.force);
  if (!writable) return refuse(writable.error());
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Or<const job::View*> found = find_view(session.job, request.wish.view);
  if (const auto* refused = std::get_if<Outcome>(&found)) return *refused;
  const job::View& asked = *std::get<const job::View*>(found);
  const Result<std::string> photograph = read_photo(asked, request.job, request.photo);
  if (!photograph) return refuse(photograph.error());

  const Interrupt interrupt;
  const Clock::time_point begun = Clock::now();
  study::NightWish wish = request.wish;
  wish.view = asked.id;
  const Result<paper::ViewNight> made = make(wish, session.job, photograph.value(), request.width_px);
  if (!made && Interrupt::met()) return {exit_findings, "", "Stopped. Nothing was written.\n"};
  if (!made) return refuse(made.error());
  const auto& [view, night, caption] = made.value();
  Result<std::string> file = encode(paper::night_sheet(night, caption), common.output);
  if (!file) return refuse(file.error());

  Outcome outcome{exit_sound, "", session.remarks};
  outcome.document = std::move(file).value();
  outcome.text = common.json ? json_of(view, night) : page_of(view, night, common.output, seconds_since(begun));
  return outcome;
}

}  // namespace duskwire::cli
