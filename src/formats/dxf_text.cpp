// SPDX-License-Identifier: Apache-2.0
#include "formats/dxf_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace duskwire::formats {
namespace {

constexpr const char* line_names[] = {"CONTINUOUS", "DASHED", "DASHDOT"};

void add(std::string& out, int code, std::string_view value) { out += fmt::format("{:>3}\r\n{}\r\n", code, value); }

// Micrometres are enough; no exponent, no minus zero.
std::string number(double value) {
  const double rounded = std::isfinite(value) ? std::round(value * 1e6) / 1e6 : 0;
  std::string text = fmt::format("{:.6f}", rounded == 0 ? 0 : rounded);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text += '0';
  return text;
}

void add_line_type(std::string& out, const char* name, const char* looks, const std::vector<double>& dashes_m) {
  double length_m = 0;
  for (const double dash : dashes_m) length_m += std::abs(dash);
  add(out, 0, "LTYPE");
  add(out, 2, name);
  add(out, 70, "64");
  add(out, 3, looks);
  add(out, 72, "65");
  add(out, 73, std::to_string(dashes_m.size()));
  add(out, 40, number(length_m));
  for (const double dash : dashes_m) add(out, 49, number(dash));
}

}  // namespace

std::string dxf_words(std::string_view utf8) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto first = static_cast<unsigned char>(utf8[i]);
    const std::size_t length = first < 0x80 ? 1 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
    if (first < 0x80) {
      // %% begins a code, ^ a control character.
      const bool twice = first == '%' && !out.empty() && out.back() == '%';
      if (twice) out += ' ';
      out += first < 0x20 || first == 0x7f ? ' ' : static_cast<char>(first);
      if (first == '^') out += ' ';
    } else if (length == 4 || i + length > utf8.size()) {
      out += '?';  // beyond four digits the format has no number
    } else {
      std::uint32_t code = first & (length == 2 ? 0x1fu : 0x0fu);
      for (std::size_t k = 1; k < length; ++k) code = code << 6 | (static_cast<unsigned char>(utf8[i + k]) & 0x3fu);
      out += fmt::format("\\U+{:04X}", code);
    }
    i += length;
  }
  return out;
}

void DxfText::group(int code, std::string_view value) { add(in_block_ ? blocks_ : entities_, code, value); }
void DxfText::group(int code, double value) { group(code, std::string_view(number(value))); }
void DxfText::group(int code, int value) { group(code, std::string_view(std::to_string(value))); }

void DxfText::point(int code, geometry::Point2 at) {
  group(code, at.x_m);
  group(code + 10, at.y_m);
  group(code + 20, 0.0);
  see(at);
}

void DxfText::see(geometry::Point2 at) {
  if (in_block_) return;
  if (!seen_) least_ = most_ = at;
  seen_ = true;
  least_ = {std::min(least_.x_m, at.x_m), std::min(least_.y_m, at.y_m)};
  most_ = {std::max(most_.x_m, at.x_m), std::max(most_.y_m, at.y_m)};
}

void DxfText::entity(std::string_view kind, std::string_view layer) {
  group(0, kind);
  group(8, layer);
}

void DxfText::line(std::string_view layer, geometry::Point2 from, geometry::Point2 to) {
  entity("LINE", layer);
  point(10, from);
  point(11, to);
}

void DxfText::polyline(std::string_view layer, const std::vector<geometry::Point2>& points, bool closed) {
  if (points.size() < 2) return;
  entity("POLYLINE", layer);
  group(66, 1);
  group(10, 0.0);
  group(20, 0.0);
  group(30, 0.0);
  group(70, closed ? 1 : 0);
  for (const geometry::Point2& at : points) {
    entity("VERTEX", layer);
    point(10, at);
  }
  entity("SEQEND", layer);
}

void DxfText::circle(std::string_view layer, geometry::Point2 middle, double radius_m) {
  entity("CIRCLE", layer);
  point(10, middle);
  group(40, radius_m);
}

void DxfText::text(std::string_view layer, geometry::Point2 at, double height_m, std::string_view words,
                   DxfAnchor anchor) {
  const std::string safe = dxf_words(words);
  if (safe.empty()) return;
  entity("TEXT", layer);
  point(10, at);
  group(40, height_m);
  group(1, std::string_view(safe));
  if (anchor == DxfAnchor::middle) {
    group(72, 1);
    point(11, at);
  }
}

void DxfText::insert(std::string_view layer, std::string_view block, geometry::Point2 at, double turn_deg) {
  entity("INSERT", layer);
  group(2, block);
  point(10, at);
  if (turn_deg != 0) group(50, turn_deg);
}

void DxfText::begin_block(std::string_view name) {
  in_block_ = true;
  entity("BLOCK", "0");
  group(2, name);
  group(70, 0);
  point(10, {});
  group(3, name);
}

void DxfText::end_block() {
  entity("ENDBLK", "0");
  in_block_ = false;
}

std::string DxfText::head() const {
  std::string out;
  const auto variable = [&](const char* name, std::initializer_list<std::pair<int, std::string>> values) {
    add(out, 9, name);
    for (const auto& [code, value] : values) add(out, code, value);
  };
  variable("$ACADVER", {{1, "AC1009"}});
  variable("$INSUNITS", {{70, "6"}});  // metres
  variable("$MEASUREMENT", {{70, "1"}});
  variable("$LUNITS", {{70, "2"}});
  variable("$LUPREC", {{70, "3"}});
  variable("$EXTMIN", {{10, number(least_.x_m)}, {20, number(least_.y_m)}, {30, "0.0"}});
  variable("$EXTMAX", {{10, number(most_.x_m)}, {20, number(most_.y_m)}, {30, "0.0"}});
  return out;
}

std::string DxfText::tables() const {
  std::string out;
  const auto begin = [&](const char* name, std::size_t count) {
    add(out, 0, "TABLE");
    add(out, 2, name);
    add(out, 70, std::to_string(count));
  };
  begin("LTYPE", 3);
  add_line_type(out, line_names[0], "Solid line", {});
  add_line_type(out, line_names[1], "__ __ __", {0.4, -0.2});
  add_line_type(out, line_names[2], "__ . __ .", {0.6, -0.2, 0.0, -0.2});
  add(out, 0, "ENDTAB");
  begin("LAYER", layers_.size());
  for (const DxfLayer& layer : layers_) {
    add(out, 0, "LAYER");
    add(out, 2, layer.name);
    add(out, 70, "0");
    add(out, 62, std::to_string(layer.colour));
    add(out, 6, line_names[static_cast<std::size_t>(layer.line)]);
  }
  add(out, 0, "ENDTAB");
  begin("STYLE", 1);
  add(out, 0, "STYLE");
  add(out, 2, "STANDARD");
  for (const auto& [code, value] :
       {std::pair{70, "0"}, {40, "0.0"}, {41, "1.0"}, {50, "0.0"}, {71, "0"}, {42, "0.25"}, {3, "txt"}, {4, ""}}) {
    add(out, code, value);
  }
  add(out, 0, "ENDTAB");
  return out;
}

std::string DxfText::str() const {
  std::string out;
  const auto section = [&](const char* name, const std::string& content) {
    add(out, 0, "SECTION");
    add(out, 2, name);
    out += content;
    add(out, 0, "ENDSEC");
  };
  section("HEADER", head());
  section("TABLES", tables());
  section("BLOCKS", blocks_);
  section("ENTITIES", entities_);
  add(out, 0, "EOF");
  return out;
}

}  // namespace duskwire::formats
