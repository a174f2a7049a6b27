// SPDX-License-Identifier: Apache-2.0
#include "study/night_session.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>
#include <utility>

#include "light/colour.hpp"

namespace duskwire::study {
namespace {

// A lamp gives less than this anywhere on the picture: it is not in it.
constexpr float seen_lx = 0.05F;
// Of the light at a place, a lamp's part that is worth naming.
constexpr double named_share = 0.01;

// The same lamp in the same surroundings throws the same light.
bool is_same_lamp(const NightView& p, std::size_t i, const NightView& q, std::size_t j) {
  const light::Lamp& a = p.scene.lamps[i];
  const light::Lamp& b = q.scene.lamps[j];
  return a.position == b.position && a.aim == b.aim && a.zero == b.zero && a.aperture_m == b.aperture_m &&
         p.scene.distributions[a.distribution] == q.scene.distributions[b.distribution];
}

bool is_same_garden(const NightView& p, const NightView& q) {
  return p.caster == q.caster && p.scene.crowns == q.scene.crowns;
}

// The most of sixteen rows side by side, which compilers make vectors of.
float peak_lx(std::span<const float> layer_lx) {
  constexpr std::size_t lanes = 16;
  std::array<float, lanes> most{};
  std::size_t i = 0;
  for (; i + lanes <= layer_lx.size(); i += lanes) {
    for (std::size_t lane = 0; lane < lanes; ++lane) most[lane] = std::max(most[lane], layer_lx[i + lane]);
  }
  float peak = *std::max_element(most.begin(), most.end());
  for (; i < layer_lx.size(); ++i) peak = std::max(peak, layer_lx[i]);
  return peak;
}

std::optional<std::size_t> index_of(const NightView& view, const std::string& id) {
  for (std::size_t i = 0; i < view.lamps.size(); ++i) {
    if (view.lamps[i].id == id) return i;
  }
  return std::nullopt;
}

}  // namespace

void apply(const NightWish& wish, NightView& view) {
  view.tone.camera_share = wish.camera_share.value_or(view.tone.camera_share);
  view.tone.exposure_stops = wish.exposure_stops.value_or(view.tone.exposure_stops);
  view.tone.ambient_lx = wish.ambient_lx.value_or(view.tone.ambient_lx);
  view.tone.white_k = wish.white_k.value_or(view.tone.white_k);
  for (const LampTrial& trial : wish.lamps) {
    const auto i = index_of(view, trial.id);
    if (!i) continue;
    light::LampState& state = view.states[*i];
    state.share *= trial.share.value_or(1);
    state.colour_temperature_k = trial.colour_temperature_k.value_or(state.colour_temperature_k);
  }
}

void NightSession::give(light::Photograph photograph) {
  photograph_ = std::move(photograph);
  view_.reset();
  scene_.reset();
  layers_lx_.clear();
  peaks_lx_.clear();
  strips_.clear();
  sums_.forget();
  rgba_.clear();
}

void NightSession::refresh_grid(const NightView* before) {
  grid_is_new_ = before == nullptr || !(before->plate == view_->plate);
  if (!grid_is_new_) return;
  const light::DaylightReading reading = light::read_daylight(photograph_, view_->plate);
  grid_ = light::night_grid(photograph_, view_->plate, reading, 0, photograph_.height_px);
  strips_ = light::strips_of(grid_);
}

std::vector<std::string> NightSession::refresh_layers(const NightView* before) {
  const bool may_keep = before != nullptr && !grid_is_new_ && is_same_garden(*before, *view_);
  scene_ = light::LitScene(view_->scene, view_->caster, scene_ ? &*scene_ : nullptr);
  std::vector<std::vector<float>> layers(view_->lamps.size());
  std::vector<float> peaks_lx(view_->lamps.size());
  std::vector<std::string> recomputed;
  moved_lx_.clear();
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const auto known = may_keep ? index_of(*before, view_->lamps[i].id) : std::nullopt;
    if (known && is_same_lamp(*before, *known, *view_, i)) {
      layers[i] = std::move(layers_lx_[*known]);
      peaks_lx[i] = peaks_lx_[*known];
    } else {
      if (known) moved_lx_ = std::move(layers_lx_[*known]);
      light::night_layer(grid_, *scene_, static_cast<std::uint32_t>(i), layers[i], view_->care);
      peaks_lx[i] = peak_lx(layers[i]);
      if (!(peaks_lx[i] > 0)) layers[i].clear();
      recomputed.push_back(view_->lamps[i].id);
    }
  }
  layers_lx_ = std::move(layers);
  peaks_lx_ = std::move(peaks_lx);
  return recomputed;
}

bool NightSession::refresh_sums(const NightView* before, const std::vector<std::string>& recomputed) {
  const bool same_lamps = before != nullptr && before->lamps == view_->lamps;
  if (!same_lamps || grid_is_new_) sums_.forget();
  std::vector<std::uint32_t> touched;
  for (std::uint32_t i = 0; i < view_->lamps.size(); ++i) {
    const bool is_new = std::find(recomputed.begin(), recomputed.end(), view_->lamps[i].id) != recomputed.end();
    if (is_new || !same_lamps || !(before->states[i] == view_->states[i])) touched.push_back(i);
  }
  return sums_.update(layers_lx_, view_->states, touched);
}

// Those on which the lamp in hand shines or shone.
std::vector<std::uint32_t> NightSession::strips_of_hand() const {
  std::vector<std::uint32_t> which;
  const auto shines_on = [](std::span<const float> layer_lx, const light::NightStrip& strip) {
    return !layer_lx.empty() && peak_lx(layer_lx.subspan(strip.receiver, strip.count)) > 0;
  };
  for (std::uint32_t i = 0; i < strips_.size(); ++i) {
    if (shines_on(sums_.light().hand.layer_lx, strips_[i]) || shines_on(moved_lx_, strips_[i])) which.push_back(i);
  }
  return which;
}

