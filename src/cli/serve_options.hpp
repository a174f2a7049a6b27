// SPDX-License-Identifier: Apache-2.0
// The options of `duskwire serve` and `duskwire devices`, for parse.cpp.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "cli/invocation.hpp"

namespace duskwire::cli {

void add_serve(CLI::App& app, ServeRequest& request, const std::string& group);
void add_devices(CLI::App& app, DevicesRequest& request, const std::string& group);

}  // namespace duskwire::cli
