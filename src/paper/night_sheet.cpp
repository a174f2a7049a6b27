// SPDX-License-Identifier: Apache-2.0
#include "paper/night_sheet.hpp"

#include <cairo.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace duskwire::paper {
namespace {

struct Colour {
  double r, g, b;
};
constexpr Colour ground{0.075, 0.082, 0.095};
constexpr Colour bright{0.95, 0.93, 0.88};
constexpr Colour quiet{0.70, 0.71, 0.72};

// Sizes as shares of the picture's width, so that the strip reads alike on any picture.
constexpr double title_share = 0.0165;
constexpr double text_share = 0.0112;
constexpr double margin_share = 0.02;
constexpr double least_text_px = 9;

template <class Thing, void (*release)(Thing*)>
struct Release {
  void operator()(Thing* thing) const { release(thing); }
};
using Surface = std::unique_ptr<cairo_surface_t, Release<cairo_surface_t, cairo_surface_destroy>>;
using Pen = std::unique_ptr<cairo_t, Release<cairo_t, cairo_destroy>>;

void let_go(PangoLayout* layout) { g_object_unref(layout); }
using Layout = std::unique_ptr<PangoLayout, Release<PangoLayout, let_go>>;

Layout text_block(cairo_t* pen, const std::string& text, double size_px, double width_px, bool bold) {
  Layout layout(pango_cairo_create_layout(pen));
  PangoFontDescription* font = pango_font_description_from_string(bold ? "Sans Bold" : "Sans");
  pango_font_description_set_absolute_size(font, size_px * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_width(layout.get(), static_cast<int>(width_px * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_line_spacing(layout.get(), 1.15F);
  pango_layout_set_text(layout.get(), text.c_str(), static_cast<int>(text.size()));
  return layout;
}

double height_of(const Layout& layout) {
  int width = 0;
  int height = 0;
  pango_layout_get_pixel_size(layout.get(), &width, &height);
  return height;
}

void draw(cairo_t* pen, const Layout& layout, double x_px, double y_px, Colour colour) {
  cairo_set_source_rgb(pen, colour.r, colour.g, colour.b);
  cairo_move_to(pen, x_px, y_px);
  pango_cairo_show_layout(pen, layout.get());
}

Surface blank(double width_px, double height_px) {
  return Surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width_px), static_cast<int>(height_px)));
}

// The strip as RGB rows.
pictures::Picture strip(std::uint32_t width_px, const NightCaption& caption) {
  const double margin_px = margin_share * width_px;
  const double text_px = std::max(least_text_px, text_share * width_px);
  const double title_px = text_px * title_share / text_share;
  const double within_px = width_px - 2 * margin_px;
  std::string body;
  for (const std::string& line : caption.lines) body += (body.empty() ? "" : " ") + line;

  const Surface scratch = blank(1, 1);
  const Pen measure(cairo_create(scratch.get()));
  const double title_height = height_of(text_block(measure.get(), caption.title, title_px, within_px, true));
  const double body_height = height_of(text_block(measure.get(), body, text_px, within_px, false));
  const double height_px = std::ceil(1.4 * margin_px + title_height + 0.4 * text_px + body_height);

  const Surface surface = blank(width_px, height_px);
  const Pen pen(cairo_create(surface.get()));
  cairo_set_source_rgb(pen.get(), ground.r, ground.g, ground.b);
  cairo_paint(pen.get());
  draw(pen.get(), text_block(pen.get(), caption.title, title_px, within_px, true), margin_px, 0.7 * margin_px, bright);
  draw(pen.get(), text_block(pen.get(), body, text_px, within_px, false), margin_px,
       0.7 * margin_px + title_height + 0.4 * text_px, quiet);
  cairo_surface_flush(surface.get());

  pictures::Picture out{width_px, static_cast<std::uint32_t>(height_px), 3, {}};
  out.elements.resize(pictures::bytes_of(out.width_px, out.height_px, 3));
  const unsigned char* rows = cairo_image_surface_get_data(surface.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  for (std::size_t y = 0; y < out.height_px; ++y) {
    for (std::size_t x = 0; x < width_px; ++x) {
      // Cairo keeps a native-endian word, blue lowest.
      std::uint32_t word = 0;
      std::copy_n(rows + y * stride + 4 * x, 4, reinterpret_cast<unsigned char*>(&word));
      std::uint8_t* to = &out.elements[3 * (y * width_px + x)];
      to[0] = static_cast<std::uint8_t>(word >> 16u);
      to[1] = static_cast<std::uint8_t>(word >> 8u);
      to[2] = static_cast<std::uint8_t>(word);
    }
  }
  return out;
}

}  // namespace

NightCaption night_caption(const study::NightView& view, const std::string& view_name, const std::string& job_title,
                           double adaptation_cd_m2) {
  NightCaption caption;
  caption.title = fmt::format("{}{}{}: night impression, calculated", job_title, job_title.empty() ? "" : ", ",
                              view_name.empty() ? view.view : view_name);
  caption.lines = {
      "Calculated from the daylight photograph, the lamps' light and their places. An impression, not a promise: "
      "the built garden will differ."};
  caption.lines.insert(caption.lines.end(), view.assumptions.begin(), view.assumptions.end());
  caption.lines.push_back(fmt::format(
      "Shown {:.0f} % as a camera would expose it and the rest as an adapted eye sees it, {:+.1f} stops, adapted to "
      "{:.2g} cd/m\u00b2, white at {:.0f} K.",
      100 * view.tone.camera_share, view.tone.exposure_stops, adaptation_cd_m2, view.tone.white_k));
  return caption;
}

pictures::Picture night_sheet(const RenderedNight& night, const NightCaption& caption) {
  pictures::Picture below = strip(night.width_px, caption);
  pictures::Picture sheet{night.width_px, night.height_px + below.height_px, 3, {}};
  sheet.elements.resize(pictures::bytes_of(sheet.width_px, sheet.height_px, 3));
  const std::size_t count = std::size_t{night.width_px} * night.height_px;
  for (std::size_t i = 0; i < count; ++i) {
    std::copy_n(&night.rgba[4 * i], 3, &sheet.elements[3 * i]);
  }
  std::copy(below.elements.begin(), below.elements.end(),
            sheet.elements.begin() + static_cast<std::ptrdiff_t>(3 * count));
  return sheet;
}

}  // namespace duskwire::paper
