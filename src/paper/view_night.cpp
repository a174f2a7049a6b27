// SPDX-License-Identifier: Apache-2.0
#include "paper/view_night.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "pictures/codec.hpp"
#include "study/night_view.hpp"

namespace duskwire::paper {
namespace {

std::string name_of(const job::Job& job, const std::string& id) {
  const auto found = std::find_if(job.views.begin(), job.views.end(), [&](const auto& view) { return view.id == id; });
  return found == job.views.end() ? "" : found->name;
}

}  // namespace

Result<ViewNight> view_night(const job::Job& job, const study::NightWish& wish, const std::string& photograph,
                             const NightSize& size, const NightProgress& progress) {
  const Result<pictures::Decoded> read = pictures::decode(photograph);
  if (!read) return read.error();
  return view_night(job, wish, pictures::opaque_within(read.value().picture, size.most_width_px.value_or(0)),
                    size.threads, progress);
}

Result<ViewNight> view_night(const job::Job& job, const study::NightWish& wish, pictures::Picture photograph,
                             unsigned threads, const NightProgress& progress) {
  const light::Photograph day{photograph.width_px, photograph.height_px, std::move(photograph.elements)};
  Result<study::NightView> view = study::night_view(job, wish.view, day.width_px, day.height_px);
  if (!view) return view.error();
  study::apply(wish, view.value());
  auto night = render_night(day, view.value(), std::max(1u, threads), progress);
  if (!night) return Error{ErrorCode::unavailable, "It was ended."};
  NightCaption caption = night_caption(view.value(), name_of(job, wish.view), job.title, night->adaptation_cd_m2);
  return ViewNight{std::move(view).value(), *std::move(night), std::move(caption)};
}

Picture night_on_paper(const ViewNight& made) {
  auto picture = std::make_shared<pictures::Picture>();
  picture->width_px = made.night.width_px;
  picture->height_px = made.night.height_px;
  picture->elements.reserve(made.night.rgba.size() / 4 * 3);
  for (std::size_t i = 0; i < made.night.rgba.size(); i += 4) {
    picture->elements.insert(picture->elements.end(), &made.night.rgba[i], &made.night.rgba[i + 3]);
  }
  Picture shown;
  shown.picture = std::move(picture);
  shown.alternative = made.caption.title;
  shown.caption = made.caption.title + ".";
  // What kind of picture it is, the first line, stands once below all pictures of the paper.
  for (std::size_t i = 1; i < made.caption.lines.size(); ++i) shown.caption += " " + made.caption.lines[i];
  return shown;
}

}  // namespace duskwire::paper
