// SPDX-License-Identifier: Apache-2.0
#include "office/unpack.hpp"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <set>
#include <string>
#include <utility>

namespace duskwire::office {
namespace {

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string folded(std::string_view name) {
  std::string text(name);
  std::transform(text.begin(), text.end(), text.begin(), lower);
  return text;
}

// Names that open a device on some system, whatever ending follows.
bool is_device(std::string_view part) {
  const std::string stem = folded(part.substr(0, part.find('.')));
  for (const char* name : {"con", "prn", "aux", "nul", "conin$", "conout$", "clock$"}) {
    if (stem == name) return true;
  }
  return stem.size() == 4 && (stem.rfind("com", 0) == 0 || stem.rfind("lpt", 0) == 0) && stem[3] >= '0' &&
         stem[3] <= '9';
}

bool is_portable_part(std::string_view part) {
  if (part.empty() || part == "." || part == ".." || part.back() == '.' || is_device(part)) return false;
  return std::all_of(part.begin(), part.end(), [](char c) {
    const char small = lower(c);
    return (small >= 'a' && small <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
  });
}

// For a message: no line breaks, nothing that turns the line round.
std::string shown(std::string_view name) {
  constexpr std::size_t most = 80;
  std::string text;
  for (const char c : name.substr(0, most)) text += c >= 0x20 && c < 0x7f ? std::string(1, c) : "?";
  return name.size() > most ? text + "..." : text;
}

Error bad(std::string message) { return {ErrorCode::invalid, std::move(message)}; }

Error too_much(const UnpackLimits& limits) {
  return {ErrorCode::no_room, fmt::format("The archive holds more than {} files or {} MB: more than any job. Nothing "
                                          "was taken in.",
                                          limits.entries, limits.unpacked_bytes >> 20u)};
}

bool is_plain_file(zip_t* archive, zip_uint64_t index) {
  zip_uint8_t system = 0;
  zip_uint32_t attributes = 0;
  if (zip_file_get_external_attributes(archive, index, 0, &system, &attributes) != 0) return false;
  if (system != ZIP_OPSYS_UNIX && system != ZIP_OPSYS_OS_X) return true;
  // The upper half is the file's mode there, and its first digit the kind: 8 a plain file, 0 not told.
  const auto kind = attributes >> 28u;
  return kind == 0 || kind == 8;
}

// The library shows a NUL in a name as a blank, which no portable name holds either.
struct Listed {
  std::string name;
  zip_stat_t about;
};

Result<Listed> listed(zip_t* archive, zip_uint64_t index) {
  Listed entry;
  zip_stat_init(&entry.about);
  if (zip_stat_index(archive, index, ZIP_FL_ENC_RAW, &entry.about) != 0) {
    return bad("The list of files in the archive is damaged. Fetch or copy the file again.");
  }
  entry.name = entry.about.name;
  return entry;
}

Result<std::string> read_entry(zip_t* archive, zip_uint64_t index, const Listed& entry) {
  const std::unique_ptr<zip_file_t, CloseFile> file(zip_fopen_index(archive, index, 0));
  const auto damaged = [&] {
    return bad(
        fmt::format("\"{}\" in the archive is damaged or cut short. Fetch or copy the file again.", shown(entry.name)));
  };
  if (!file) return damaged();
  // Grows with what comes: a length that an entry of a few bytes tells costs nothing.
  std::string bytes;
  std::array<char, 64 * 1024> piece{};
  while (bytes.size() < entry.about.size) {
    const std::size_t wanted = std::min<std::size_t>(piece.size(), entry.about.size - bytes.size());
    const zip_int64_t got = zip_fread(file.get(), piece.data(), wanted);
    if (got <= 0) return damaged();
    bytes.append(piece.data(), static_cast<std::size_t>(got));
  }
  // Reading on to the end tests the checksum; what goes on is longer than it said.
  char more = 0;
  if (zip_fread(file.get(), &more, 1) != 0) return damaged();
  return bytes;
}

}  // namespace

bool is_portable_name(std::string_view name) {
  if (name.empty() || name.size() > 240) return false;
  for (std::size_t start = 0; start <= name.size();) {
    const std::size_t end = std::min(name.find('/', start), name.size());
    if (!is_portable_part(name.substr(start, end - start))) return false;
    start = end + 1;
  }
  return true;
}

Result<std::vector<ArchiveEntry>> unpack(std::string_view bytes, const UnpackLimits& limits) {
  const auto no_archive = [] {
    return bad("This is no zip archive, or it is damaged or cut short. Fetch or copy the file again.");
  };
  if (bytes.empty()) return no_archive();  // to the library an archive without files
  zip_error_t fault;
  zip_error_init(&fault);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &fault);
  if (source == nullptr) return Error{ErrorCode::unavailable, "There is not enough memory to open the archive."};
  // Consistency: entries that overlap or disagree with the directory are no archive.
  const std::unique_ptr<zip_t, Discard> archive(zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &fault));
  if (!archive) {
    zip_source_free(source);
    if (zip_error_code_zip(&fault) == ZIP_ER_EXISTS) {
      return bad("The archive holds a name that comes twice. Nothing was taken in.");
    }
    return no_archive();
  }
  const auto count = static_cast<zip_uint64_t>(std::max<zip_int64_t>(0, zip_get_num_entries(archive.get(), 0)));
  if (count > limits.entries) return too_much(limits);
  std::vector<std::pair<zip_uint64_t, Listed>> wanted;
  std::set<std::string> names;
  std::uint64_t left = limits.unpacked_bytes;
  for (zip_uint64_t index = 0; index < count; ++index) {
    Result<Listed> read = listed(archive.get(), index);
    if (!read) return read.error();
    Listed& entry = read.value();
    const bool folder = !entry.name.empty() && entry.name.back() == '/';
    const std::string_view name =
        std::string_view(entry.name).substr(0, entry.name.size() - static_cast<std::size_t>(folder));
    const auto refused = [&](const char* why) {
      return bad(fmt::format("The archive holds \"{}\", {}. Nothing was taken in.", shown(entry.name), why));
    };
    if (!is_portable_name(name)) return refused("a name that is no plain path inside the archive");
    if (!names.insert(folded(name)).second) return refused("a name that comes twice, but for upper and lower case");
    if (folder) continue;
    if (!is_plain_file(archive.get(), index)) return refused("which is a link or a device and no file");
    // What the library does not know of an entry is as zip_stat_init left it: not encrypted, of no bytes.
    if (entry.about.encryption_method != ZIP_EM_NONE) return refused("which is encrypted");
    if (entry.about.size > left) return too_much(limits);
    left -= entry.about.size;
    wanted.emplace_back(index, std::move(entry));
  }
  std::vector<ArchiveEntry> files;
  for (const auto& [index, entry] : wanted) {
    Result<std::string> content = read_entry(archive.get(), index, entry);
    if (!content) return content.error();
    files.push_back({entry.name, std::move(content).value()});
  }
  return files;
}

}  // namespace duskwire::office
