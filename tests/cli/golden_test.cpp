// SPDX-License-Identifier: Apache-2.0
// The report of every example, kept in tests/end_to_end with its numbers rounded, so that a change of the engine is
// seen for what it does to a whole job. After a wanted change: DUSKWIRE_KEEP=1 build/release/tests/test_cli.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using Json = nlohmann::ordered_json;

// Four significant digits: finer than anyone measures, coarser than what another processor may round differently.
void round_numbers(Json& value) {
  if (value.is_number_float()) {
    const double number = value.get<double>();
    if (number == 0 || !std::isfinite(number)) return;
    const double scale = std::pow(10.0, 3 - std::floor(std::log10(std::abs(number))));
    value = std::round(number * scale) / scale;
  } else if (value.is_structured()) {
    for (Json& part : value) round_numbers(part);
  }
}

class Golden : public ::testing::TestWithParam<std::string> {};

TEST_P(Golden, ReportIsAsKept) {
  const Workplace place;
  const Ended run = place.run("duskwire check examples/" + GetParam() + " --json");
  ASSERT_TRUE(Json::accept(run.text)) << run.complaint;
  Json report = Json::parse(run.text);
  round_numbers(report);
  const std::string text = report.dump(1) + "\n";
  const std::string name = "tests/end_to_end/report_of_" + GetParam();
  if (std::getenv("DUSKWIRE_KEEP") != nullptr) {
    std::ofstream(std::string(DUSKWIRE_SOURCE_DIR) + "/" + name) << text;
    GTEST_SKIP() << "kept anew: " << name;
  }
  EXPECT_EQ(text, project_file(name)) << "wanted? DUSKWIRE_KEEP=1 keeps it";
}

INSTANTIATE_TEST_SUITE_P(Examples, Golden, ::testing::ValuesIn(example_jobs()), [](const auto& info) {
  std::string name = info.param.substr(0, info.param.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Examples, TheDemoHoldsExactlyItsThreePlantedMistakes) {
  const Workplace place;
  const Ended run = place.run("duskwire check examples/ostrey-garden.json --json");
  EXPECT_EQ(run.code, 1);
  std::vector<std::string> errors;
  const Json report = Json::parse(run.text);
  for (const Json& finding : report.at("findings")) {
    if (finding.at("severity") == "error") errors.push_back(finding.at("subject"));
  }
  EXPECT_EQ(errors, (std::vector<std::string>{"F5", "C-C1", "E-TEE"}));
}

TEST(Examples, TheVariantPutRightHasNoErrorAndNoWarning) {
  const Workplace place;
  const Ended run = place.run("duskwire check examples/ostrey-garden-sound.json --json");
  EXPECT_EQ(run.code, 0);
  EXPECT_EQ(Json::parse(run.text).at("findings").size(), 0u) << run.text;
}

TEST(Examples, ComeFromTheirGenerator) {
  const std::string line = "python3 '" + std::string(DUSKWIRE_SOURCE_DIR) + "/tools/make_examples' --check";
  EXPECT_EQ(std::system(line.c_str()), 0);
}

}  // namespace
}  // namespace duskwire::cli
