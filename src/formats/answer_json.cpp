// SPDX-License-Identifier: Apache-2.0
#include "formats/answer_json.hpp"

#include "formats/result_advice.hpp"
#include "formats/shape_catalogue.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json answer_json(const study::Answer& answer) { return result_json(answer); }

}  // namespace duskwire::formats
