// SPDX-License-Identifier: Apache-2.0
// LM-63 text: keywords, TILT, counts, sizes, table, in lines of at most 120 characters (the standard allows 256).
#include "light/lm63_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/utf8.hpp"
#include "light/intensity_text.hpp"
#include "light/opening.hpp"
#include "light/unfold.hpp"

namespace duskwire::light {
namespace {

constexpr std::size_t line_chars = 120;
constexpr const char* line_end = "\r\n";

// Lines of a text, none longer than the file's lines may be.
std::vector<std::string_view> pieces_of(std::string_view text) {
  std::vector<std::string_view> pieces;
  while (true) {
    std::size_t end = 0;
    for (std::size_t chars = 0; end < text.size() && text[end] != '\n' && chars < line_chars; ++chars) {
      end += std::max<std::size_t>(1, character_bytes(text.substr(end)));
    }
    pieces.push_back(text.substr(0, end));
    if (end == text.size()) return pieces;
    text.remove_prefix(text[end] == '\n' ? end + 1 : end);
  }
}

void add_keyword(std::string& out, const Keyword& keyword) {
  std::string name = shortened(keyword.name);
  for (const std::string_view piece : pieces_of(keyword.text)) {
    const std::string clean = shortened(piece, line_chars);
    out += fmt::format("[{}] {}{}", name, trimmed(clean), line_end);
    name = "MORE";
  }
}

void add_keywords(std::string& out, const IntensityFile& file) {
  for (const Keyword& keyword : file.keywords) add_keyword(out, keyword);
  for (const char* name : {"TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"}) {
    const bool there = std::any_of(file.keywords.begin(), file.keywords.end(),
                                   [&](const Keyword& keyword) { return keyword.name == name; });
    if (!there) add_keyword(out, {name, "not stated"});
  }
}

class WrappedLines {
 public:
  explicit WrappedLines(std::string& out) : out_(out) {}
  void add(const std::string& word) {
    if (width_ > 0 && width_ + 1 + word.size() > line_chars) end();
    if (width_ > 0) out_ += ' ';
    out_ += word;
    width_ += word.size() + (width_ > 0 ? 1 : 0);
  }
  void end() {
    if (width_ > 0) out_ += line_end;
    width_ = 0;
  }

 private:
  std::string& out_;
  std::size_t width_ = 0;
};

void add_numbers(std::string& out, const std::vector<double>& numbers) {
  WrappedLines lines(out);
  for (const double number : numbers) lines.add(fmt::format("{}", number));
  lines.end();
}

std::string without_end_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

// Eight digits of the largest intensity, as decimals for all of them.
int decimals_for(const std::vector<double>& intensity_cd) {
  const double top_cd = *std::max_element(intensity_cd.begin(), intensity_cd.end());
  if (!(top_cd > 0)) return 0;
  return std::clamp(8 - static_cast<int>(std::ceil(std::log10(top_cd))), 0, 10);
}

void add_intensities(std::string& out, const ListedTable& table) {
  const int decimals = decimals_for(table.intensity_cd);
  const std::size_t rows = table.vertical_deg.size();
  for (std::size_t plane = 0; plane < table.horizontal_deg.size(); ++plane) {
    WrappedLines lines(out);
    for (std::size_t v = 0; v < rows; ++v) {
      lines.add(without_end_zeros(fmt::format("{:.{}f}", table.intensity_cd[plane * rows + v], decimals)));
    }
    lines.end();
  }
}

// The table in planes as LM-63 wants them: a whole turn closed, a mirror about 90-270 from 90 to 270.
ListedTable table_to_write(const IntensityFile& file) {
  if (file.listed.symmetry == IntensitySymmetry::none) return listed_from(file.distribution);
  ListedTable table = file.listed;
  if (file.format == IntensityFormat::eulumdat) {
    for (double& intensity_cd : table.intensity_cd) intensity_cd *= file.lamp_sets.at(0).flux_lm / 1000;
  }
  if (table.symmetry == IntensitySymmetry::axial) table.horizontal_deg = {0};
  if (table.symmetry != IntensitySymmetry::mirror_90_270 || table.horizontal_deg.front() >= 0) return table;
  const std::size_t rows = table.vertical_deg.size();
  std::vector<double> turned;
  for (std::size_t plane = table.horizontal_deg.size(); plane-- > 0;) {
    const auto start = table.intensity_cd.begin() + static_cast<std::ptrdiff_t>(plane * rows);
    turned.insert(turned.end(), start, start + static_cast<std::ptrdiff_t>(rows));
  }
  table.intensity_cd = std::move(turned);
  std::reverse(table.horizontal_deg.begin(), table.horizontal_deg.end());
  for (double& angle_deg : table.horizontal_deg) angle_deg = 180 - angle_deg;
  return table;
}

void add_tilt(std::string& out, const IntensityFile& file) {
  out += fmt::format("TILT={}{}", file.tilt.empty() ? "NONE" : file.tilt, line_end);
  if (!file.lamp_tilt) return;
  out += fmt::format("{}{}{}{}", file.lamp_tilt->geometry, line_end, file.lamp_tilt->angle_deg.size(), line_end);
  add_numbers(out, file.lamp_tilt->angle_deg);
  add_numbers(out, file.lamp_tilt->factor);
}

}  // namespace

std::string write_lm63(const IntensityFile& file) {
  const bool edition_2019 = file.format == IntensityFormat::lm63_2019;
  std::string out = fmt::format("{}{}", edition_2019 ? "IES:LM-63-2019" : "IESNA:LM-63-2002", line_end);
  add_keywords(out, file);
  add_tilt(out, file);
  const ListedTable table = table_to_write(file);
  const int type = table.type == PhotometricType::c ? 1 : table.type == PhotometricType::b ? 2 : 3;
  const std::array<double, 3> size_m = signed_size_2002(file.opening);
  out += fmt::format("{} {} 1 {} {} {} 2 {:.9g} {:.9g} {:.9g}{}", file.lamp_count, file.lumens_per_lamp.value_or(-1),
                     table.vertical_deg.size(), table.horizontal_deg.size(), type, size_m[0], size_m[1], size_m[2],
                     line_end);
  out += edition_2019 ? fmt::format("1 {:.5f} {}{}", file.slot12, file.power_w, line_end)
                      : fmt::format("1 1 {}{}", file.power_w, line_end);
  add_numbers(out, table.vertical_deg);
  add_numbers(out, table.horizontal_deg);
  add_intensities(out, table);
  return out;
}

IntensityFile intensity_file_from(const Distribution& distribution, std::string luminaire, double power_w) {
  IntensityFile file;
  file.format = IntensityFormat::lm63_2019;
  file.slot12 = 1.0001;
  file.tilt = "NONE";
  file.power_w = power_w;
  file.keywords.push_back({"LUMINAIRE", std::move(luminaire)});
  file.listed = listed_from(distribution);
  file.distribution = distribution;
  return file;
}

}  // namespace duskwire::light
