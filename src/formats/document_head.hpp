// SPDX-License-Identifier: Apache-2.0
// The first two keys of every document: what it is and which version of its format.
#pragma once

#include <string_view>

#include "formats/context.hpp"

namespace duskwire::formats {

// Whether the rest can be read as version 1 of `format`; what is wrong goes into the context. `noun` is what people
// call the document: "job".
bool read_head(Context& context, const Json& tree, std::string_view format, std::string_view noun);

}  // namespace duskwire::formats
