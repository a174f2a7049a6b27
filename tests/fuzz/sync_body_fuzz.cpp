// SPDX-License-Identifier: Apache-2.0
// Any bytes as what a page or a phone sends once it has signal again: requests one after the other, with a zero byte
// between them; the first byte of each tells which route takes the rest as its body. No answer is a fault of the
// server, what is answered as stored comes back as it was sent, the same request again stores nothing new, a save whose
// base is not the present revision stores nothing, and the workspace passes its full check in the end.
#include <stdlib.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <string_view>

#include "base/utf8.hpp"
#include "server/service.hpp"
#include "store/disk_vfs.hpp"

namespace {

using namespace duskwire;
using formats::Json;
using server::Head;
using server::Response;

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

const std::string token = "the-token-of-this-start";

class Server {
 public:
  Response ask(const std::string& method, const std::string& target, const std::string& body = "") {
    Head head{method, target, {{"host", "127.0.0.1:7415"}, {"authorization", "Bearer " + token}}};
    if (method != "GET") {
      head.fields.push_back({"content-type", "application/json"});
      head.fields.push_back({"content-length", std::to_string(body.size())});
    }
    const auto admission = service_.admit(head);
    return admission.admitted ? service_.answer(head, body) : admission.refusal;
  }

  [[nodiscard]] store::Workspace& workspace() { return *workspace_; }

 private:
  // The workspace as it was after its first job, which the clock that stands still makes the same for every input.
  static store::testing::DiskImage begun() {
    store::testing::DiskVfs vfs;
    {
      const auto made = open();
      store::Save save;
      save.id = "garden";
      save.save_id = "first";
      save.document = R"({"format":"duskwire-job","version":1,"id":"garden"})";
      demand(std::holds_alternative<store::Saved>(made->save(save)), "the first job is saved");
    }
    std::mt19937 dice(1);
    return vfs.disk.cut(store::testing::Cut::all_kept, dice);
  }

  static std::unique_ptr<store::Workspace> open() {
    // The store makes an empty file of that name beside the disk in memory.
    static const std::string path = [] {
      std::string folder = "/tmp/duskwire-fuzz-XXXXXX";
      demand(::mkdtemp(folder.data()) != nullptr, "a folder can be made");
      return folder + "/w";
    }();
    auto opened = store::Workspace::open(
        path, {[] { return std::string("2026-03-01T10:00:00Z"); }, [] { return std::string("0123456789abcdef"); }});
    demand(opened.ok(), "a sound workspace opens");
    return std::move(opened).value();
  }

  static const store::testing::DiskImage& image() {
    static const store::testing::DiskImage made = begun();
    return made;
  }

  store::testing::DiskVfs vfs_{store::testing::Disk(image())};
  std::unique_ptr<store::Workspace> workspace_ = open();
  server::Service service_{*workspace_, "gardens", server::Gate(7415, token, "secret"), server::PageFiles()};
};

struct Target {
  const char* method;
  const char* path;
};

std::optional<Target> target_of(char letter) {
  switch (letter) {
    case 's':
      return Target{"PUT", "/api/jobs/garden"};
    case 'm':
      return Target{"POST", "/api/jobs"};
    case 'd':
      return Target{"POST", "/api/jobs/garden/duplicate"};
    case 'a':
      return Target{"POST", "/api/jobs/garden/archive"};
    case 'c':
      return Target{"PUT", "/api/shop-catalogue"};
    default:
      return std::nullopt;
  }
}

Json told(const Response& response) {
  demand(well_formed(response.body) == response.body, "an answer is UTF-8");
  Json tree = Json::parse(response.body, nullptr, false);
  demand(!tree.is_discarded(), "an answer is JSON");
  return tree;
}

// The revision and checksum that stand now; 0 where there is none.
struct Standing {
  std::int64_t revision = 0;
  std::string checksum;
  Json document;
};

Standing standing(Server& server, const std::string& path) {
  const Response response = server.ask("GET", path);
  if (response.status == 404) return {};
  demand(response.status == 200, "what is stored can be read");
  const Json tree = told(response);
  return {tree.value("revision", std::int64_t{0}), tree.value("checksum", ""), tree["document"]};
}

void check_save(Server& server, const Target& target, const std::string& body) {
  const Json sent = Json::parse(body, nullptr, false);
  const bool makes = std::string_view(target.path) == "/api/jobs";
  std::string where = target.path;
  if (makes && sent.is_object() && sent.contains("document")) {
    const auto id = sent["document"].is_object() ? sent["document"].find("id") : sent["document"].end();
    if (id != sent["document"].end() && id->is_string()) where += "/" + id->get<std::string>();
  }
  const bool can_be_asked = where != "/api/jobs" && server::is_id(where.substr(where.rfind('/') + 1));
  const Standing before = can_be_asked ? standing(server, where) : Standing{};
  const Response response = server.ask(target.method, target.path, body);
  demand(response.status < 500, "no answer is a fault of the server");
  const Json answer = told(response);
  if (response.status != 200 && response.status != 201) {
    if (can_be_asked) demand(standing(server, where).revision == before.revision, "what is refused stores nothing");
    return;
  }
  demand(can_be_asked, "what was stored has a name");
  const Standing after = standing(server, where);
  if (answer["revision"] == before.revision + 1) {
    demand(after.document == sent["document"], "what is stored is what was sent");
    demand(after.checksum == answer["checksum"], "the answer names what is stored");
    if (!makes) {
      demand(sent["base_revision"] == before.revision, "a save follows the revision that it was made from");
      const std::string base = sent.value("base_checksum", "");
      demand(base.empty() || base == before.checksum, "and no other one of the same number");
    }
  } else {
    demand(after.revision == before.revision, "a repeated save stores nothing");
  }
  demand(server.ask(target.method, target.path, body).body == response.body, "the same save again has the same answer");
  demand(standing(server, where).revision == after.revision, "and stores nothing");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  Server server;
  std::string_view rest(reinterpret_cast<const char*>(data), size);
  for (int requests = 0; requests < 4 && !rest.empty(); ++requests) {
    const std::string_view one = rest.substr(0, rest.find('\0'));
    rest.remove_prefix(std::min(rest.size(), one.size() + 1));
    const auto target = one.empty() ? std::nullopt : target_of(one.front());
    if (!target) continue;
    const std::string body(one.substr(1));
    if (one.front() == 's' || one.front() == 'm' || one.front() == 'c') {
      check_save(server, *target, body);
      continue;
    }
    const Response response = server.ask(target->method, target->path, body);
    demand(response.status < 500, "no answer is a fault of the server");
    told(response);
    demand(server.ask(target->method, target->path, body).body == response.body, "asked again it is answered alike");
  }
  const auto wrong = server.workspace().verify();
  demand(wrong.ok() && wrong.value().empty(), "the workspace passes its full check");
  return 0;
}
