// SPDX-License-Identifier: Apache-2.0
// Any bytes as a workspace's file, on a disk in memory: it opens or is refused with a message; what opens can be read
// and checked to the end, saved to, and opens again.
#include <stdlib.h>

#include <cstdio>
#include <cstdlib>
#include <string>

#include "store/disk_vfs.hpp"
#include "store/workspace.hpp"

namespace {

using namespace duskwire::store;

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

Environment environment() {
  return {[] { return std::string("2026-03-01T10:00:00Z"); }, [] { return std::string("0123456789abcdef"); }};
}

// Everything that can be asked of it; only truth or errors, which need not be told apart here.
void read_all(Workspace& workspace) {
  if (const auto jobs = workspace.jobs()) {
    for (const JobRow& row : jobs.value()) {
      static_cast<void>(workspace.job(row.id));
      const auto revisions = workspace.revisions(row.id, std::nullopt, 50);
      if (!revisions) continue;
      for (const RevisionRow& revision : revisions.value())
        static_cast<void>(workspace.revision(row.id, revision.revision));
    }
  }
  static_cast<void>(workspace.picture(std::string(64, 'a')));
  static_cast<void>(workspace.shop_catalogue());
  static_cast<void>(workspace.verify());
}

// One name for the whole run: the store makes an empty file of that name beside the disk in memory.
const std::string& path() {
  static const std::string name = [] {
    std::string made = "/tmp/duskwire-fuzz-XXXXXX";
    demand(::mkdtemp(made.data()) != nullptr, "a folder can be made");
    return made + "/w";
  }();
  return name;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  testing::DiskVfs vfs{testing::Disk(testing::DiskImage{{path(), bytes}})};
  for (int round = 0; round < 2; ++round) {
    const auto opened = Workspace::open(path(), environment());
    if (!opened) {
      demand(opened.error().message.size() > 30, "a refusal says what to do");
      demand(round == 0, "what opened once opens again");
      demand(vfs.disk.bytes(path()) == bytes, "what is refused stays as it is");
      return 0;
    }
    read_all(*opened.value());
    Save save;
    save.id = "fuzzed";
    save.save_id = "fuzzed";
    save.document = "{}";
    static_cast<void>(opened.value()->save(save));
  }
  return 0;
}
