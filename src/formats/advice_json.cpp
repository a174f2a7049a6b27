// SPDX-License-Identifier: Apache-2.0
#include "formats/advice_json.hpp"

#include "formats/result_advice.hpp"
#include "formats/shape_change.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json advice_json(const study::Advice& advice) { return result_json(advice); }

}  // namespace duskwire::formats
