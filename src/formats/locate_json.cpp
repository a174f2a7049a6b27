// SPDX-License-Identifier: Apache-2.0
#include "formats/locate_json.hpp"

#include "formats/result_locate.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json locate_json(const study::Located& located) { return result_json(located); }

Json readings_json(const study::Located& located) {
  Json out = Json::object();
  out["visit"] = located.visit;
  out["compared"] = result_json(located.compared);
  // What a likeliest cause would say is not asked for here.
  for (Json& one : out["compared"]) {
    one.erase("explained");
    one.erase("read_again");
  }
  out["unused"] = result_json(located.unused);
  out["drift"] = result_json(located.drift);
  return out;
}

}  // namespace duskwire::formats
