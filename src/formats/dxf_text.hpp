// SPDX-License-Identifier: Apache-2.0
// Writes a drawing as ASCII DXF of release 12 (AC1009), which every program that draws opens: layers, line types,
// blocks and plain entities, in metres. Format: group codes of the DXF reference of release 12 (from memory), read back
// by ezdxf in the tests.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::formats {

enum class DxfLine : std::uint8_t { continuous = 0, dashed = 1, dash_dot = 2 };

struct DxfLayer {
  std::string name;  // capitals, digits, - and _, at most 31 characters
  int colour = 7;    // index of the standard palette; 7 is black on white and white on black
  DxfLine line = DxfLine::continuous;
};

enum class DxfAnchor : std::uint8_t { left = 0, middle = 1 };

class DxfText {
 public:
  explicit DxfText(const std::vector<DxfLayer>& layers) : layers_(layers) {}

  void line(std::string_view layer, geometry::Point2 from, geometry::Point2 to);
  void polyline(std::string_view layer, const std::vector<geometry::Point2>& points, bool closed);
  void circle(std::string_view layer, geometry::Point2 middle, double radius_m);
  void text(std::string_view layer, geometry::Point2 at, double height_m, std::string_view words,
            DxfAnchor anchor = DxfAnchor::left);
  void insert(std::string_view layer, std::string_view block, geometry::Point2 at, double turn_deg = 0);

  // What is written between both is a block of that name, about the origin.
  void begin_block(std::string_view name);
  void end_block();

  [[nodiscard]] std::string str() const;

 private:
  void group(int code, std::string_view value);
  void group(int code, double value);
  void group(int code, int value);
  void point(int code, geometry::Point2 at);
  void entity(std::string_view kind, std::string_view layer);
  void see(geometry::Point2 at);
  [[nodiscard]] std::string head() const;
  [[nodiscard]] std::string tables() const;

  std::vector<DxfLayer> layers_;
  std::string entities_;
  std::string blocks_;
  bool in_block_ = false;
  bool seen_ = false;
  geometry::Point2 least_;
  geometry::Point2 most_;
};

// A text as the format takes it: one line, other characters than ASCII by their number, none that controls it.
[[nodiscard]] std::string dxf_words(std::string_view utf8);

}  // namespace duskwire::formats
