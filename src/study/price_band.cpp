// SPDX-License-Identifier: Apache-2.0
#include "study/price_band.hpp"

#include <fmt/format.h>

#include <string_view>

namespace duskwire::study {
namespace {

// What may make a light of a feature dearer than a flat quote.
struct Hardship {
  std::string_view feature;
  const char* sentence;
};
constexpr Hardship hardships[] = {
    {"steps", "Lights that are let into risers may need holes in stone: then one costs 400 USD and more."},
    {"tree", "A light up in a tree takes a ladder and a trained climber: then one costs 400 USD and more."},
    {"terrace", "Cable has to pass under or along what is paved: that may cost hours."},
    {"water", "Near water only fittings listed for it are allowed: they cost more."},
};

BandPart part_of(const Effect& effect) {
  BandPart part;
  part.feature = effect.feature;
  part.lamps_low = effect.lamps_low;
  part.lamps_high = effect.lamps_high;
  part.low_minor = effect.lamps_low * light_low_minor;
  part.high_minor = effect.lamps_high * light_high_minor;
  part.reason = fmt::format("{} to {} lights at {} to {} USD each.", effect.lamps_low, effect.lamps_high,
                            light_low_minor / 100, light_high_minor / 100);
  return part;
}

void add_unknowns(PriceBand& band, const FirstLookRequest& request, const FirstLook& look) {
  if (!request.outlet_known) {
    band.widens.emplace_back(
        "Where the outlet is decides how far the first cable runs; a new outlet is a licensed electrician's work and "
        "is "
        "not in the band.");
  }
  if (!request.water_known) {
    band.widens.emplace_back("A pool or a pond nearby asks for listed fittings and for distance.");
  }
  for (const Effect& effect : look.effects) {
    for (const Hardship& each : hardships) {
      if (each.feature == effect.feature) band.widens.emplace_back(each.sentence);
    }
  }
  band.widens.emplace_back("Rock, roots and what is paved cost hours that no photograph shows.");
  band.narrows = look.asks;
}

}  // namespace

Result<PriceBand> price_band(const FirstLookRequest& request) {
  const Result<FirstLook> look = first_look(request);
  if (!look) return look.error();
  PriceBand band;
  for (const Effect& effect : look.value().effects) {
    BandPart part = part_of(effect);
    band.lamps_low += part.lamps_low;
    band.lamps_high += part.lamps_high;
    band.low_minor += part.low_minor;
    band.high_minor += part.high_minor;
    band.parts.push_back(std::move(part));
  }
  // The middle of the counts: two of them make one light, so that half a light is no trouble.
  band.usual_minor = (band.lamps_low + band.lamps_high) * light_usual_minor / 2;
  add_unknowns(band, request, look.value());
  band.basis =
      "Prices for each light put in as contractors quote them in public: 150 to 400 USD in flat quotes, about 325 USD "
      "on "
      "average. An estimate before the walk, not an offer.";
  return band;
}

}  // namespace duskwire::study
