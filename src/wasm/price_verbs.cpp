// SPDX-License-Identifier: Apache-2.0
#include "wasm/price_verbs.hpp"

#include "formats/deposit_rules_file.hpp"
#include "formats/embedded.hpp"
#include "formats/first_look_request.hpp"
#include "formats/job_reader.hpp"
#include "formats/json_text.hpp"
#include "formats/price_json.hpp"
#include "study/price.hpp"
#include "study/price_band.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {
namespace {

Reply answer(const formats::Json& tree) { return {false, formats::compact_text(tree)}; }

}  // namespace

Reply price(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  return answer(formats::price_json(study::price(*read.job, stock(), formats::embedded_deposit_rules().rules)));
}

Reply price_difference(const std::vector<std::string_view>& given) {
  const formats::ReadJob before = formats::read_job(given[0]);
  if (!before.job) return refuse_input("The job before", before.problems);
  const formats::ReadJob after = formats::read_job(given[1]);
  if (!after.job) return refuse_input("The job after", after.problems);
  return answer(formats::price_difference_json(study::price_difference(*before.job, *after.job, stock())));
}

Reply price_band(const std::vector<std::string_view>& given) {
  const auto asked = formats::read_first_look_request(given[0]);
  if (!asked.request) return refuse_input("The request", asked.problems);
  const Result<study::PriceBand> band = study::price_band(*asked.request);
  if (!band) return refuse(band.error());
  return answer(formats::price_band_json(band.value()));
}

Reply deposit_rules(const std::vector<std::string_view>&) {
  return {false, std::string(formats::embedded_deposit_rules_text())};
}

}  // namespace duskwire::wasm
