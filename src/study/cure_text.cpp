// SPDX-License-Identifier: Apache-2.0
#include "study/cure_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "study/wording.hpp"

namespace duskwire::study {
namespace {

std::string lamp_words(const Built& built, std::uint32_t lamp, double volts) {
  return fmt::format("{} sees {} at worst (window {})", built.job->luminaires[lamp].id, worded(volts, volt_unit),
                     window_words(built.lamps[lamp]));
}

std::size_t output_index(const Built& built, const Trouble& trouble, const TrialResult& effect) {
  const std::string id = id_of(*built.job, trouble.spot);
  const auto found = std::find(effect.output_ids.begin(), effect.output_ids.end(), id);
  return static_cast<std::size_t>(found - effect.output_ids.begin());
}

std::string output_words(const Built& built, const Trouble& trouble, const TrialResult& effect) {
  const std::size_t o = output_index(built, trouble, effect);
  if (o >= effect.outputs.size()) return "";
  return fmt::format("{} carries {} at worst of its {}", effect.output_ids[o],
                     worded(effect.outputs[o].worst_current_a, ampere_unit),
                     worded(effect.output_limit_a[o], ampere_unit));
}

std::string short_words(const Built& built, const Trouble& trouble, const TrialResult& effect) {
  const std::size_t o = output_index(built, trouble, effect);
  if (o >= effect.outputs.size()) return "";
  const WordedPair amps = worded_apart(effect.outputs[o].far_short_a, effect.output_limit_a[o], ampere_unit);
  return fmt::format("the farthest short draws {}, more than its {}", amps.measured, amps.limit);
}

std::string transformer_words(const Trouble& trouble, const TrialResult& effect, const std::string& id) {
  const std::uint32_t t = trouble.spot.index;
  const double load_va = std::max(effect.transformers[t].worst_load_va, effect.transformers[t].lamp_va);
  const double rating_va = effect.transformer_rating_va[t];
  return fmt::format("{} delivers {} at worst, {} of its {}", id, worded(load_va, volt_ampere_unit),
                     worded(100 * load_va / rating_va, percent_unit), worded(rating_va, volt_ampere_unit));
}

std::string lowest_lamp_words(const Built& built, const TrialResult& effect) {
  std::uint32_t lowest = none;
  for (std::uint32_t i = 0; i < effect.lamps.size(); ++i) {
    if (!built.lamps[i].counts) continue;
    if (lowest == none || effect.lamps[i].low_v < effect.lamps[lowest].low_v) lowest = i;
  }
  return lowest == none ? "that is put right"
                        : "the lowest lamp, " + lamp_words(built, lowest, effect.lamps[lowest].low_v);
}

bool has_no_minor_units(const std::string& currency) {
  // ISO 4217: currencies whose minor unit is the unit itself (the common ones, from memory).
  for (const char* code : {"JPY", "KRW", "CLP", "ISK", "VND", "PYG", "UGX", "XAF", "XOF", "XPF"}) {
    if (currency == code) return true;
  }
  return false;
}

}  // namespace

std::string window_words(const Lamp& lamp, std::string low, std::string high) {
  if (low.empty()) low = worded(lamp.window_min_v, volt_unit);
  if (lamp.window_max_v <= 0) return "from " + low;
  if (high.empty()) high = worded(lamp.window_max_v, volt_unit);
  return fmt::format("{} to {}", low.substr(0, low.find(' ')), high);
}

std::string effect_words(const Built& built, const Trouble& trouble, const TrialResult& effect) {
  const std::string id = id_of(*built.job, trouble.spot);
  switch (family_of(trouble.kind)) {
    case TroubleFamily::lamp_low:
      return lamp_words(built, trouble.spot.index, effect.lamps[trouble.spot.index].low_v);
    case TroubleFamily::lamp_high:
      return lamp_words(built, trouble.spot.index, effect.lamps[trouble.spot.index].high_v);
    case TroubleFamily::output_load:
      return output_words(built, trouble, effect);
    case TroubleFamily::transformer_load:
      return transformer_words(trouble, effect, id);
    case TroubleFamily::margin: {
      const bool load = trouble.kind == TroubleKind::load_margin;
      return fmt::format("{} may grow by {:.0f} % before a lamp leaves regulation",
                         load ? "the load" : "the cable length",
                         100 * ((load ? effect.load_margin : effect.length_margin) - 1));
    }
    case TroubleFamily::other:
      break;
  }
  if (trouble.kind == TroubleKind::far_short) return short_words(built, trouble, effect);
  return lowest_lamp_words(built, effect);
}

std::string price_words(std::int64_t more_minor, const std::string& currency) {
  const double unit = has_no_minor_units(currency) ? 1 : 100;
  const double amount = static_cast<double>(std::llabs(more_minor)) / unit;
  if (amount < 0.5) return "";
  return fmt::format("about {:.0f} {} {} material", amount, currency, more_minor > 0 ? "more" : "less");
}

}  // namespace duskwire::study
