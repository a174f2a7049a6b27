// SPDX-License-Identifier: Apache-2.0
#include "estimate/jobs.hpp"

#include <random>

namespace duskwire::estimate::tests {
namespace {

job::LuminaireItem luminaire_item(const char* id, job::LuminaireKind kind, std::int64_t price_minor) {
  job::LuminaireItem item;
  item.id = id;
  item.title = id;
  item.kind = kind;
  item.lead_area_mm2 = 0.82;
  item.lead_length_m = 1;
  item.price_minor = price_minor;
  item.labour_min = 25;
  return item;
}

job::CableItem cable_item(const char* id, double area_mm2, std::int64_t price_minor_per_m) {
  job::CableItem item;
  item.id = id;
  item.title = id;
  item.area_mm2 = area_mm2;
  item.price_minor_per_m = price_minor_per_m;
  item.labour_min_per_m = 1;
  return item;
}

job::ConnectorItem connector_item(const char* id, std::uint32_t count_max, double area_max_mm2,
                                  std::int64_t price_minor) {
  job::ConnectorItem item;
  item.id = id;
  item.title = id;
  item.fills = {{0.8, area_max_mm2, 2, count_max, {}}};
  item.sealed = true;
  item.mechanically_held = true;
  item.price_minor = price_minor;
  item.labour_min = 3;
  return item;
}

job::SundryItem sundry_item(const char* id, job::SundryKind kind, const char* unit, std::int64_t price_minor) {
  job::SundryItem item;
  item.id = id;
  item.title = id;
  item.kind = kind;
  item.unit = unit;
  item.price_minor = price_minor;
  item.labour_min = 0.5;
  return item;
}

job::Cable cable(std::string id, std::string item, std::string from, std::string to, double length_m) {
  job::Cable made;
  made.id = std::move(id);
  made.item = std::move(item);
  made.from = std::move(from);
  made.to = std::move(to);
  made.length_m = length_m;
  return made;
}

void add_lamp(job::Job& job, const char* id, const char* item, const char* joint, double length_m) {
  job::Luminaire luminaire;
  luminaire.id = id;
  luminaire.item = item;
  job.luminaires.push_back(luminaire);
  job.cables.push_back(cable(std::string("lead-") + id, "14awg-2", joint, id, length_m));
}

void add_hub(job::Job& job, const char* id) {
  job::Joint joint;
  joint.id = id;
  joint.kind = job::JointKind::hub;
  joint.connector = "gel-6";
  job.joints.push_back(joint);
}

void add_transformer(job::Job& job, const char* id, const char* output_id) {
  job::Transformer transformer;
  transformer.id = id;
  transformer.item = "tr-150";
  transformer.controls = {"clock"};
  job::Output output;
  output.id = output_id;
  output.tap_v = 13;
  transformer.outputs.push_back(output);
  job.transformers.push_back(transformer);
}

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : engine_(seed) {}
  std::size_t below(std::size_t count) { return engine_() % count; }
  double between(double low, double high) { return low + (high - low) * (engine_() / 4294967296.0); }
  bool one_in(std::size_t count) { return below(count) == 0; }
  template <class Value>
  const Value& pick(const std::vector<Value>& values) {
    return values[below(values.size())];
  }

 private:
  std::mt19937 engine_;
};

void add_random_cable(job::Job& job, Dice& dice, const std::string& from, const std::string& to) {
  const std::string id = "c" + std::to_string(job.cables.size());
  const std::string item = dice.one_in(20) ? "no-such-cable" : dice.pick(job.catalogue.cables).id;
  job::Cable made = cable(id, item, from, to, dice.between(0.5, 40));
  if (dice.one_in(20)) made.length_m.reset();
  if (dice.one_in(4)) made.path = {{dice.between(0, 20), 0}, {dice.between(0, 20), dice.between(-5, 5)}};
  if (dice.one_in(6)) made.slack_from_m = dice.between(0, 2);
  if (dice.one_in(6)) made.slack_to_m = dice.between(0, 2);
  if (dice.one_in(5)) made.ground = static_cast<job::GroundKind>(dice.below(14));
  job.cables.push_back(made);
}

}  // namespace

