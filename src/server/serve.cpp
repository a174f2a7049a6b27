// SPDX-License-Identifier: Apache-2.0
#include "server/serve.hpp"

#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <memory>

#include "server/backup_door.hpp"
#include "server/body.hpp"
#include "server/lan_addresses.hpp"
#include "server/listener.hpp"
#include "server/picture_worker.hpp"
#include "server/secrets.hpp"
#include "server/service.hpp"
#include "server/take_in.hpp"
#include "server/wall_clock.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {
namespace {

Result<bool> add_starter(store::Workspace& workspace, const JobToAdd& starter) {
  const formats::ParsedText parsed = formats::parse_text(starter.document);
  const std::string id = parsed.tree ? text_at(*parsed.tree, {"id"}) : "";
  if (!is_id(id))
    return Error{ErrorCode::invalid, "The job to add is no job document, or its id cannot name a job here."};
  // It is there already, perhaps with work in it: it stays.
  if (workspace.job(id)) return true;
  const PictureTools tools = PictureWorker().tools();
  std::string document = formats::compact_text(*parsed.tree);
  std::vector<CheckedPicture> pictures;
  for (const ExportPicture& given : starter.pictures) {
    Result<CheckedPicture> picture = checked_picture(given, tools);
    if (!picture) return picture.error();
    pictures.push_back(std::move(picture).value());
    const Result<bool> anew = without_notes(pictures.back(), document, tools);
    if (!anew) return anew.error();
  }
  const store::SaveOutcome outcome = put_job(workspace, document, pictures, "Added at the start of the server");
  if (const auto* error = std::get_if<Error>(&outcome)) return *error;
  return true;
}

Result<std::shared_ptr<LanDesk>> open_lan(const ServeOptions& options, Listener& listener, Started& started) {
  auto addresses = addresses_to_open(options.lan->address);
  if (!addresses) return addresses.error();
  auto devices = Devices::open(options.workspace_file);
  if (!devices) return devices.error();
  auto fingerprint = devices.value().fingerprint();
  if (!fingerprint) return fingerprint.error();
  started.lan_addresses = std::move(addresses).value();
  started.fingerprint = fingerprint.value();
  auto lan =
      std::make_shared<LanDesk>(std::move(devices).value(), started.fingerprint, listener.port(), options.lan->idle,
                                LanDesk::Surroundings{LanDesk::Clock::now, now_utc, random_code, options.lan->tell});
  const Result<bool> open = listener.open_lan(started.lan_addresses, [lan] { return lan->stays_open(); });
  if (!open) return open.error();
  return lan;
}

}  // namespace

Result<bool> serve(const ServeOptions& options, const std::function<void(const Started&)>& on_start) {
  auto workspace = store::Workspace::open(options.workspace_file, {now_utc, random_secret});
  if (!workspace) return workspace.error();
  for (const JobToAdd& starter : options.starters) {
    const Result<bool> added = add_starter(*workspace.value(), starter);
    if (!added) return added.error();
  }
  PageFiles page;
  bool has_page = false;
  if (!options.page_folder.empty()) {
    Result<PageFiles> read = PageFiles::read(options.page_folder);
    has_page = read.ok();
    if (read) page = std::move(read).value();
  }
  auto listener = Listener::open(options.port);
  if (!listener) return listener.error();
  const std::uint16_t port = listener.value()->port();
  Started started;
  Names names{options.names, {}};
  std::shared_ptr<LanDesk> lan;
  if (options.lan) {
    const auto opened = open_lan(options, *listener.value(), started);
    if (!opened) return opened.error();
    lan = opened.value();
    names.lan_addresses = started.lan_addresses;
    for (std::string& address : started.lan_addresses) address = fmt::format("http://{}:{}/", address, port);
  }
  Gate gate(port, random_secret(), random_secret(), names);
  started.address = fmt::format("http://127.0.0.1:{}/#token={}", port, gate.token());
  started.page = has_page;
  const std::string name = std::filesystem::path(options.workspace_file).stem().string();
  const auto door = BackupDoor::open(*workspace.value(), options.workspace_file);
  if (!door) started.no_backup = door.error().message;
  started.only_ipv4 = listener.value()->only_ipv4();
  Service service(*workspace.value(), name, std::move(gate), std::move(page), PictureWorker().tools(), lan);
  on_start(started);
  listener.value()->run(service);
  return true;
}

}  // namespace duskwire::server