void NightSession::refresh_picture(bool is_hand_alone) {
  const auto& light = sums_.light();
  if (!is_hand_alone) {
    adapted_cd_m2_ =
        light::show_all_strips(grid_, view_->plate, light, view_->tone, strips_, luminance_cd_m2_).value_cd_m2();
    rgba_.resize(4 * luminance_cd_m2_.size());
    light::develop(luminance_cd_m2_, view_->tone, adapted_cd_m2_, rgba_);
    return;
  }
  const std::vector<std::uint32_t> which = strips_of_hand();
  const double adapted_cd_m2 =
      light::show_strips(grid_, view_->plate, light, view_->tone, which, strips_, luminance_cd_m2_).value_cd_m2();
  const std::span rgba(rgba_);
  if (adapted_cd_m2 != adapted_cd_m2_) {
    light::develop(luminance_cd_m2_, view_->tone, adapted_cd_m2, rgba);
  } else {
    for (const std::uint32_t i : which) {
      const auto& strip = strips_[i];
      light::develop(std::span(luminance_cd_m2_).subspan(strip.element, strip.count), view_->tone, adapted_cd_m2,
                     rgba.subspan(4 * std::size_t{strip.element}, 4 * std::size_t{strip.count}));
    }
  }
  adapted_cd_m2_ = adapted_cd_m2;
}

Result<NightFacts> NightSession::picture(const job::Job& job, const NightWish& wish) {
  if (photograph_.rgb.empty()) {
    return Error{ErrorCode::not_found, "There is no photograph yet: give it before asking for its night."};
  }
  const NightView* known = view_ && view_->view == wish.view ? &*view_ : nullptr;
  Result<NightView> made = night_view(job, wish.view, photograph_.width_px, photograph_.height_px, known);
  if (!made) return made.error();
  std::optional<NightView> before = std::move(view_);
  if (before && before->view != wish.view) before.reset();
  view_ = std::move(made).value();
  apply(wish, *view_);
  refresh_grid(before ? &*before : nullptr);
  std::vector<std::string> recomputed = refresh_layers(before ? &*before : nullptr);
  const bool are_sums_kept = refresh_sums(before ? &*before : nullptr, recomputed);
  refresh_picture(are_sums_kept && before && before->tone == view_->tone && is_same_garden(*before, *view_));
  return facts(std::move(recomputed), adapted_cd_m2_);
}

NightFacts NightSession::facts(std::vector<std::string> recomputed, double adaptation_cd_m2) const {
  NightFacts facts;
  facts.width_px = photograph_.width_px;
  facts.height_px = photograph_.height_px;
  facts.adaptation_cd_m2 = adaptation_cd_m2;
  facts.lit_share = static_cast<double>(grid_.receivers.size()) / static_cast<double>(grid_.reflectance.size());
  for (std::size_t i = 0; i < view_->lamps.size(); ++i) {
    facts.lamps.push_back({view_->lamps[i].id, view_->lamps[i].name, view_->states[i].share,
                           view_->states[i].colour_temperature_k, peaks_lx_[i] >= seen_lx});
  }
  facts.assumptions = view_->assumptions;
  facts.remarks = view_->remarks;
  facts.recomputed = std::move(recomputed);
  return facts;
}

Result<NightProbe> NightSession::probe(double x_px, double y_px) const {
  if (!view_ || luminance_cd_m2_.empty()) {
    return Error{ErrorCode::not_found, "There is no night picture yet: ask for one before asking what lies on it."};
  }
  if (!(x_px >= 0 && y_px >= 0 && x_px < photograph_.width_px && y_px < photograph_.height_px)) {
    return Error{ErrorCode::invalid, fmt::format("({:g}, {:g}) lies outside of the picture of {} by {} elements.", x_px,
                                                 y_px, photograph_.width_px, photograph_.height_px)};
  }
  const auto element = static_cast<std::uint32_t>(y_px) * photograph_.width_px + static_cast<std::uint32_t>(x_px);
  NightProbe probe;
  const auto& shown = luminance_cd_m2_[element];
  probe.cd_m2 = light::luminance({shown[0], shown[1], shown[2]});
  if (grid_.piece[element] != light::no_piece) probe.piece = view_->ids[grid_.piece[element]];
  const auto found = std::lower_bound(grid_.element.begin(), grid_.element.end(), element);
  if (found == grid_.element.end() || *found != element) return probe;
  const auto receiver = static_cast<std::size_t>(found - grid_.element.begin());
  const auto& reflectance = grid_.reflectance[element];
  probe.reflectance = light::luminance({reflectance[0], reflectance[1], reflectance[2]});
  probe.site = grid_.receivers[receiver].position;
  double sum_lx = view_->tone.ambient_lx * grid_.ambient_share[element];
  for (std::size_t i = 0; i < layers_lx_.size(); ++i) {
    if (layers_lx_[i].empty()) continue;
    const double lx = view_->states[i].share * layers_lx_[i][receiver];
    sum_lx += lx;
    probe.lamps.push_back({view_->lamps[i].id, lx});
  }
  probe.lux = sum_lx;
  std::erase_if(probe.lamps, [&](const auto& part) { return !(part.lux >= named_share * sum_lx); });
  std::stable_sort(probe.lamps.begin(), probe.lamps.end(), [](const auto& p, const auto& q) { return p.lux > q.lux; });
  return probe;
}

}  // namespace duskwire::study
