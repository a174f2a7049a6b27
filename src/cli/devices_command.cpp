// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <filesystem>

#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "cli/table.hpp"
#include "server/devices.hpp"

namespace duskwire::cli {
namespace {

Outcome failed(const DevicesRequest& request, const Error& error) {
  return {exit_bad_input, "", fmt::format("duskwire devices: {}: {}\n", request.workspace, error.message)};
}

Outcome forget_all(server::Devices& devices, const DevicesRequest& request) {
  Outcome outcome{exit_sound, "", ""};
  for (const std::string& id : request.forget) {
    const Result<bool> forgotten = devices.forget(id);
    if (!forgotten) return failed(request, forgotten.error());
    if (forgotten.value()) {
      outcome.text += fmt::format("{} is forgotten: it comes in no more.\n", id);
    } else {
      outcome.code = exit_findings;
      outcome.text += fmt::format("No phone {} is paired here. Without --forget the list shows those that are.\n", id);
    }
  }
  return outcome;
}

}  // namespace

Outcome devices_command(const DevicesRequest& request, const TextStyle& style) {
  std::error_code fault;
  if (!std::filesystem::exists(request.workspace, fault)) {
    return failed(request, {ErrorCode::not_found, "There is no such workspace file."});
  }
  auto devices = server::Devices::open(request.workspace);
  if (!devices) return failed(request, devices.error());
  if (!request.forget.empty()) return forget_all(devices.value(), request);
  const auto all = devices.value().all();
  if (!all) return failed(request, all.error());
  if (all.value().empty()) {
    return {exit_sound, "No phone is paired with this workspace. duskwire serve --lan pairs one.\n", ""};
  }
  Table table({{"id"}, {"name", Align::left, true}, {"paired (UTC)"}});
  for (const server::Device& device : all.value()) table.add({{device.id}, {device.name}, {device.paired}});
  return {
      exit_sound,
      table.text(style, 0) + "\nA phone that is lost or sold: duskwire devices " + request.workspace + " --forget ID\n",
      ""};
}

}  // namespace duskwire::cli
