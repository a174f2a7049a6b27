// SPDX-License-Identifier: Apache-2.0
// The moment is written in the archive's own form from UTC: by the library it would pass through the computer's zone.
#include "office/archive.hpp"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <set>
#include <string_view>

namespace duskwire::office {
namespace {

struct DosMoment {
  std::uint16_t time = 0;
  std::uint16_t date = 0;
};

// The form begins in 1980 and counts two seconds.
DosMoment dos_moment(std::int64_t utc_s) {
  using namespace std::chrono;
  constexpr std::int64_t year_1980_s = 315'532'800;
  constexpr std::int64_t year_2108_s = 4'354'819'200;
  const sys_seconds moment{seconds{std::clamp<std::int64_t>(utc_s, year_1980_s, year_2108_s - 1)}};
  const sys_days day = floor<days>(moment);
  const year_month_day date{day};
  const auto second = static_cast<unsigned>((moment - day).count());
  return {static_cast<std::uint16_t>(second / 3600 << 11 | second / 60 % 60 << 5 | second % 60 / 2),
          static_cast<std::uint16_t>(static_cast<unsigned>(static_cast<int>(date.year()) - 1980) << 9 |
                                     static_cast<unsigned>(date.month()) << 5 | static_cast<unsigned>(date.day()))};
}

// A name that stays inside the folder that it is unpacked in.
bool safe_name(std::string_view name) {
  if (name.empty() || name.front() == '/' || name.find('\\') != std::string_view::npos) return false;
  if (name.find('\0') != std::string_view::npos) return false;
  for (std::size_t start = 0; start <= name.size();) {
    const std::size_t end = std::min(name.find('/', start), name.size());
    const std::string_view part = name.substr(start, end - start);
    if (part.empty() || part == "." || part == "..") return false;
    start = end + 1;
  }
  return true;
}

Error failed(const char* what, const char* why) {
  return {ErrorCode::unavailable, fmt::format("The archive cannot be {}: {}.", what, why)};
}

Result<bool> add(zip_t* archive, const ArchiveEntry& entry, const DosMoment& moment) {
  zip_source_t* source = zip_source_buffer(archive, entry.bytes.data(), entry.bytes.size(), 0);
  if (source == nullptr) return failed("filled", zip_strerror(archive));
  const zip_int64_t index = zip_file_add(archive, entry.name.c_str(), source, ZIP_FL_ENC_UTF_8);
  if (index < 0) {
    zip_source_free(source);
    return failed("filled", zip_strerror(archive));
  }
  const auto at = static_cast<zip_uint64_t>(index);
  if (zip_file_set_dostime(archive, at, moment.time, moment.date, 0) != 0)
    return failed("dated", zip_strerror(archive));
  return true;
}

Result<std::string> content(zip_source_t* source) {
  zip_stat_t about;
  zip_stat_init(&about);
  if (zip_source_open(source) != 0) return failed("read", zip_error_strerror(zip_source_error(source)));
  std::string bytes;
  if (zip_source_stat(source, &about) == 0) bytes.resize(about.size);
  const zip_int64_t got = zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  if (got < 0 || static_cast<std::size_t>(got) != bytes.size()) return failed("read", "its end is missing");
  return bytes;
}

}  // namespace

Result<std::string> zip_archive(const std::vector<ArchiveEntry>& entries, std::int64_t moment_utc_s) {
  std::set<std::string_view> names;
  for (const ArchiveEntry& entry : entries) {
    if (!safe_name(entry.name)) {
      return Error{ErrorCode::invalid, fmt::format("\"{}\" is no name for a file of an archive.", entry.name)};
    }
    if (!names.insert(entry.name).second) {
      return Error{ErrorCode::invalid, fmt::format("Two files of the archive are called \"{}\".", entry.name)};
    }
  }
  zip_error_t fault;
  zip_error_init(&fault);
  zip_source_t* memory = zip_source_buffer_create(nullptr, 0, 0, &fault);
  if (memory == nullptr) return failed("begun", zip_error_strerror(&fault));
  zip_t* archive = zip_open_from_source(memory, ZIP_TRUNCATE, &fault);
  if (archive == nullptr) {
    zip_source_free(memory);
    return failed("begun", zip_error_strerror(&fault));
  }
  zip_source_keep(memory);
  for (const ArchiveEntry& entry : entries) {
    if (const Result<bool> added = add(archive, entry, dos_moment(moment_utc_s)); !added) {
      zip_discard(archive);
      zip_source_free(memory);
      return added.error();
    }
  }
  if (zip_close(archive) != 0) {
    const Error error = failed("written", zip_strerror(archive));
    zip_discard(archive);
    zip_source_free(memory);
    return error;
  }
  Result<std::string> bytes = content(memory);
  zip_source_free(memory);
  return bytes;
}

}  // namespace duskwire::office
