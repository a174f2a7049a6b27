// SPDX-License-Identifier: Apache-2.0
// A job as one file (zip): any bytes; or, so that the checksums fit and it gets further, an archive made of what the
// bytes say and then changed in places. Refused with a message that is fit to be shown, or every file has a name that
// is safe on any system, once, and what is taken in matches its hashes.
#include <cstdio>
#include <cstdlib>
#include <set>
#include <string>
#include <string_view>

#include "office/archive.hpp"
#include "office/unpack.hpp"
#include "server/export_file.hpp"
#include "store/workspace.hpp"

namespace {

using namespace duskwire;

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

void demand_fit(const Error& error) {
  demand(error.message.size() > 20 && error.message.size() < 600, "a refusal says what is wrong");
  for (const char c : error.message) demand(static_cast<unsigned char>(c) >= 0x20, "a refusal is one line");
}

// Entries as "name\nlength\nbytes", at most twenty.
std::string made_of(std::string_view& text) {
  std::vector<office::ArchiveEntry> entries;
  while (!text.empty() && entries.size() < 20) {
    const std::size_t end_of_name = std::min(text.find('\n'), text.size());
    office::ArchiveEntry entry;
    entry.name = text.substr(0, end_of_name);
    text.remove_prefix(std::min(end_of_name + 1, text.size()));
    if (text.empty()) break;
    const std::size_t length = std::min<std::size_t>(static_cast<unsigned char>(text.front()) * 8u, text.size() - 1);
    entry.bytes = text.substr(1, length);
    text.remove_prefix(1 + length);
    if (entry.name == "SHA256SUMS" && length == 0) {
      for (const office::ArchiveEntry& before : entries) {
        entry.bytes += store::sha256_hex(before.bytes) + "  " + before.name + "\n";
      }
    }
    entries.push_back(std::move(entry));
    if (!text.empty() && text.front() == '\0') break;
  }
  const auto archive = office::zip_archive(entries, 0);
  return archive ? archive.value() : "";
}

// What is left of the input says where and how.
void change(std::string& archive, std::string_view changes) {
  for (std::size_t i = 0; i + 3 <= changes.size() && !archive.empty(); i += 3) {
    const std::size_t at = static_cast<unsigned char>(changes[i]) | static_cast<unsigned char>(changes[i + 1]) << 8u;
    archive[at % archive.size()] = static_cast<char>(archive[at % archive.size()] ^ changes[i + 2]);
  }
}

void judge(std::string_view archive) {
  const office::UnpackLimits limits{200, 8u << 20u};
  const auto unpacked = office::unpack(archive, limits);
  if (!unpacked) {
    demand_fit(unpacked.error());
    return;
  }
  std::set<std::string> names;
  std::size_t bytes = 0;
  for (const office::ArchiveEntry& entry : unpacked.value()) {
    demand(office::is_portable_name(entry.name), "names are safe");
    demand(entry.name.find("..") == std::string::npos || entry.name.find("/../") == std::string::npos, "no way out");
    demand(names.insert(entry.name).second, "names come once");
    bytes += entry.bytes.size();
  }
  demand(bytes <= limits.unpacked_bytes && names.size() <= limits.entries, "limits hold");
  const auto imported = server::import_file(archive);
  if (!imported) {
    demand_fit(imported.error());
    return;
  }
  demand(names.count("job.json") == 1, "a job is in it");
  for (const server::ExportPicture& picture : imported.value().pictures) {
    demand(store::sha256_hex(picture.bytes) == picture.hash, "pictures match their hashes");
    demand(imported.value().document.find(picture.hash) != std::string::npos, "pictures are referred to");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  std::string_view text(reinterpret_cast<const char*>(data), size);
  if (text.substr(0, 2) == "PK" || size == 0) {
    judge(text);
    return 0;
  }
  std::string archive = made_of(text);
  change(archive, text);
  judge(archive);
  return 0;
}
