// SPDX-License-Identifier: Apache-2.0
// EULUMDAT line by line: 26 lines of facts, six a lamp set, ten direct ratios, angles, cd per 1000 lm.
#include "light/eulumdat_reader.hpp"

#include <fmt/format.h>

#include <cmath>

#include "light/eulumdat_fields.hpp"
#include "light/eulumdat_planes.hpp"
#include "light/intensity_table.hpp"
#include "light/unfold.hpp"
#include "light/zones.hpp"

namespace duskwire::light {
namespace {

struct Layout {
  std::size_t c_count = 0;
  std::size_t gamma_count = 0;
  std::size_t symmetry = 0;
  double gamma_step_deg = 0;
};

void keep_text(IntensityFile& file, const char* name, std::string text) {
  if (!text.empty()) file.keywords.push_back({name, std::move(text)});
}

Layout read_layout(IntensityFile& file, EulumdatFields& fields) {
  Layout layout;
  keep_text(file, "MANUFAC", fields.text());
  static_cast<void>(fields.count("the kind of light source (1 axial, 2 linear, 3 other)", 0, 3));
  layout.symmetry = fields.count("the symmetry (0 to 4)", 0, 4).value_or(0);
  layout.c_count = fields.count("the count of C planes", 1, 10000).value_or(0);
  static_cast<void>(fields.number("the step of the C planes"));
  layout.gamma_count = fields.count("the count of gamma angles", 2, 10000).value_or(0);
  layout.gamma_step_deg = fields.number("the step of the gamma angles");
  file.c_count = layout.c_count;
  return layout;
}

void read_names_and_sizes(IntensityFile& file, EulumdatFields& fields) {
  keep_text(file, "TEST", fields.text());
  keep_text(file, "LUMINAIRE", fields.text());
  keep_text(file, "LUMCAT", fields.text());
  keep_text(file, "_FILE", fields.text());
  keep_text(file, "ISSUEDATE", fields.text());
  for (const char* size : {"the luminaire's length", "its width", "its height"}) static_cast<void>(fields.number(size));
  const double length_mm = fields.number("the length of the luminous area");
  const double width_mm = fields.number("its width");
  double height_mm = 0;
  for (const char* side : {"its height at C 0", "at C 90", "at C 180", "at C 270"}) {
    height_mm = std::max(height_mm, fields.number(side));
  }
  Opening& opening = file.opening;
  opening = {OpeningShape::rectangle, width_mm / 1000, length_mm / 1000, height_mm / 1000};
  if (width_mm == 0 && length_mm > 0) {
    opening.width_m = opening.length_m;
    opening.shape = height_mm > 0 ? OpeningShape::upright_cylinder : OpeningShape::round;
  } else if (length_mm == 0) {
    opening.shape = OpeningShape::point;
  } else if (height_mm > 0) {
    opening.shape = OpeningShape::box;
  }
}

void read_totals(IntensityFile& file, EulumdatFields& fields, IntensityFindings& findings) {
  const double downward_pct = fields.number("the downward share in %");
  const double output_pct = fields.number("the light output ratio in %");
  file.downward_pct = downward_pct;
  if (output_pct > 0) file.output_ratio_pct = output_pct;
  file.multiplier = fields.number("the conversion factor");
  if (!(file.multiplier > 0) && !fields.ended()) {
    findings.error(fields.line(), fmt::format("{}", file.multiplier), "above 0, mostly 1",
                   "The conversion factor must be above 0, or every intensity would be lost.");
  }
  static_cast<void>(fields.number("the tilt during the measurement"));
}

void read_lamp_sets(IntensityFile& file, EulumdatFields& fields, IntensityFindings& findings) {
  const std::size_t count = fields.count("the count of lamp sets", 1, 100).value_or(0);
  for (std::size_t i = 0; i < count && fields.left() > 0; ++i) {
    LampSet set;
    set.count = fields.number("the count of lamps in a set");
    set.kind = fields.text();
    set.flux_lm = fields.number("the lumens of a lamp set", false);
    if (!(set.flux_lm > 0 && set.flux_lm <= 1e9) && !fields.ended()) {
      findings.error(fields.line(), fmt::format("{}", set.flux_lm), "above 0 lm, at most 1e9 lm",
                     "The lumens of a lamp set must be above 0: the table holds candela per 1000 of them.");
    }
    set.colour = fields.text();
    set.rendering = fields.text();
    set.power_w = fields.number("the watts of a lamp set");
    file.lamp_sets.push_back(std::move(set));
  }
  if (file.lamp_sets.empty()) return;
  const LampSet& first = file.lamp_sets[0];
  file.lamp_count = std::abs(first.count);
  if (first.count > 0) file.lumens_per_lamp = first.flux_lm / first.count;
  file.power_w = first.power_w;
  if (count > 1) {
    findings.note(fields.line(), fmt::format("{} lamp sets", count), "",
                  fmt::format("The file holds {} lamp sets. The first one, {} lm, is used.", count, first.flux_lm));
  }
}

void read_table(IntensityFile& file, const Layout& layout, EulumdatFields& fields, IntensityFindings& findings) {
  static_cast<void>(fields.list("direct ratios", std::min<std::size_t>(10, fields.left())));
  const std::size_t planes = eulumdat_plane_count(layout.symmetry, layout.c_count);
  const std::size_t wanted = layout.c_count + layout.gamma_count + planes * layout.gamma_count;
  if (fields.left() < wanted) {
    findings.error(
        fields.line() + fields.left(), fmt::format("{} lines", fields.left()),
        fmt::format("{} lines: {} C planes, {} gamma angles, {} x {} intensities", wanted, layout.c_count,
                    layout.gamma_count, planes, layout.gamma_count),
        "The file ends before its table does. It was cut off, lacks lines at its head, or a count is wrong.");
  }
  if (findings.has_errors()) return;
  const std::vector<double> c_deg = fields.list("C angles", layout.c_count);
  check_angles(c_deg, "C angles", 0, 360, fields.line(), findings);
  file.listed.vertical_deg = fields.list("gamma angles", layout.gamma_count);
  check_angles(file.listed.vertical_deg, "gamma angles", 0, 180, fields.line(), findings);
  choose_eulumdat_planes(file.listed, layout.symmetry, c_deg, fields.line(), findings);
  if (findings.has_errors()) return;
  file.listed.intensity_cd = fields.list("intensities", planes * layout.gamma_count);
  apply_factor(file.listed.intensity_cd, file.multiplier, fields.line(), findings);
  if (const std::size_t rest = fields.count_rest(); rest > 0) {
    findings.warning(fields.line(), fmt::format("{} more", rest), "nothing behind the last intensity",
                     fmt::format("{} {} left behind the table. They are ignored: look whether the counts are right.",
                                 rest, rest == 1 ? "line is" : "lines are"));
  }
}

void judge_steps(const IntensityFile& file, const Layout& layout, IntensityFindings& findings) {
  const std::vector<double>& gammas = file.listed.vertical_deg;
  if (layout.gamma_step_deg == 0 || std::abs(gammas[1] - gammas[0] - layout.gamma_step_deg) < 1e-6) return;
  findings.note(7, fmt::format("{}", layout.gamma_step_deg), fmt::format("{}", gammas[1] - gammas[0]),
                "The step of the gamma angles is not the one stated. The angles themselves are used.");
}

// Flux per 1000 lm against the light output ratio, and its downward share (tolerance 2 %: values.md 5.2).
void judge_totals(const IntensityFile& file, IntensityFindings& findings) {
  const Distribution whole = unfold(file.listed);
  const double sum_lm = flux_lm(whole);
  const double stated_lm = 10 * file.output_ratio_pct.value_or(0);
  if (stated_lm > 0 && std::abs(sum_lm - stated_lm) > 0.02 * stated_lm) {
    findings.warning(
        23, fmt::format("{:.1f} lm per 1000 lm", sum_lm), fmt::format("{:.1f}", stated_lm),
        fmt::format("The intensities sum to {:.1f} lm per 1000 lm, but the light output ratio says {:.1f}. "
                    "The table is used as it is: compare the flux with the maker's sheet.",
                    sum_lm, stated_lm));
  }
  const double down_pct = sum_lm > 0 ? 100 * zone_flux_lm(whole, {0, 90}) / sum_lm : 0;
  if (std::abs(down_pct - *file.downward_pct) > 1) {
    findings.warning(
        22, fmt::format("{:.1f} %", down_pct), fmt::format("{:.1f} %", *file.downward_pct),
        fmt::format("{:.1f} % of the light goes down by the table, {:.1f} % as stated.", down_pct, *file.downward_pct));
  }
}

}  // namespace

ReadIntensities read_eulumdat(std::string_view text) {
  IntensityFindings findings;
  if (text.size() > intensity_text_limit_bytes) {
    findings.error(0, fmt::format("{} bytes", text.size()), fmt::format("at most {} bytes", intensity_text_limit_bytes),
                   "The file is too long for a file of light intensities. It is not read.");
    return {std::nullopt, findings.take()};
  }
  const std::vector<std::string_view> lines = lines_of(text);
  EulumdatFields fields(lines, findings);
  IntensityFile file;
  file.format = IntensityFormat::eulumdat;
  const Layout layout = read_layout(file, fields);
  read_names_and_sizes(file, fields);
  read_totals(file, fields, findings);
  read_lamp_sets(file, fields, findings);
  if (!findings.has_errors()) read_table(file, layout, fields, findings);
  if (findings.has_errors()) return {std::nullopt, findings.take()};
  judge_table(file.listed, findings);
  judge_steps(file, layout, findings);
  judge_totals(file, findings);
  file.distribution = unfold(file.listed);
  apply_factor(file.distribution.intensity_cd, file.lamp_sets[0].flux_lm / 1000, fields.line(), findings);
  if (findings.has_errors()) return {std::nullopt, findings.take()};
  return {std::move(file), findings.take()};
}

}  // namespace duskwire::light
