// SPDX-License-Identifier: Apache-2.0
// A workspace file as a command opens it, while no server does.
#pragma once

#include <memory>
#include <string>

#include "base/result.hpp"
#include "store/workspace.hpp"

namespace duskwire::cli {

// `may_make`: where the file is missing it is made; else that is refused. Errors name the file.
[[nodiscard]] Result<std::unique_ptr<store::Workspace>> open_workspace(const std::string& path, bool may_make);

}  // namespace duskwire::cli
