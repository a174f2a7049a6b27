// SPDX-License-Identifier: Apache-2.0
#include "estimate/priced_jobs.hpp"

#include <random>

#include "estimate/jobs.hpp"

namespace duskwire::estimate::tests {
namespace {

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : engine_(seed) {}
  std::int64_t below(std::uint32_t count) { return engine_() % count; }
  double share() { return engine_() / 4294967296.0; }
  bool one_in(std::uint32_t count) { return below(count) == 0; }

 private:
  std::mt19937 engine_;
};

job::OfferOption option(std::string id, job::OptionKind kind) {
  job::OfferOption made;
  made.title = id;
  made.id = std::move(id);
  made.kind = kind;
  return made;
}

// The lights dealt out: to no option, to one of two phases; every third of them also in a variant.
void add_options(job::Job& job, Dice& dice) {
  job::Offer& offer = *job.offer;
  offer.options = {option("phase-1", job::OptionKind::phase), option("phase-2", job::OptionKind::phase),
                   option("good", job::OptionKind::variant)};
  for (const job::Luminaire& luminaire : job.luminaires) {
    const auto place = static_cast<std::size_t>(dice.below(3));
    if (place < 2) offer.options[place].luminaires.push_back(luminaire.id);
    if (dice.one_in(3)) offer.options[2].luminaires.push_back(luminaire.id);
  }
  offer.options[2].swaps = {{"uplight-6va", "path-3va", {}}};
  for (job::OfferOption& each : offer.options) each.chosen = dice.one_in(3);
}

}  // namespace

PriceOptions with_rules() {
  PriceOptions options;
  options.deposit_rules = {{"ten-percent-or-1000", "10 % or 1000", 10, 100'000, "USD", "", "seen", ""},
                           {"one-third", "A third", 33.333, {}, "", "", "seen", ""}};
  return options;
}

job::Job random_offered_job(std::uint32_t seed) {
  Dice dice(seed + 77'000);
  job::Job job = random_job(seed);
  job::Offer& offer = job.offer.emplace();
  offer.rates.labour_price_minor_per_h = 4000 + dice.below(11'000);
  offer.rates.labour_cost_minor_per_h = 2000 + dice.below(5000);
  if (dice.one_in(2)) offer.rates.trip_price_minor = dice.below(5000);
  if (dice.one_in(3)) offer.rates.trips = static_cast<double>(1 + dice.below(4));
  if (dice.one_in(3)) offer.rates.sundries_cost_minor = dice.below(9000);
  offer.margins.material_markup_pct = static_cast<double>(dice.below(100'000)) / 1000;
  if (dice.one_in(2)) offer.margins.overhead_pct = 30 * dice.share();
  if (dice.one_in(2)) offer.margins.contingency_pct = 20 * dice.share();
  if (dice.one_in(2)) offer.margins.tax_pct = 25 * dice.share();
  if (dice.one_in(2)) offer.margins.tax_on = job::TaxBase::material;
  if (dice.one_in(2)) offer.terms.deposit_rule = dice.one_in(2) ? "ten-percent-or-1000" : "one-third";
  if (dice.one_in(4)) offer.extras = {{"less", "A reduction", -dice.below(4000), 0, {}}};
  add_options(job, dice);
  return job;
}

const std::vector<Price>& prices_of_random_jobs() {
  static const std::vector<Price> once = [] {
    std::vector<Price> made;
    for (std::uint32_t seed = 0; seed < random_jobs; ++seed) {
      made.push_back(price(random_offered_job(seed), {}, with_rules()));
    }
    return made;
  }();
  return once;
}

}  // namespace duskwire::estimate::tests
