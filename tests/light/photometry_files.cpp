// SPDX-License-Identifier: Apache-2.0
#include "light/photometry_files.hpp"

#include <fstream>
#include <numbers>
#include <sstream>
#include <stdexcept>

#include "light/intensity_reader.hpp"

namespace duskwire::light {

std::string reference_bytes(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/tests/reference/" + name, std::ios::binary);
  if (!file) throw std::runtime_error("no reference file " + name);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

IntensityFile reference_intensities(const std::string& name) {
  ReadIntensities read = read_intensities(reference_bytes(name));
  if (!read.file) throw std::runtime_error(name + " is not readable: " + read.problems.at(0).message);
  return std::move(*read.file);
}

Distribution one_plane(double step_deg, double end_deg, double (*value_cd)(double gamma_rad)) {
  Distribution d;
  d.horizontal_deg = {0};
  for (int i = 0; i * step_deg <= end_deg; ++i) {
    d.vertical_deg.push_back(i * step_deg);
    d.intensity_cd.push_back(value_cd(i * step_deg * std::numbers::pi / 180));
  }
  return d;
}

}  // namespace duskwire::light
