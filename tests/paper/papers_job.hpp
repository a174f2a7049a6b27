// SPDX-License-Identifier: Apache-2.0
// A small job with an offer, for the papers that are sold and handed over. All of it invented.
#pragma once

#include "job/job.hpp"
#include "paper/owner_paper.hpp"
#include "paper/paper_wish.hpp"
#include "paper/proposal_paper.hpp"

namespace duskwire::paper {

inline job::Job papers_job() {
  job::Job job;
  job.id = "sample-garden";
  job.title = "The sample garden";
  job.client.name = "Ελένη Παπαδοπούλου";
  job.client.wishes = {{"The steps are dark.", {}}, {"We love the oak.", {}}};
  job.site.address = "3 Invented Lane";
  job.plan.property_line = {{0, 0}, {24, 0}, {24, 12}, {0, 12}};
  job.plan.fixed_points = {{"P1", "West corner", {1, 1}, {}}, {"P2", "East corner", {23, 1}, {}}};
  job::LuminaireItem item;
  item.id = "bullet";
  item.title = "Bullet uplight, 6 W";
  item.kind = job::LuminaireKind::bullet;
  item.flux_lm = 420;
  item.colour_temperature_k = 2700;
  job.catalogue.luminaires.push_back(item);
  for (int i = 1; i <= 3; ++i) {
    job::Luminaire lamp;
    lamp.id = "F" + std::to_string(i);
    lamp.name = "Oak, side " + std::to_string(i);
    lamp.item = "bullet";
    lamp.zone = i < 3 ? "front" : "back";
    lamp.position = geometry::Point3{5.0 * i, 6, 0.1};
    job.luminaires.push_back(lamp);
  }
  job::Offer offer;
  offer.number = "Q-17";
  offer.terms.valid_days = 30;
  offer.terms.exclusions = {"Rock in the trench."};
  offer.terms.warranties = {{"Lights", 5, {}}, {"Labour", 2, {}}};
  offer.terms.text = "Payment within 14 days.";
  job.offer = offer;
  return job;
}

inline PaperWish papers_wish() {
  PaperWish wish;
  wish.shop = "Example Garden Lights";
  wish.made_by = "A. Maker";
  wish.date = "2026-11-26";
  return wish;
}

inline OfferedPrice papers_price() {
  OfferedPrice price;
  price.currency = "USD";
  price.groups = {{"Lights and small goods", 202448}, {"Work", 145019}};
  price.net_minor = price.total_minor = 347467;
  price.deposit_minor = 34747;
  price.deposit_rule = "A tenth at most (from memory).";
  price.options = {{"Oak only", "The two lights of the oak", "instead", 210000, false, {"F1", "F2"}}};
  return price;
}

}  // namespace duskwire::paper
