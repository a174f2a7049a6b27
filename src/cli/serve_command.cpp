// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/night_photo.hpp"
#include "cli/output_file.hpp"
#include "cli/qr_text.hpp"
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

// At once, as the command goes on: a person waits for this.
void say(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
  std::fflush(stdout);
}

std::string in_groups(const std::string& text, std::size_t size) {
  std::string grouped;
  for (std::size_t i = 0; i < text.size(); i += size) grouped += (i == 0 ? "" : " ") + text.substr(i, size);
  return grouped;
}

std::string minutes(double count) { return count == 1 ? "1 minute" : fmt::format("{:.3g} minutes", count); }

std::string door_text(const ServeRequest& request, const server::Started& started, const TextStyle& style) {
  std::string text = "\n" + paint(style, Ink::caution, "THE LOCAL NETWORK IS OPEN.") + "\n";
  for (const std::string& address : started.lan_addresses) text += fmt::format("A phone opens  {}\n", address);
  text += fmt::format(
      "Whoever is on this network can reach that address, but gets in only with the code below.\n"
      "The door shuts by itself after {} without a paired phone, and when this ends.\n"
      "Plain http: whoever listens in on this network can read along and take over a phone's key. Open it on a\n"
      "network that you trust.\n\n",
      minutes(request.lan_minutes));
  text += qr_text(fmt::format("{}#server={}", started.lan_addresses.front(), started.fingerprint), style);
  text += fmt::format("The server's fingerprint, which the phone shows too:  {}\n", in_groups(started.fingerprint, 4));
  return text;
}

void announce(const ServeRequest& request, const server::Started& started, const std::string& lacks,
              const TextStyle& style) {
  std::string text = fmt::format("The page is at  {}\nThe workspace is {}\n", started.address, request.workspace);
  if (!started.page) text += "The page is not built: tools/build_page.sh builds it. The interface below /api/ works.\n";
  const bool alone = started.lan_addresses.empty();
  if (alone) {
    text += fmt::format("Nobody but this computer reaches it: it listens at {}. ",
                        started.only_ipv4 ? "127.0.0.1 alone" : "127.0.0.1 and ::1 alone");
  }
  text += "Ctrl-C ends it; everything saved is on the disk.\n";
  text += lacks;
  if (!started.no_backup.empty()) text += started.no_backup + "\n";
  if (!alone) text += door_text(request, started, style);
  say(text);
}

// While it runs.
void tell(const server::LanNews& news, const ServeRequest& request) {
  switch (news.kind) {
    case server::LanNews::Kind::code:
      return say(fmt::format("The code  {}  is good for two minutes and one phone.\n", in_groups(news.text, 4)));
    case server::LanNews::Kind::paired:
      return say(fmt::format("Paired: {}. duskwire devices {} lists the phones and forgets them.\n", news.text,
                             request.workspace));
    case server::LanNews::Kind::wrong_code:
      return say("Somebody typed a wrong code.\n");
    case server::LanNews::Kind::pairing_over:
      return say(
          "TOO MANY WRONG CODES: somebody may be guessing. Nobody is paired any more until the server is started "
          "anew; paired phones go on.\n");
    case server::LanNews::Kind::closed:
      return say(
          fmt::format("THE LOCAL NETWORK IS SHUT: no paired phone asked for anything in {}. This computer goes "
                      "on; start anew with --lan to open it again.\n",
                      minutes(request.lan_minutes)));
  }
}

}  // namespace

Outcome serve_command(const ServeRequest& request, const TextStyle& style) {
  server::ServeOptions options;
  options.port = static_cast<std::uint16_t>(request.port);
  options.workspace_file = request.workspace;
  options.page_folder = request.page.empty() ? page_beside_program() : request.page;
  options.names = request.names;
  if (request.lan) {
    const auto idle = std::chrono::milliseconds(static_cast<std::int64_t>(request.lan_minutes * 60'000));
    options.lan = {request.address, idle, [&](const server::LanNews& news) { tell(news, request); }};
  } else if (!request.address.empty()) {
    return {exit_bad_input, "", "duskwire serve: --address says where the door opens, so it needs --lan.\n"};
  }
  std::string lacks;
  for (const std::string& file : request.jobs) {
    Result<std::string> text = read_file(file);
    if (!text) return refuse(text.error());
    server::JobToAdd job{std::move(text).value(), {}};
    std::vector<std::string> wanted = server::picture_hashes(job.document);
    for (PictureBeside& picture : pictures_beside(file, wanted)) {
      std::erase(wanted, picture.hash);
      job.pictures.push_back({std::move(picture.hash), std::move(picture.bytes)});
    }
    for (const std::string& hash : wanted) {
      lacks += fmt::format("The picture {}... of {} is not in its folder: the job comes without it.\n",
                           hash.substr(0, 12), file);
    }
    options.starters.push_back(std::move(job));
  }
  const Result<bool> ended =
      server::serve(options, [&](const server::Started& started) { announce(request, started, lacks, style); });
  if (!ended)
    return {exit_bad_input, "", fmt::format("duskwire serve: {}: {}\n", request.workspace, ended.error().message)};
  return {exit_sound, "Stopped.\n", ""};
}

}  // namespace duskwire::cli
