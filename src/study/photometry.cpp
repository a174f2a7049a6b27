// SPDX-License-Identifier: Apache-2.0
#include "study/photometry.hpp"

#include "light/intensity_reader.hpp"
#include "light/lm63_reader.hpp"
#include "light/lm63_writer.hpp"
#include "study/lamp_distribution.hpp"

namespace duskwire::study {
namespace {

// The facts of a file; its light is summed by the caller, who may have turned it.
PhotometryReport facts_of(const light::IntensityFile& file) {
  PhotometryReport report;
  report.source = light::title_of(file.format);
  report.labels = file.keywords;
  if (file.format == light::IntensityFormat::lm63_2019) report.origin = light::file_origin_2019(file.slot12);
  report.type = file.listed.type;
  report.symmetry = file.listed.symmetry;
  report.vertical_count = static_cast<std::uint32_t>(file.listed.vertical_deg.size());
  report.horizontal_count = static_cast<std::uint32_t>(file.listed.horizontal_deg.size());
  report.power_w = file.power_w;
  if (file.lumens_per_lamp) report.lamp_flux_lm = *file.lumens_per_lamp * file.lamp_count;
  report.opening = file.opening;
  report.tilt = file.tilt;
  return report;
}

void sum_light(PhotometryReport& report, const light::Distribution& distribution) {
  report.light = light::photometry_of(distribution);
  if (report.power_w > 0) report.efficacy_lm_w = report.light.flux_lm / report.power_w;
  if (report.lamp_flux_lm && *report.lamp_flux_lm > 0) {
    report.output_ratio_pct = 100 * report.light.flux_lm / *report.lamp_flux_lm;
  }
}

light::IntensityFile beam_file(const job::LuminaireItem& item, const light::Distribution& distribution) {
  return light::intensity_file_from(distribution, item.title.empty() ? item.id : item.title, item.power_w);
}

}  // namespace

PhotometryAnswer photometry_of_file(std::string_view text, bool with_lm63) {
  light::ReadIntensities read = light::read_intensities(text);
  PhotometryAnswer answer;
  answer.findings = std::move(read.problems);
  if (!read.file) return answer;
  answer.report = facts_of(*read.file);
  sum_light(*answer.report, read.file->distribution);
  if (with_lm63) answer.lm63 = light::write_lm63(*read.file);
  return answer;
}

PhotometryAnswer photometry_of_item(const job::LuminaireItem& item, bool with_lm63) {
  PhotometryAnswer answer;
  answer.findings = light_findings(item);
  const light::Distribution distribution = distribution_of(item);
  light::ReadIntensities read;
  if (!item.intensity_file.empty()) read = light::read_intensities(item.intensity_file);
  if (read.file) {
    answer.report = facts_of(*read.file);
  } else {
    read.file = beam_file(item, distribution);
    answer.report = facts_of(*read.file);
    answer.report->source = "beam";
    answer.report->shape = shape_of(item);
    answer.report->origin.clear();
    answer.report->labels.clear();
  }
  sum_light(*answer.report, distribution);
  if (with_lm63) answer.lm63 = light::write_lm63(*read.file);
  return answer;
}

}  // namespace duskwire::study
