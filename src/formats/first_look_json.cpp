// SPDX-License-Identifier: Apache-2.0
#include "formats/first_look_json.hpp"

namespace duskwire::formats {

Json first_look_json(const study::FirstLook& look) {
  Json out = {{"sizes", Json::array()}, {"effects", Json::array()}, {"eyes", Json::array()}, {"asks", look.asks}};
  for (const study::SizeEstimate& size : look.sizes) {
    out["sizes"].push_back({{"name", size.name},
                            {"size_m", size.size_m},
                            {"error_m", size.error_m},
                            {"error_pct", 100 * size.error_share}});
  }
  for (const study::Effect& effect : look.effects) {
    out["effects"].push_back({{"rank", effect.rank},
                              {"feature", effect.feature},
                              {"reason", effect.reason},
                              {"technique", effect.technique},
                              {"lamps_low", effect.lamps_low},
                              {"lamps_high", effect.lamps_high}});
  }
  for (const study::Eye& eye : look.eyes) out["eyes"].push_back({{"name", eye.name}, {"reason", eye.reason}});
  out["price"] = {{"low_minor", look.price_low_minor},
                  {"high_minor", look.price_high_minor},
                  {"currency", "USD"},
                  {"basis", look.price_basis}};
  return out;
}

}  // namespace duskwire::formats
