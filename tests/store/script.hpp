// SPDX-License-Identifier: Apache-2.0
// Thirty commands to a workspace, the same each time, and its whole content as one text: what the tests of power cuts
// and faults run and compare.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "store/workspace.hpp"

namespace duskwire::store::testing {

struct Session {
  std::string path;
  std::unique_ptr<Workspace> workspace;
};

struct Command {
  std::string name;
  // Nothing where it was answered; giving it again after an error must be safe.
  std::function<std::optional<Error>(Session&)> run;
};

// The first command opens (and makes) the workspace.
[[nodiscard]] const std::vector<Command>& script();

// Opens with a clock and ids that always give the same.
[[nodiscard]] std::optional<Error> open_session(Session& session);

// Jobs, every revision, pictures and the shop's catalogue as one text; what the workspace says of its own soundness is
// in it.
[[nodiscard]] Result<std::string> content_of(Workspace& workspace);

// The content before the first command and after each.
[[nodiscard]] const std::vector<std::string>& contents_of_script();

}  // namespace duskwire::store::testing
