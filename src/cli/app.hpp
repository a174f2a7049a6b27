// SPDX-License-Identifier: Apache-2.0
// The whole program behind main: reads the line, runs the command, writes what comes of it.
#pragma once

namespace duskwire::cli {

// Returns the exit code: 0 sound, 1 errors were found, 2 bad input. Throws nothing.
int run(int argc, const char* const* argv);

}  // namespace duskwire::cli
