// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "server/serve.hpp"

namespace duskwire::cli {
namespace {

namespace fs = std::filesystem;

// Where the page is after an installation, or after a build in the project's own folder.
std::string page_beside_program() {
  std::error_code fault;
  const fs::path folder = fs::read_symlink("/proc/self/exe", fault).parent_path();
  if (fault) return "";
  for (const fs::path& place : {folder / "../share/duskwire/page", folder / "../../web/dist"}) {
    if (fs::exists(place / "index.html", fault)) return place.lexically_normal().string();
  }
  return "";
}

// At once, as the command goes on: a person waits for this address.
void announce(const ServeRequest& request, const server::Started& started) {
  std::string text = fmt::format("The page is at  {}\nThe workspace is {}\n", started.address, request.workspace);
  if (!started.page) text += "The page is not built: tools/build_page.sh builds it. The interface below /api/ works.\n";
  text += "Nobody but this computer reaches it. Ctrl-C ends it; everything saved is on the disk.\n";
  std::fwrite(text.data(), 1, text.size(), stdout);
  std::fflush(stdout);
}

}  // namespace

Outcome serve_command(const ServeRequest& request) {
  server::ServeOptions options;
  options.port = static_cast<std::uint16_t>(request.port);
  options.workspace_file = request.workspace;
  options.page_folder = request.page.empty() ? page_beside_program() : request.page;
  for (const std::string& file : request.jobs) {
    Result<std::string> text = read_file(file);
    if (!text) return refuse(text.error());
    options.starters.push_back({std::move(text).value()});
  }
  const Result<bool> ended =
      server::serve(options, [&](const server::Started& started) { announce(request, started); });
  if (!ended)
    return {exit_bad_input, "", fmt::format("duskwire serve: {}: {}\n", request.workspace, ended.error().message)};
  return {exit_sound, "Stopped.\n", ""};
}

}  // namespace duskwire::cli
