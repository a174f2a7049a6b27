// SPDX-License-Identifier: Apache-2.0
#include "formats/choice_json.hpp"

#include "formats/result_choice.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json choice_json(const study::Choice& choice) { return result_json(choice); }

}  // namespace duskwire::formats
