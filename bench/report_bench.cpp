// SPDX-License-Identifier: Apache-2.0
// The whole report of one job of 60 lamps: nominal, all corners, both margins, every short-circuit current, judged by a
// ruleset. Three chains of 20 lamps, one per output, each lamp on its own lead at a buried joint: 121 nodes.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <string>

#include "formats/ruleset_file.hpp"
#include "garden.hpp"
#include "study/check.hpp"

namespace duskwire::bench {
namespace {

job::Catalogue goods() {
  job::Catalogue catalogue;
  job::LuminaireItem lamp;
  lamp.id = lamp.title = "lamp";
  lamp.power_w = lamp.power_va = lamp_va;
  lamp.window_min_v = 9.5;
  lamp.window_max_v = 16;
  lamp.v_cut_off = lamp_cut_off_v;
  lamp.v_regulation_min = lamp_regulation_v;
  lamp.lead_length_m = 1.5;
  lamp.lead_area_mm2 = 0.823;
  catalogue.luminaires = {lamp};
  job::CableItem cable;
  cable.id = cable.title = "cable";
  cable.gauge_awg = 12;
  cable.area_mm2 = 3.3088;
  cable.ohm_per_m_20c = 0.00521;
  cable.ampacity_a = 20;
  catalogue.cables = {cable};
  job::TransformerItem transformer;
  transformer.id = transformer.title = "transformer";
  transformer.rating_va = 600;
  transformer.output_count = chains_per_source;
  transformer.taps_v = {12, 13, 14, 15};
  transformer.r_own_ohm = source_ohm;
  transformer.r_shared_ohm = 0.005;
  catalogue.transformers = {transformer};
  job::ConnectorItem connector;
  connector.id = connector.title = "connector";
  connector.fills = {{0.75, 6.1, 2, 6, {}}};
  connector.sealed = connector.mechanically_held = true;
  connector.contact_ohm = 0.002;
  catalogue.connectors = {connector};
  return catalogue;
}

void add_lamp(job::Job& job, const std::string& from, const std::string& joint_id) {
  job::Joint joint;
  joint.id = joint_id;
  joint.connector = "connector";
  job.joints.push_back(joint);
  job::Cable cable;
  cable.id = "cable-" + joint_id;
  cable.item = "cable";
  cable.from = from;
  cable.to = joint_id;
  cable.length_m = span_m;
  cable.depth_m = 0.2;
  job.cables.push_back(cable);
  job::Luminaire luminaire;
  luminaire.id = "lamp-" + joint_id;
  luminaire.item = "lamp";
  luminaire.joint = joint_id;
  job.luminaires.push_back(luminaire);
}

job::Job sixty_lamps() {
  job::Job job;
  job.id = "bench";
  job.catalogue = goods();
  job::Transformer transformer;
  transformer.id = "T";
  transformer.item = "transformer";
  for (std::uint32_t chain = 0; chain < chains_per_source; ++chain) {
    std::string from = fmt::format("output-{}", chain);
    job::Output output;
    output.id = from;
    output.tap_v = source_v;
    transformer.outputs.push_back(output);
    for (std::uint32_t i = 0; i < lamps_per_chain; ++i) {
      const std::string joint = fmt::format("{}-{}", chain, i);
      add_lamp(job, from, joint);
      from = joint;
    }
  }
  job.transformers = {transformer};
  return job;
}

study::Ruleset ruleset() {
  std::ifstream in(DUSKWIRE_SOURCE_DIR "/data/rulesets/us.json");
  const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  return formats::read_ruleset(text).ruleset.value_or(study::Ruleset{});
}

void check_job(benchmark::State& state, const study::CheckOptions& options) {
  const job::Job job = sixty_lamps();
  const study::Ruleset rules = ruleset();
  const study::Report once = study::check(job, rules, job.catalogue, options);
  // It is a whole report of a sound job, or the figure would mean nothing.
  if (rules.rules.empty()) state.SkipWithError("the ruleset was not read");
  if (once.lamps.size() != 60 || once.corners.size() < 5 || once.margin.load_factor <= 1 ||
      once.margin.length_factor <= 1 || once.shorts.size() < 60) {
    state.SkipWithError("the report is not whole");
  }
  for (auto _ : state) {
    benchmark::DoNotOptimize(study::check(job, rules, job.catalogue, options).lamps.data());
  }
  state.counters["findings"] = static_cast<double>(once.findings.size());
}

// Cures are searched by trial, tens of solves per finding: a row of their own.
void report(benchmark::State& state) { check_job(state, {.cures = false}); }
void report_with_cures(benchmark::State& state) { check_job(state, {.cures = true}); }

BENCHMARK(report)->Arg(60)->Unit(benchmark::kMicrosecond)->MinTime(0.2);
BENCHMARK(report_with_cures)->Arg(60)->Unit(benchmark::kMicrosecond)->MinTime(0.2);

}  // namespace
}  // namespace duskwire::bench
