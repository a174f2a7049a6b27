// SPDX-License-Identifier: Apache-2.0
// The night view of a photograph, kept between the page's calls. Pictures go in and out as bytes beside the texts: the
// C functions at the end of night_face.cpp.
#pragma once

#include <string_view>
#include <vector>

#include "wasm/verbs.hpp"

namespace duskwire::wasm {

// Document, wish. Calculates the picture and answers with its facts; the document is kept.
[[nodiscard]] Reply night_picture(const std::vector<std::string_view>& given);
// [[pointer, value]...], wish. The same for the kept document with these parts put in.
[[nodiscard]] Reply night_changed(const std::vector<std::string_view>& given);
// [x, y] in elements of the picture.
[[nodiscard]] Reply night_probe(const std::vector<std::string_view>& given);

}  // namespace duskwire::wasm
