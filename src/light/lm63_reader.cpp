// SPDX-License-Identifier: Apache-2.0
// LM-63 behind its head: counts, sizes, angles, intensities (ANSI/IESNA LM-63-02 sec. 5.6 to 5.12).
#include "light/lm63_reader.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/units.hpp"
#include "light/intensity_table.hpp"
#include "light/lm63_head.hpp"
#include "light/lm63_numbers.hpp"
#include "light/lm63_symmetry.hpp"
#include "light/opening.hpp"
#include "light/unfold.hpp"

namespace duskwire::light {
namespace {

struct Counts {
  double vertical = 0;
  double horizontal = 0;
};

bool is_count(double number) { return number >= 1 && number <= 1e6 && number == std::floor(number); }

void read_tilt(IntensityFile& file, Lm63Numbers& numbers, IntensityFindings& findings) {
  LampTilt tilt;
  const double geometry = numbers.next("the lamp's geometry (1, 2 or 3)", 1);
  if (geometry != 1 && geometry != 2 && geometry != 3) {
    findings.error(
        numbers.line(), fmt::format("{}", geometry), "1, 2 or 3",
        "The lamp's geometry behind TILT=INCLUDE is 1 (upright), 2 (lies and stays so) or 3 (lies and tilts).");
  }
  tilt.geometry = geometry == 2 ? 2 : geometry == 3 ? 3 : 1;
  const double count = numbers.next("the count of tilt angles", 1);
  if (!is_count(count)) {
    findings.error(numbers.line(), fmt::format("{}", count), "a whole number of 1 or more",
                   "The count of tilt angles is none. Values were lost or added behind TILT=INCLUDE.");
    return;
  }
  tilt.angle_deg = numbers.list("tilt angles", count);
  check_angles(tilt.angle_deg, "tilt angles", 0, 180, numbers.line(), findings);
  tilt.factor = numbers.list("tilt factors", count);
  file.lamp_tilt = std::move(tilt);
}

void demand_positive(double value, const char* what, std::size_t line, IntensityFindings& findings) {
  if (value > 0) return;
  findings.error(line, fmt::format("{}", value), "above 0",
                 fmt::format("The {} must be above 0, or every intensity would be lost.", what));
}

Counts read_counts(IntensityFile& file, Lm63Numbers& numbers, IntensityFindings& findings) {
  Counts counts;
  file.lamp_count = numbers.next("the number of lamps", 1);
  if (!(file.lamp_count >= 1)) {
    findings.warning(numbers.line(), fmt::format("{}", file.lamp_count), "1 or more",
                     "The number of lamps should be 1 or more. The intensities do not depend on it.");
  }
  const double lumens = numbers.next("the lumens per lamp (-1 for absolute photometry)", -1);
  if (lumens >= 0) file.lumens_per_lamp = lumens;
  if (lumens < 0 && lumens != -1) {
    findings.warning(numbers.line(), fmt::format("{}", lumens), "-1 or the lumens of one lamp",
                     "Lumens below zero are taken as -1: absolute photometry.");
  }
  file.multiplier = numbers.next("the multiplier", 1);
  demand_positive(file.multiplier, "multiplier", numbers.line(), findings);
  counts.vertical = numbers.next("the count of vertical angles", 1);
  counts.horizontal = numbers.next("the count of horizontal angles", 1);
  for (const double count : {counts.vertical, counts.horizontal}) {
    if (is_count(count)) continue;
    findings.error(numbers.line(), fmt::format("{}", count), "a whole number, 1 to 1000000",
                   fmt::format("{} cannot be a count of angles. Values were lost or added before it.", count));
  }
  return counts;
}

void read_type_and_unit(IntensityFile& file, Lm63Numbers& numbers, IntensityFindings& findings) {
  const double type = numbers.next("the photometric type (1 C, 2 B, 3 A)", 1);
  if (type != 1 && type != 2 && type != 3) {
    findings.error(numbers.line(), fmt::format("{}", type), "1 (type C), 2 (type B) or 3 (type A)",
                   "The photometric type is not known. Values were lost or added before it.");
  }
  file.listed.type = type == 3 ? PhotometricType::a : type == 2 ? PhotometricType::b : PhotometricType::c;
  const double unit = numbers.next("the unit of the sizes (1 feet, 2 metres)", 2);
  if (unit != 1 && unit != 2) {
    findings.error(numbers.line(), fmt::format("{}", unit), "1 (feet) or 2 (metres)",
                   "The unit of the sizes is not known. Values were lost or added before it.");
  }
  file.in_feet = unit == 1;
}

void read_opening(IntensityFile& file, Lm63Numbers& numbers, IntensityFindings& findings) {
  const char* names[] = {"the width of the opening", "its length", "its height"};
  std::array<double, 3> size_m{};
  for (std::size_t i = 0; i < 3; ++i) {
    file.size_as_written[i] = numbers.next(names[i], 0);
    size_m[i] = file.size_as_written[i] * (file.in_feet ? units::m_per_ft : 1);
    if (std::abs(size_m[i]) <= 100) continue;
    findings.warning(numbers.line(), fmt::format("{}", file.size_as_written[i]), "at most 100 m",
                     "A luminous opening of that size is hardly meant. The light is not changed by it.");
  }
  file.opening = opening_from_signs(file.format, size_m);
  if (file.opening.shape != OpeningShape::unknown) return;
  findings.note(numbers.line(),
                fmt::format("{} {} {}", file.size_as_written[0], file.size_as_written[1], file.size_as_written[2]),
                "signs that name a shape", "The signs of the sizes name no shape of opening known here.");
}

void judge_slot12(const IntensityFile& file, std::size_t line, IntensityFindings& findings) {
  const bool code = file.format == IntensityFormat::lm63_2019;
  if (code && file_origin_2019(file.slot12).empty()) {
    findings.note(line, fmt::format("{}", file.slot12), "1.00001, 1.00010, 1.00000 or another code of LM-63-2019",
                  "The file generation code is not known. It is no factor and is left out.");
  }
  const bool unused = file.format == IntensityFormat::lm63_1995 || file.format == IntensityFormat::lm63_2002;
  if (unused && file.slot12 != 1) {
    findings.warning(line, fmt::format("{}", file.slot12), "1",
                     "The number between ballast factor and watts is kept for the future in this edition and should be "
                     "1. It is not multiplied: compare the flux with the maker's sheet.");
  }
}

// Which factors turn the table's numbers into candela. Slot 12 was a factor up to 1991 (from memory).
double factor_of(const IntensityFile& file) {
  const double slot12 = file.format <= IntensityFormat::lm63_1991 ? file.slot12 : 1;
  return file.multiplier * file.ballast_factor * slot12;
}

void read_factors(IntensityFile& file, Lm63Numbers& numbers, IntensityFindings& findings) {
  file.ballast_factor = numbers.next("the ballast factor", 1);
  demand_positive(file.ballast_factor, "ballast factor", numbers.line(), findings);
  file.slot12 = numbers.next("the number between ballast factor and watts", 1);
  if (file.format <= IntensityFormat::lm63_1991) {
    demand_positive(file.slot12, "ballast-lamp factor", numbers.line(), findings);
  }
  judge_slot12(file, numbers.line(), findings);
  file.power_w = numbers.next("the watts", 0);
  if (!(file.power_w >= 0 && file.power_w <= 1e6)) {
    findings.warning(numbers.line(), fmt::format("{}", file.power_w), "0 to 1000000 W",
                     "The watts of the file cannot be right. The light does not depend on them.");
  }
}

void read_table(IntensityFile& file, const Counts& counts, Lm63Numbers& numbers, IntensityFindings& findings) {
  ListedTable& listed = file.listed;
  listed.vertical_deg = numbers.list("vertical angles", counts.vertical);
  const double low_deg = listed.type == PhotometricType::c ? 0 : listed.type == PhotometricType::b ? -180 : -90;
  check_angles(listed.vertical_deg, "vertical angles", low_deg, low_deg == 0 ? 180 : -low_deg, numbers.line(),
               findings);
  listed.horizontal_deg = numbers.list("horizontal angles", counts.horizontal);
  check_horizontal_angles(listed, numbers.line(), findings);
  if (findings.has_errors()) return;
  listed.intensity_cd = numbers.list("intensities", counts.vertical * counts.horizontal);
  if (findings.has_errors()) return;
  apply_factor(listed.intensity_cd, factor_of(file), numbers.line(), findings);
  const std::size_t line = numbers.line();
  if (const std::size_t rest = numbers.count_rest(); rest > 0) {
    findings.warning(line, fmt::format("{} more", rest), "nothing behind the last intensity",
                     fmt::format("{} {} left behind the table. They are ignored: look whether the counts are right.",
                                 rest, rest == 1 ? "word is" : "words are"));
  }
}

void judge_units(const IntensityFile& file, IntensityFindings& findings) {
  for (const Keyword& keyword : file.keywords) {
    if (keyword.name.find("INTENSITYUNITS") == std::string::npos || keyword.text == "cd") continue;
    findings.warning(0, keyword.text, "cd",
                     "A keyword says that the intensities are in another unit than candela. They are shown as candela: "
                     "levels in lux would be wrong.");
  }
}

void judge_flux(const IntensityFile& file, IntensityFindings& findings) {
  if (!file.lumens_per_lamp || !(*file.lumens_per_lamp > 0)) return;
  const double stated_lm = *file.lumens_per_lamp * file.lamp_count;
  const double sum_lm = flux_lm(file.distribution);
  if (!(sum_lm > 1.02 * stated_lm)) return;
  findings.warning(0, fmt::format("{:.0f} lm", sum_lm), fmt::format("at most {:.0f} lm", stated_lm),
                   fmt::format("The intensities sum to {:.0f} lm, more than the {:.0f} lm of the lamps inside. A "
                               "multiplier or the lamp's lumens are wrong: compare with the maker's sheet.",
                               sum_lm, stated_lm));
}

}  // namespace

std::string file_origin_2019(double slot12) {
  // Codes seen in the reader of a public library (photompy, MIT).
  struct Code {
    int hundred_thousandths;
    const char* words;
  };
  constexpr Code codes[] = {
      {100001, "undefined"},
      {100010, "computer simulation"},
      {100000, "test by a laboratory that is not accredited"},
      {100100, "test by a laboratory that is not accredited, lumens scaled"},
      {101000, "test by a laboratory that is not accredited, interpolated"},
      {101100, "test by a laboratory that is not accredited, interpolated, lumens scaled"},
      {110000, "test by an accredited laboratory"},
      {110100, "test by an accredited laboratory, lumens scaled"},
      {111000, "test by an accredited laboratory, interpolated"},
      {111100, "test by an accredited laboratory, interpolated, lumens scaled"},
  };
  for (const Code& code : codes) {
    if (std::abs(slot12 * 100000 - code.hundred_thousandths) < 0.5) return code.words;
  }
  return "";
}

ReadIntensities read_lm63(std::string_view text) {
  IntensityFindings findings;
  if (text.size() > intensity_text_limit_bytes) {
    findings.error(0, fmt::format("{} bytes", text.size()), fmt::format("at most {} bytes", intensity_text_limit_bytes),
                   "The file is too long for a file of light intensities. It is not read.");
    return {std::nullopt, findings.take()};
  }
  const std::vector<std::string_view> lines = lines_of(text);
  IntensityFile file;
  const Lm63Head head = read_lm63_head(lines, findings);
  if (head.tilt.empty()) return {std::nullopt, findings.take()};
  file.format = head.format;
  file.keywords = head.keywords;
  file.tilt = head.tilt;
  Lm63Numbers numbers(lines, head.numbers_line, findings);
  if (file.tilt == "INCLUDE") read_tilt(file, numbers, findings);
  const Counts counts = read_counts(file, numbers, findings);
  read_type_and_unit(file, numbers, findings);
  read_opening(file, numbers, findings);
  read_factors(file, numbers, findings);
  if (!findings.has_errors()) read_table(file, counts, numbers, findings);
  if (findings.has_errors()) return {std::nullopt, findings.take()};
  judge_table(file.listed, findings);
  judge_units(file, findings);
  file.distribution = unfold(file.listed);
  judge_flux(file, findings);
  return {std::move(file), findings.take()};
}

}  // namespace duskwire::light
