// SPDX-License-Identifier: Apache-2.0
// One line of set text as ink that can be read back from the file.
#pragma once

struct _cairo;
struct _PangoLayoutLine;

namespace duskwire::paper {

// From the current point, which lies on its base line. Unlike the library's own, a space where a line was broken stays
// a space: without it the words at the ends of lines run into each other when the file is read out.
void show_line(_cairo* pen, _PangoLayoutLine* line);

}  // namespace duskwire::paper
