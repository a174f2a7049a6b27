// SPDX-License-Identifier: Apache-2.0
#include "paper/night_render.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <span>
#include <thread>

namespace duskwire::paper {
namespace {

// Small enough for a processor's cache, large enough for packets of rays.
constexpr std::uint32_t band_elements = 32'768;
constexpr double faint_lx = 0.01;
// Of the whole work: the rest is exposure and development.
constexpr double light_share = 0.95;

class Renderer {
 public:
  Renderer(const light::Photograph& photograph, const study::NightView& view, const NightProgress& progress)
      : photograph_(photograph),
        view_(view),
        progress_(progress),
        reading_(light::read_daylight(photograph, view.plate)),
        scene_(view.scene, view.caster),
        luminance_cd_m2_(std::size_t{photograph.width_px} * photograph.height_px) {
    care_ = view.care;
    care_.faint_lx = std::max(care_.faint_lx, faint_lx);
    rows_in_band_ = std::max(1u, band_elements / std::max(1u, photograph.width_px));
    band_count_ = (photograph.height_px + rows_in_band_ - 1) / rows_in_band_;
    means_.resize(band_count_);
  }

  std::optional<RenderedNight> run(unsigned threads) {
    if (!tell(0) || !on_threads(
                        threads, [this](std::uint32_t band) { light_band(band); }, 0, light_share)) {
      return std::nullopt;
    }
    RenderedNight out;
    out.width_px = photograph_.width_px;
    out.height_px = photograph_.height_px;
    out.adaptation_cd_m2 = mean().value_cd_m2();
    out.rgba.resize(4 * luminance_cd_m2_.size());
    const bool whole = on_threads(
        threads, [&](std::uint32_t band) { develop_band(band, out); }, light_share, 1);
    if (!whole) return std::nullopt;
    return out;
  }

 private:
  [[nodiscard]] bool tell(double share) const { return !progress_ || progress_(share); }

  [[nodiscard]] std::uint32_t first_row(std::uint32_t band) const { return band * rows_in_band_; }
  [[nodiscard]] std::uint32_t rows_of(std::uint32_t band) const {
    return std::min(rows_in_band_, photograph_.height_px - first_row(band));
  }

  // Each band once, by whichever thread is free. False where it was ended before the last.
  template <class Work>
  bool on_threads(unsigned threads, const Work& work, double from_share, double to_share) {
    std::atomic<std::uint32_t> next{0};
    std::atomic<bool> ended{false};
    std::uint32_t done = 0;
    const auto run_bands = [&] {
      for (std::uint32_t band = next++; band < band_count_ && !ended; band = next++) {
        work(band);
        const std::lock_guard<std::mutex> lock(mutex_);
        ++done;
        if (!tell(from_share + (to_share - from_share) * done / band_count_)) ended = true;
      }
    };
    std::vector<std::thread> others;
    for (unsigned i = 1; i < std::max(1u, threads); ++i) others.emplace_back(run_bands);
    run_bands();
    for (std::thread& other : others) other.join();
    return done == band_count_;
  }

  void light_band(std::uint32_t band) {
    const light::NightGrid grid = light::night_grid(photograph_, view_.plate, reading_, first_row(band), rows_of(band));
    light::NightLight light;
    light.all_lx.resize(grid.receivers.size());
    std::vector<float> layer_lx;
    for (std::uint32_t lamp = 0; lamp < view_.scene.lamps.size(); ++lamp) {
      light::night_layer(grid, scene_, lamp, layer_lx, care_);
      light::add_layer(layer_lx, 1, light.all_lx);
      add_coloured(layer_lx, view_.states[lamp], light.by_colour);
    }
    std::vector<std::array<float, 3>> shown;
    means_[band] = light::show_night(grid, view_.plate, light, view_.tone, shown);
    std::copy(shown.begin(), shown.end(), luminance_cd_m2_.begin() + first_element(band));
  }

  static void add_coloured(const std::vector<float>& layer_lx, const light::LampState& state,
                           std::vector<light::ColouredLight>& lights) {
    if (!(state.share > 0)) return;
    auto light = std::find_if(lights.begin(), lights.end(), [&](const light::ColouredLight& known) {
      return known.colour_temperature_k == state.colour_temperature_k;
    });
    if (light == lights.end()) {
      lights.push_back({state.colour_temperature_k, std::vector<float>(layer_lx.size())});
      light = lights.end() - 1;
    }
    light::add_layer(layer_lx, static_cast<float>(state.share), light->lx);
  }

  [[nodiscard]] light::LogMean mean() const {
    light::LogMean sum;
    for (const light::LogMean& one : means_) {
      sum.sum += one.sum;
      sum.weight += one.weight;
    }
    return sum;
  }

  void develop_band(std::uint32_t band, RenderedNight& out) {
    const auto elements = std::size_t{rows_of(band)} * photograph_.width_px;
    const auto first = static_cast<std::size_t>(first_element(band));
    light::develop(std::span(luminance_cd_m2_).subspan(first, elements), view_.tone, out.adaptation_cd_m2,
                   std::span(out.rgba).subspan(4 * first, 4 * elements));
  }

  [[nodiscard]] std::ptrdiff_t first_element(std::uint32_t band) const {
    return static_cast<std::ptrdiff_t>(first_row(band)) * photograph_.width_px;
  }

  const light::Photograph& photograph_;
  const study::NightView& view_;
  const NightProgress& progress_;
  light::DaylightReading reading_;
  light::LitScene scene_;
  light::Care care_;
  std::vector<std::array<float, 3>> luminance_cd_m2_;
  std::uint32_t rows_in_band_ = 1;
  std::uint32_t band_count_ = 0;
  std::mutex mutex_;
  std::vector<light::LogMean> means_;  // per band: summed in their order, so that the picture is the same every time
};

}  // namespace

std::optional<RenderedNight> render_night(const light::Photograph& photograph, const study::NightView& view,
                                          unsigned threads, const NightProgress& progress) {
  return Renderer(photograph, view, progress).run(threads);
}

}  // namespace duskwire::paper
