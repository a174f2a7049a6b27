// SPDX-License-Identifier: Apache-2.0
// The 48 intensity files of tests/reference against photometry.csv: angles, factors, sums, flux, downward share.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "light/distribution.hpp"
#include "light/photometry_files.hpp"
#include "light/unfold.hpp"
#include "light/zones.hpp"
#include "reference_rows.hpp"

namespace duskwire::light {
namespace {

IntensityFile file_of(const ReferenceRow& row) { return reference_intensities(row.text("file")); }

bool is_eulumdat(const ReferenceRow& row) { return row.text("format") == "EULUMDAT"; }

bool has_quarters(const IntensityFile& file) { return file.listed.symmetry == IntensitySymmetry::quarters; }

void expect_number(const ReferenceRow& row, const char* column, double value, double tolerance = 1e-9) {
  if (!row.has(column)) return;
  EXPECT_NEAR(value, row.number(column), tolerance) << row.text("file") << " " << column;
}

// The flux that the reference states: per 1000 lm for EULUMDAT, of the listed quarter alone for types A and B.
double comparable_flux_lm(const ReferenceRow& row, const IntensityFile& file) {
  const double whole_lm = flux_lm(is_eulumdat(row) ? unfold(file.listed) : file.distribution);
  return has_quarters(file) ? whole_lm / 4 : whole_lm;
}

TEST(ReferencePhotometry, HasAll48Files) { EXPECT_EQ(reference_rows("photometry.csv").size(), 48u); }

TEST(ReferencePhotometry, EditionTypeAndTiltAreRead) {
  const std::map<std::string, IntensityFormat> editions = {
      {"(none: 1986)", IntensityFormat::lm63_1986},     {"IESNA91", IntensityFormat::lm63_1991},
      {"IESNA:LM-63-1995", IntensityFormat::lm63_1995}, {"IESNA:LM-63-2002", IntensityFormat::lm63_2002},
      {"IES:LM-63-2019", IntensityFormat::lm63_2019},   {"", IntensityFormat::eulumdat}};
  const std::map<std::string, PhotometricType> types = {
      {"A", PhotometricType::a}, {"B", PhotometricType::b}, {"C", PhotometricType::c}};
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const IntensityFile file = file_of(row);
    EXPECT_EQ(file.format, editions.at(row.text("version"))) << row.text("file");
    EXPECT_EQ(file.distribution.type, types.at(row.text("type"))) << row.text("file");
    EXPECT_EQ(file.tilt, row.text("tilt")) << row.text("file");
    EXPECT_EQ(file.lamp_tilt.has_value(), row.text("tilt") == "INCLUDE") << row.text("file");
    EXPECT_EQ(file.in_feet, row.text("units") == "ft") << row.text("file");
  }
}

TEST(ReferencePhotometry, CountsAndAnglesAreRead) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const IntensityFile file = file_of(row);
    const ListedTable& listed = file.listed;
    expect_number(row, "n_vertical", static_cast<double>(listed.vertical_deg.size()));
    expect_number(row, "v_first", listed.vertical_deg.front());
    expect_number(row, "v_last", listed.vertical_deg.back());
    expect_number(row, "h_first", listed.horizontal_deg.front());
    expect_number(row, "h_last", listed.horizontal_deg.back());
    const std::size_t planes = is_eulumdat(row) ? file.c_count : listed.horizontal_deg.size();
    expect_number(row, "n_horizontal", static_cast<double>(planes));
    expect_number(row, "ldt_stored_planes", static_cast<double>(listed.horizontal_deg.size()));
    expect_number(row, "ldt_lamp_sets", static_cast<double>(file.lamp_sets.size()));
  }
}

TEST(ReferencePhotometry, FactorsLampsAndSizesAreRead) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const IntensityFile file = file_of(row);
    expect_number(row, "multiplier", file.multiplier);
    expect_number(row, "ballast_factor", file.ballast_factor);
    expect_number(row, "slot12", file.slot12);
    expect_number(row, "watts", file.power_w);
    expect_number(row, "width", file.size_as_written[0]);
    expect_number(row, "length", file.size_as_written[1]);
    expect_number(row, "height", file.size_as_written[2]);
    expect_number(row, "lamps", is_eulumdat(row) ? file.lamp_sets.at(0).count : file.lamp_count);
    expect_number(row, "lamp_lumens",
                  is_eulumdat(row) ? file.lamp_sets.at(0).flux_lm : file.lumens_per_lamp.value_or(-1));
    expect_number(row, "ldt_dff", file.downward_pct.value_or(-1));
    expect_number(row, "ldt_lorl", file.output_ratio_pct.value_or(-1));
  }
}

TEST(ReferencePhotometry, IntensitiesAreThoseOfTheFileWithItsFactors) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const ListedTable listed = file_of(row).listed;
    const std::vector<double>& all = listed.intensity_cd;
    const auto top = std::max_element(all.begin(), all.end());
    const auto index = static_cast<std::size_t>(top - all.begin());
    expect_number(row, "first_cd", all.front(), 1e-4);
    expect_number(row, "last_cd", all.back(), 1e-4);
    expect_number(row, "max_cd", *top, 1e-4);
    expect_number(row, "max_v", listed.vertical_deg[index % listed.vertical_deg.size()]);
    expect_number(row, "max_h", listed.horizontal_deg[index / listed.vertical_deg.size()]);
    expect_number(row, "sum_cd", std::accumulate(all.begin(), all.end(), 0.0), 1e-3 + 1e-8 * row.number("sum_cd"));
  }
}

TEST(ReferencePhotometry, FluxIsTheLinearSumAndNearTheExactOne) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const double sum_lm = comparable_flux_lm(row, file_of(row));
    const double tolerance = row.number("flux_tol_pct") / 100;
    const double linear_lm = row.number("flux_linear");
    EXPECT_NEAR(sum_lm, linear_lm, 2e-4 * linear_lm) << row.text("file");
    if (!row.has("flux_exact")) continue;
    // Straight pieces of 10 degrees lie h^2/12 = 0.254 % below a cosine, in types A and B in either angle.
    const bool two_angles = row.text("type") != "C";
    expect_number(row, "flux_exact", sum_lm, (two_angles ? 0.0051 : tolerance) * row.number("flux_exact"));
  }
}

TEST(ReferencePhotometry, DownwardShareIsThatOfTheReference) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    if (!row.has("downward_pct")) continue;
    const Distribution whole = file_of(row).distribution;
    const double down_pct = 100 * zone_flux_lm(whole, {0, 90}) / flux_lm(whole);
    EXPECT_NEAR(down_pct, row.number("downward_pct"), 0.2) << row.text("file");
    expect_number(row, "ldt_dff", down_pct, 0.2);
  }
}

}  // namespace
}  // namespace duskwire::light
