// SPDX-License-Identifier: Apache-2.0
// Keys of a document that this version does not know, kept as opaque text so that a rewrite loses nothing. Only
// `formats` makes or reads the text (a JSON object, or empty).
#pragma once

#include <string>

namespace duskwire::job {

using Extra = std::string;

}  // namespace duskwire::job
