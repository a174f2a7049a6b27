// SPDX-License-Identifier: Apache-2.0
#include "wasm/export_verb.hpp"

#include "estimate/materials.hpp"
#include "formats/deposit_rules_file.hpp"
#include "formats/export_tables.hpp"
#include "formats/export_texts.hpp"
#include "formats/job_reader.hpp"
#include "formats/json_text.hpp"
#include "study/check.hpp"
#include "study/price.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {

Reply export_texts(const std::vector<std::string_view>& given) {
  // A half-drawn job is worth keeping too.
  const formats::ReadJob read = formats::read_job_leniently(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const study::Ruleset* ruleset = ruleset_of(read.job->site.ruleset);
  if (!ruleset) ruleset = ruleset_of("us");
  const estimate::Materials materials = estimate::materials(*read.job, stock());
  const study::Report report = study::check(*read.job, *ruleset, stock(), {.cures = false});
  const estimate::Price price = study::price(*read.job, stock(), formats::embedded_deposit_rules().rules);
  formats::Json list = formats::Json::array();
  for (const formats::ExportText& text :
       formats::export_texts(read.job->title, formats::export_tables(*read.job, stock(), report, materials, price))) {
    list.push_back({{"name", text.name}, {"text", text.text}});
  }
  return {false, formats::compact_text(list)};
}

}  // namespace duskwire::wasm
