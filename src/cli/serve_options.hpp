// SPDX-License-Identifier: Apache-2.0
// The options of the commands on workspaces (serve, devices, backup, restore, salvage), for parse.cpp.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "cli/invocation.hpp"

namespace duskwire::cli {

void add_serve(CLI::App& app, ServeRequest& request, const std::string& group);
void add_devices(CLI::App& app, DevicesRequest& request, const std::string& group);
// `file` and `help`: what the file that is read is called on the help page.
void add_care(CLI::App& app, CareRequest& request, CareRequest::Act act, const std::string& file,
              const std::string& help, const std::string& group);

}  // namespace duskwire::cli
