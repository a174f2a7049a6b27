// SPDX-License-Identifier: Apache-2.0
#include "paper/night_plan_sheet.hpp"

#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>

#include "paper/lux_colour.hpp"

namespace duskwire::paper {
namespace {

using geometry::Point2;

constexpr double margin_px = 28;
constexpr double head_px = 64;
constexpr double foot_px = 116;
constexpr double tallest_px = 6000;
constexpr Colour ground{0.055, 0.071, 0.094, 1};
constexpr Colour ink{0.91, 0.93, 0.95, 1};
constexpr Colour faint{0.62, 0.67, 0.73, 1};
constexpr Colour roof{0.20, 0.23, 0.27, 1};
constexpr double lux_per_footcandle = 10.763910417;

struct SurfaceEnd {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
struct PenEnd {
  void operator()(cairo_t* pen) const { cairo_destroy(pen); }
};
using Pen = std::unique_ptr<cairo_t, PenEnd>;

cairo_status_t append(void* out, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

class Sheet {
 public:
  Sheet(const job::Job& job, const study::NightPlan& plan, const NightPlanLook& look)
      : job_(job), plan_(plan), look_(look) {
    const double wide_m = plan.columns * plan.cell_m;
    const double high_m = plan.rows * plan.cell_m;
    scale_ = std::min((look.width_px - 2 * margin_px) / wide_m, tallest_px / high_m);
    width_px_ = look.width_px;
    height_px_ = head_px + high_m * scale_ + foot_px;
    left_px_ = (width_px_ - wide_m * scale_) / 2;
  }

  double width_px() const { return width_px_; }
  double height_px() const { return height_px_; }

  void draw(cairo_t* pen) {
    pen_ = pen;
    set(ground);
    cairo_paint(pen_);
    text(margin_px, 18, 20, ink, job_.title.empty() ? "Night plan" : job_.title, true);
    text(margin_px, 42, 13, faint,
         look_.pools ? "Light on the ground, as pools" : "Light on the ground in lux, with lines of equal light");
    cells();
    areas();
    if (!look_.pools) contours();
    lamps();
    legend();
  }

 private:
  void set(const Colour& colour) { cairo_set_source_rgba(pen_, colour.red, colour.green, colour.blue, colour.alpha); }

  double x(double x_m) const { return left_px_ + (x_m - plan_.origin.x_m) * scale_; }
  double y(double y_m) const { return head_px + (plan_.origin.y_m + plan_.rows * plan_.cell_m - y_m) * scale_; }

  void text(double x_px, double y_px, double size_px, const Colour& colour, const std::string& words, bool bold = false,
            double wrap_px = 0) {
    PangoLayout* layout = pango_cairo_create_layout(pen_);
    PangoFontDescription* font = pango_font_description_from_string(bold ? "DejaVu Sans Bold" : "DejaVu Sans");
    pango_font_description_set_absolute_size(font, size_px * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    if (wrap_px > 0) pango_layout_set_width(layout, static_cast<int>(wrap_px * PANGO_SCALE));
    pango_layout_set_text(layout, words.data(), static_cast<int>(words.size()));
    set(colour);
    cairo_move_to(pen_, x_px, y_px);
    pango_cairo_show_layout(pen_, layout);
    pango_font_description_free(font);
    g_object_unref(layout);
  }

  // One picture element a cell, smoothed by the drawing library as it is enlarged.
  void cells() {
    Surface picture(
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, static_cast<int>(plan_.columns), static_cast<int>(plan_.rows)));
    unsigned char* bytes = cairo_image_surface_get_data(picture.get());
    if (bytes == nullptr) return;
    const int stride = cairo_image_surface_get_stride(picture.get());
    for (std::uint32_t row = 0; row < plan_.rows; ++row) {
      auto* line = reinterpret_cast<std::uint32_t*>(bytes + static_cast<std::ptrdiff_t>(plan_.rows - 1 - row) * stride);
      for (std::uint32_t column = 0; column < plan_.columns; ++column) {
        const double lx = static_cast<double>(plan_.lx[std::size_t{row} * plan_.columns + column]);
        line[column] = element(lx < 0 ? roof : (look_.pools ? pool_colour(lx) : false_colour(lx)));
      }
    }
    cairo_surface_mark_dirty(picture.get());
    cairo_save(pen_);
    cairo_translate(pen_, left_px_, head_px);
    cairo_scale(pen_, scale_ * plan_.cell_m, scale_ * plan_.cell_m);
    cairo_set_source_surface(pen_, picture.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(pen_), CAIRO_FILTER_BILINEAR);
    cairo_pattern_set_extend(cairo_get_source(pen_), CAIRO_EXTEND_PAD);
    cairo_rectangle(pen_, 0, 0, plan_.columns, plan_.rows);
    cairo_fill(pen_);
    cairo_restore(pen_);
  }

  // Premultiplied, as the library holds it.
  static std::uint32_t element(const Colour& colour) {
    const auto part = [&](double value) {
      return static_cast<std::uint32_t>(std::lround(255 * std::clamp(value * colour.alpha, 0.0, 1.0)));
    };
    const auto alpha = static_cast<std::uint32_t>(std::lround(255 * colour.alpha));
    return (alpha << 24u) | (part(colour.red) << 16u) | (part(colour.green) << 8u) | part(colour.blue);
  }

  void line(const geometry::Polyline& points, bool close) {
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (i == 0) {
        cairo_move_to(pen_, x(points[i].x_m), y(points[i].y_m));
      } else {
        cairo_line_to(pen_, x(points[i].x_m), y(points[i].y_m));
      }
    }
    if (close) cairo_close_path(pen_);
  }

  void areas() {
    cairo_save(pen_);
    cairo_rectangle(pen_, left_px_, head_px, plan_.columns * plan_.cell_m * scale_, plan_.rows * plan_.cell_m * scale_);
    cairo_clip(pen_);
    for (const job::Area& area : job_.plan.areas) {
      line(area.outline, true);
      if (area.kind == job::GroundKind::building) {
        set(roof);
        cairo_fill_preserve(pen_);
      }
      set({1, 1, 1, 0.35});
      cairo_set_line_width(pen_, 1);
      cairo_stroke(pen_);
    }
    for (const job::Tree& tree : job_.plan.trees) {
      cairo_arc(pen_, x(tree.position.x_m), y(tree.position.y_m), std::max(tree.crown_width_m / 2 * scale_, 1.0), 0,
                2 * 3.14159265358979);
      set({1, 1, 1, 0.4});
      cairo_set_line_width(pen_, 1);
      cairo_stroke(pen_);
    }
    line(job_.plan.property_line, true);
    set({1, 1, 1, 0.7});
    const double dashes[] = {8, 4, 2, 4};
    cairo_set_dash(pen_, dashes, 4, 0);
    cairo_set_line_width(pen_, 1.5);
    cairo_stroke(pen_);
    cairo_restore(pen_);
  }

  void contours() {
    for (const study::LightContour& contour : plan_.contours) {
      for (const geometry::Polyline& points : contour.lines) {
        line(points, false);
        set({1, 1, 1, 0.75});
        cairo_set_line_width(pen_, contour.lx >= 10 ? 1.3 : 0.8);
        cairo_stroke(pen_);
      }
    }
  }

  void lamps() {
    for (const job::Luminaire& lamp : job_.luminaires) {
      if (!lamp.position) continue;
      cairo_arc(pen_, x(lamp.position->x_m), y(lamp.position->y_m), 3.2, 0, 2 * 3.14159265358979);
      set({1, 1, 1, 1});
      cairo_fill_preserve(pen_);
      set({0, 0, 0, 1});
      cairo_set_line_width(pen_, 1);
      cairo_stroke(pen_);
    }
  }

  std::string lux_label(double lx) const {
    if (look_.units == job::DisplayUnits::us) return fmt::format("{:g} lx ({:.2g} fc)", lx, lx / lux_per_footcandle);
    return fmt::format("{:g} lx", lx);
  }

  void legend() {
    const double top = height_px_ - foot_px + 18;
    const double wide = (width_px_ - 2 * margin_px) / static_cast<double>(std::size(study::contour_lx));
    double left = margin_px;
    for (const double lx : study::contour_lx) {
      set({0.12, 0.14, 0.18, 1});
      cairo_rectangle(pen_, left, top, wide - 4, 18);
      cairo_fill(pen_);
      set(look_.pools ? pool_colour(lx) : false_colour(lx));
      cairo_rectangle(pen_, left, top, wide - 4, 18);
      cairo_fill(pen_);
      text(left, top + 22, 12, ink, lux_label(lx));
      left += wide;
    }
    text(margin_px, top + 48, 11, faint,
         "Calculated: direct light of the lamps on level ground, with shadows, at today's dimming and volts. An "
         "estimate, "
         "not a measurement. White dots are lamps, dashes the property line.",
         false, width_px_ - 2 * margin_px);
  }

  const job::Job& job_;
  const study::NightPlan& plan_;
  NightPlanLook look_;
  cairo_t* pen_ = nullptr;
  double scale_ = 1;
  double width_px_ = 0;
  double height_px_ = 0;
  double left_px_ = 0;
};

Error nothing_to_draw() {
  return {ErrorCode::invalid,
          "The job has nothing on its plan, so there is no night plan to draw. Place lamps or areas."};
}

Error gave_up(cairo_status_t status) {
  return {ErrorCode::unavailable,
          fmt::format("The night plan could not be drawn: {}.", cairo_status_to_string(status))};
}

}  // namespace

Result<std::string> night_plan_png(const job::Job& job, const study::NightPlan& plan, const NightPlanLook& look) {
  if (plan.lx.empty()) return nothing_to_draw();
  Sheet sheet(job, plan, look);
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(sheet.width_px())),
                                                   static_cast<int>(std::ceil(sheet.height_px()))));
  {
    const Pen pen(cairo_create(surface.get()));
    sheet.draw(pen.get());
  }
  std::string bytes;
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  if (status != CAIRO_STATUS_SUCCESS) return gave_up(status);
  return bytes;
}

Result<std::string> night_plan_svg(const job::Job& job, const study::NightPlan& plan, const NightPlanLook& look) {
  if (plan.lx.empty()) return nothing_to_draw();
  Sheet sheet(job, plan, look);
  std::string bytes;
  const Surface surface(cairo_svg_surface_create_for_stream(append, &bytes, sheet.width_px(), sheet.height_px()));
  {
    const Pen pen(cairo_create(surface.get()));
    sheet.draw(pen.get());
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) return gave_up(status);
  return bytes;
}

}  // namespace duskwire::paper
