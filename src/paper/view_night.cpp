// SPDX-License-Identifier: Apache-2.0
#include "paper/view_night.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "pictures/codec.hpp"
#include "study/night_view.hpp"

namespace duskwire::paper {
namespace {

Result<light::Photograph> decoded(const std::string& bytes, std::optional<std::uint32_t> most_width_px) {
  Result<pictures::Decoded> read = pictures::decode(bytes);
  if (!read) return read.error();
  pictures::Picture picture = pictures::opaque(read.value().picture);
  if (most_width_px && *most_width_px < picture.width_px) {
    const double share = static_cast<double>(*most_width_px) / picture.width_px;
    const auto height_px = static_cast<std::uint32_t>(std::max(1L, std::lround(share * picture.height_px)));
    picture = pictures::shrunk(picture, *most_width_px, height_px);
  }
  return light::Photograph{picture.width_px, picture.height_px, std::move(picture.elements)};
}

std::string name_of(const job::Job& job, const std::string& id) {
  const auto found = std::find_if(job.views.begin(), job.views.end(), [&](const auto& view) { return view.id == id; });
  return found == job.views.end() ? "" : found->name;
}

}  // namespace

Result<ViewNight> view_night(const job::Job& job, const study::NightWish& wish, const std::string& photograph,
                             const NightSize& size, const NightProgress& progress) {
  Result<light::Photograph> read = decoded(photograph, size.most_width_px);
  if (!read) return read.error();
  const light::Photograph& day = read.value();
  Result<study::NightView> view = study::night_view(job, wish.view, day.width_px, day.height_px);
  if (!view) return view.error();
  study::apply(wish, view.value());
  auto night = render_night(day, view.value(), std::max(1u, size.threads), progress);
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
