// SPDX-License-Identifier: Apache-2.0
// A picture as it goes on paper: no finer than a printer shows, and as JPEG in a PDF so that the file stays small.
#pragma once

#include <functional>

#include "paper/page.hpp"
#include "pictures/picture.hpp"

struct _cairo;

namespace duskwire::paper {

[[nodiscard]] std::function<void(_cairo*)> picture_ink(const pictures::Picture& picture, const Box& box);

}  // namespace duskwire::paper