job::Catalogue test_catalogue() {
  job::Catalogue catalogue;
  catalogue.luminaires = {luminaire_item("uplight-6va", job::LuminaireKind::bullet, 9500),
                          luminaire_item("path-3va", job::LuminaireKind::path, 8000),
                          luminaire_item("wash-9va", job::LuminaireKind::wall_wash, 11000),
                          luminaire_item("tree-6va", job::LuminaireKind::tree_downlight, 12000),
                          luminaire_item("well-6va", job::LuminaireKind::well, 14000),
                          luminaire_item("step-2va", job::LuminaireKind::step, 5000)};
  job::TransformerItem transformer;
  transformer.id = "tr-150";
  transformer.title = "tr-150";
  transformer.price_minor = 26000;
  transformer.labour_min = 90;
  catalogue.transformers = {transformer};
  catalogue.cables = {cable_item("14awg-2", 2.081, 110), cable_item("12awg-2", 3.309, 160)};
  catalogue.connectors = {connector_item("gel-3", 3, 3.4, 150), connector_item("gel-6", 6, 3.4, 350)};
  job::ControlItem clock;
  clock.id = "clock";
  clock.title = "clock";
  clock.price_minor = 6000;
  catalogue.controls = {clock};
  catalogue.sundries = {sundry_item("stake-heavy", job::SundryKind::stake, "piece", 450),
                        sundry_item("stake", job::SundryKind::stake, "piece", 200),
                        sundry_item("staple", job::SundryKind::staple, "piece", 12),
                        sundry_item("sleeve-25", job::SundryKind::sleeve, "m", 240),
                        sundry_item("tag", job::SundryKind::tag, "piece", 20),
                        sundry_item("post", job::SundryKind::post_mount, "piece", 4000),
                        sundry_item("tree-bolts", job::SundryKind::tree_mount, "piece", 900),
                        sundry_item("gravel-bag", job::SundryKind::drainage, "piece", 600)};
  return catalogue;
}

job::Job two_hub_garden() {
  job::Job job;
  job.catalogue = test_catalogue();
  add_transformer(job, "T", "T-1");
  add_hub(job, "S1");
  add_hub(job, "S2");
  job.cables = {cable("run-1", "12awg-2", "T-1", "S1", 30), cable("run-2", "12awg-2", "S1", "S2", 15)};
  for (const char* id : {"F1", "F2", "F3", "F4"}) add_lamp(job, id, "uplight-6va", "S1", 8);
  for (const char* id : {"F5", "F6", "F7"}) add_lamp(job, id, "path-3va", "S2", 5);
  add_lamp(job, "F8", "wash-9va", "S2", 10);
  return job;
}

job::Job offered_garden() {
  job::Job job = two_hub_garden();
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.labour_min = 30;
  for (job::CableItem& item : job.catalogue.cables) item.labour_min_per_m = 0;
  for (job::ConnectorItem& item : job.catalogue.connectors) item.labour_min = 7.5;
  job.catalogue.sundries.clear();
  job::Area lawn;
  lawn.kind = job::GroundKind::lawn;
  lawn.outline = {{0, -1}, {25, -1}, {25, 1}, {0, 1}};
  job.plan.areas = {lawn};
  for (job::Cable& cable : job.cables) cable.ground = job::GroundKind::bed;
  job.cables[0].path = {{0, 0}, {30, 0}};
  job::Offer offer;
  offer.rates.labour_price_minor_per_h = 8500;
  offer.rates.labour_cost_minor_per_h = 3800;
  offer.rates.sundries_cost_minor = 4000;
  offer.rates.crew_size = 2;
  offer.rates.trips = 2;
  offer.rates.trip_h = 0.75;
  offer.rates.night_visit_h = 1.5;
  offer.rates.night_visit_people = 2;
  offer.rates.commissioning_min_per_lamp = 5;
  offer.rates.commissioning_min_per_output = 20;
  offer.margins.material_markup_pct = 60;
  offer.margins.margin_floor_pct = 45;
  offer.margins.contingency_pct = 0;
  offer.terms.deposit_rule = "ten-percent-or-1000";
  job.offer = offer;
  return job;
}

job::Job random_job(std::uint32_t seed) {
  Dice dice(seed);
  job::Job job;
  job.catalogue = test_catalogue();
  add_transformer(job, "T", "T-1");
  std::vector<std::string> ends{"T-1"};
  const std::size_t joints = 1 + dice.below(12);
  for (std::size_t i = 0; i < joints; ++i) {
    job::Joint joint;
    joint.id = "j" + std::to_string(i);
    if (dice.one_in(2))
      joint.connector = dice.one_in(12) ? "no-such-connector" : dice.pick(job.catalogue.connectors).id;
    if (dice.one_in(10)) joint.connector_count = static_cast<std::uint32_t>(dice.below(4));
    job.joints.push_back(joint);
    add_random_cable(job, dice, dice.pick(ends), joint.id);
    ends.push_back(joint.id);
  }
  const std::size_t lamps = dice.below(30);
  for (std::size_t i = 0; i < lamps; ++i) {
    job::Luminaire luminaire;
    luminaire.id = "f" + std::to_string(i);
    luminaire.item = dice.one_in(20) ? "no-such-lamp" : dice.pick(job.catalogue.luminaires).id;
    if (dice.one_in(2)) {
      luminaire.joint = dice.pick(job.joints).id;
    } else {
      add_random_cable(job, dice, dice.pick(ends), luminaire.id);
    }
    job.luminaires.push_back(luminaire);
  }
  return job;
}

}  // namespace duskwire::estimate::tests
