// SPDX-License-Identifier: Apache-2.0
#include "study/wired_jobs.hpp"

#include <utility>

namespace duskwire::study::tests {
namespace {

job::LuminaireItem luminaire_item(const char* id, double power_va) {
  job::LuminaireItem item;
  item.id = item.title = id;
  item.power_w = item.power_va = power_va;
  item.window_min_v = 10;
  item.v_regulation_min = 9;
  item.window_max_v = 15;
  item.v_cut_off = 7;
  item.flux_lm = 300;
  item.lead_length_m = 1;
  item.lead_area_mm2 = 0.823;
  item.price_minor = 9000;
  return item;
}

// Resistances of the acceptance site; 10 and 8 AWG by the gauge law.
job::CableItem cable_item(const char* id, double gauge_awg, double area_mm2, double ohm_per_m, double ampacity_a,
                          std::int64_t price_minor_per_m) {
  job::CableItem item;
  item.id = item.title = id;
  item.gauge_awg = gauge_awg;
  item.area_mm2 = area_mm2;
  item.ohm_per_m_20c = ohm_per_m;
  item.ampacity_a = ampacity_a;
  item.price_minor_per_m = price_minor_per_m;
  return item;
}

job::TransformerItem transformer_item(const char* id, double rating_va, std::uint32_t outputs, double limit_a,
                                      double r_own_ohm, std::int64_t price_minor) {
  job::TransformerItem item;
  item.id = item.title = id;
  item.rating_va = rating_va;
  item.output_count = outputs;
  item.output_limit_a = limit_a;
  item.taps_v = {12, 13, 14, 15};
  item.r_own_ohm = r_own_ohm;
  item.price_minor = price_minor;
  return item;
}

}  // namespace

job::Catalogue stock() {
  job::Catalogue catalogue;
  catalogue.luminaires = {luminaire_item("uplight-6va", 6), luminaire_item("path-3va", 3),
                          luminaire_item("wash-9va", 9)};
  catalogue.cables = {
      cable_item("16awg-2", 16, 1.3087, 0.01317, 10, 70), cable_item("14awg-2", 14, 2.0809, 0.008286, 15, 110),
      cable_item("12awg-2", 12, 3.3088, 0.005211, 20, 160), cable_item("10awg-2", 10, 5.2612, 0.003277, 30, 260),
      cable_item("8awg-2", 8, 8.3656, 0.002061, 40, 410)};
  catalogue.transformers = {
      transformer_item("ideal", 300, 1, 25, 0, 29000), transformer_item("tr-150", 150, 1, 12.5, 0.06, 19000),
      transformer_item("tr-300", 300, 1, 25, 0.03, 29000), transformer_item("tr-600", 600, 2, 25, 0.02, 47000),
      transformer_item("tr-900", 900, 3, 25, 0.02, 64000)};
  job::ConnectorItem gel;
  gel.id = gel.title = "gel";
  gel.fills = {{0.75, 6.1, 2, 6, {}}};
  gel.sealed = gel.mechanically_held = true;
  catalogue.connectors = {gel};
  return catalogue;
}

job::Job plain_job() {
  job::Job job;
  job.id = "test";
  job.catalogue = stock();
  job.practice.slack_at_luminaire_m = job.practice.slack_at_splice_m = job.practice.slack_at_transformer_m = 0;
  job.site.corners = {5, 20, 20, 20, 0, false, {}};
  job.site.units = job::DisplayUnits::metric;
  return job;
}

job::Transformer& add_transformer(job::Job& job, const std::string& id, const std::string& item,
                                  const std::string& output, double tap_v) {
  job::Transformer transformer;
  transformer.id = id;
  transformer.item = item;
  job.transformers.push_back(std::move(transformer));
  add_output(job, output, tap_v);
  return job.transformers.back();
}

void add_output(job::Job& job, const std::string& id, double tap_v) {
  job::Output output;
  output.id = id;
  output.tap_v = tap_v;
  job.transformers.back().outputs.push_back(std::move(output));
}

job::Joint& add_joint(job::Job& job, const std::string& id) {
  job::Joint joint;
  joint.id = id;
  joint.connector = "gel";
  job.joints.push_back(std::move(joint));
  return job.joints.back();
}

job::Cable& add_cable(job::Job& job, const std::string& id, const std::string& item, const std::string& from,
                      const std::string& to, double length_m) {
  job::Cable cable;
  cable.id = id;
  cable.item = item;
  cable.from = from;
  cable.to = to;
  cable.length_m = length_m;
  job.cables.push_back(std::move(cable));
  return job.cables.back();
}

job::Luminaire& add_lamp(job::Job& job, const std::string& id, const std::string& item) {
  job::Luminaire luminaire;
  luminaire.id = id;
  luminaire.item = item;
  job.luminaires.push_back(std::move(luminaire));
  return job.luminaires.back();
}

job::Job two_splice_site() {
  job::Job job = plain_job();
  add_transformer(job, "T", "ideal", "T-A", 13);
  add_joint(job, "S1");
  add_joint(job, "S2");
  add_cable(job, "run-1", "12awg-2", "T-A", "S1", 30);
  add_cable(job, "run-2", "12awg-2", "S1", "S2", 15);
  const auto lamp = [&](const std::string& id, const char* item, const char* joint, double length_m) {
    add_lamp(job, id, item);
    add_cable(job, "lead-" + id, "14awg-2", joint, id, length_m);
  };
  for (const char* id : {"F1", "F2", "F3", "F4"}) lamp(id, "uplight-6va", "S1", 8);
  for (const char* id : {"F5", "F6", "F7"}) lamp(id, "path-3va", "S2", 5);
  lamp("F8", "wash-9va", "S2", 10);
  return job;
}

void set_window(job::Job& job, double min_v, double max_v) {
  for (job::LuminaireItem& item : job.catalogue.luminaires) {
    item.window_min_v = min_v;
    item.window_max_v = max_v;
  }
}

job::Job single_run(double length_m) {
  job::Job job = plain_job();
  job.site.corners.mains_tolerance_pct = 0;
  add_transformer(job, "T", "tr-300", "T-A", 13);
  add_lamp(job, "F1", "path-3va");
  add_cable(job, "run", "12awg-2", "T-A", "F1", length_m);
  return job;
}

job::Job chained_garden(int chains, int lamps, double tap_v) {
  job::Job job = plain_job();
  add_transformer(job, "T", "tr-600", "T-A", tap_v);
  add_output(job, "T-B", tap_v);
  for (int chain = 0; chain < chains; ++chain) {
    std::string previous = chain % 2 == 0 ? "T-A" : "T-B";
    for (int k = 0; k < lamps; ++k) {
      const std::string number = std::to_string(chain) + "-" + std::to_string(k);
      add_joint(job, "J" + number);
      add_cable(job, "C" + number, "12awg-2", previous, "J" + number, 4);
      add_lamp(job, "L" + number, "path-3va").joint = "J" + number;
      previous = "J" + number;
    }
  }
  return job;
}

}  // namespace duskwire::study::tests
