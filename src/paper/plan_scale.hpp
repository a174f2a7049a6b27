// SPDX-License-Identifier: Apache-2.0
// The scale of a plan: one of the usual ratios, and how the garden's metres become millimetres of paper.
#pragma once

#include <string>
#include <vector>

#include "geometry/point.hpp"
#include "job/site.hpp"
#include "paper/pen.hpp"

namespace duskwire::paper {

struct PlanScale {
  double ratio = 100;  // metres in the garden for a metre on paper
  std::string words;   // "1:100", "1 in = 10 ft (1:120)"
};

// Largest drawing first. Metric: 1:20, 50, 100, 200, 250, 500 (ISO 5455 with 1:250 of site plans; from memory); US: an
// inch for 5, 10, 20, 30, 40, 50 ft, or a quarter, an eighth, a sixteenth of an inch for a foot. Beyond them 1:1000 and
// on, for an estate.
[[nodiscard]] std::vector<PlanScale> usual_scales(job::DisplayUnits units);

struct SiteBox {
  double left_m = 0;
  double bottom_m = 0;
  double right_m = 0;
  double top_m = 0;

  [[nodiscard]] double width_m() const { return right_m - left_m; }
  [[nodiscard]] double height_m() const { return top_m - bottom_m; }
};

// The first of the usual scales at which the garden goes into the room; the last where none does.
[[nodiscard]] PlanScale scale_that_fits(const SiteBox& site, double width_mm, double height_mm,
                                        job::DisplayUnits units);

// paper_from_site: y goes down on paper.
class PlanFrame {
 public:
  PlanFrame(const SiteBox& site, double ratio, PointMm top_left)
      : site_(site), mm_per_m_(1000 / ratio), at_(top_left) {}

  [[nodiscard]] PointMm at(geometry::Point2 point) const {
    return {at_.x_mm + (point.x_m - site_.left_m) * mm_per_m_, at_.y_mm + (site_.top_m - point.y_m) * mm_per_m_};
  }
  [[nodiscard]] PathMm at(const std::vector<geometry::Point2>& points) const {
    PathMm out;
    for (const geometry::Point2& point : points) out.push_back(at(point));
    return out;
  }
  [[nodiscard]] double mm(double length_m) const { return length_m * mm_per_m_; }

 private:
  SiteBox site_;
  double mm_per_m_;
  PointMm at_;
};

// The bar beside the ratio: on a copy that was shrunk it still tells the truth.
struct ScaleBar {
  double length_mm = 0;  // of the whole bar
  int parts = 0;
  double part = 0;   // in `unit`
  std::string unit;  // "m" or "ft"
};
[[nodiscard]] ScaleBar scale_bar(const PlanScale& scale, job::DisplayUnits units, double most_mm);
void draw_scale_bar(Pen& pen, PointMm at, const ScaleBar& bar);

// Points to north; `north_deg` as in the job: counter-clockwise from the site's +x.
void draw_north_arrow(Pen& pen, PointMm centre, double radius_mm, double north_deg);

}  // namespace duskwire::paper
