// SPDX-License-Identifier: Apache-2.0
#include "store/disk.hpp"

#include <algorithm>
#include <set>

namespace duskwire::store::testing {
namespace {

constexpr std::size_t sector = 512;

void overwrite(std::string& file, std::size_t offset, std::string_view bytes) {
  if (file.size() < offset + bytes.size()) file.resize(offset + bytes.size(), '\0');
  std::copy(bytes.begin(), bytes.end(), file.begin() + static_cast<std::ptrdiff_t>(offset));
}

}  // namespace

Disk::Disk(const DiskImage& image) {
  for (const auto& [name, bytes] : image) {
    auto file = std::make_shared<File>();
    file->cache = file->safe = bytes;
    seen_[name] = safe_[name] = file;
  }
}

void Disk::apply(const DiskStep& step) {
  switch (step.kind) {
    case DiskStep::Kind::create:
      seen_[step.name] = std::make_shared<File>();
      return;
    case DiskStep::Kind::write: {
      File& file = *seen_.at(step.name);
      overwrite(file.cache, static_cast<std::size_t>(step.offset), step.bytes);
      file.pending.push_back({false, step.offset, step.bytes});
      return;
    }
    case DiskStep::Kind::truncate: {
      File& file = *seen_.at(step.name);
      file.cache.resize(static_cast<std::size_t>(step.offset), '\0');
      file.pending.push_back({true, step.offset, {}});
      return;
    }
    case DiskStep::Kind::sync: {
      // The folder too: SQLite syncs it with the first sync of a log or journal, the store when it makes the file.
      File& file = *seen_.at(step.name);
      file.safe = file.cache;
      file.pending.clear();
      safe_ = seen_;
      return;
    }
    case DiskStep::Kind::remove:
      seen_.erase(step.name);
      // A removal that is synced has its offset set.
      if (step.offset != 0) safe_ = seen_;
      return;
    case DiskStep::Kind::mark:
      return;
  }
}

void Disk::fail_sync(const std::string& name) { seen_.at(name)->pending.clear(); }

std::string Disk::survivors(const File& file, std::mt19937& dice) {
  static constexpr unsigned chances_pct[] = {10, 50, 90};
  const unsigned chance_pct = chances_pct[dice() % 3];
  std::string left = file.safe;
  for (const Pending& write : file.pending) {
    if (write.truncation) {
      if (dice() % 100 < chance_pct) left.resize(static_cast<std::size_t>(write.offset), '\0');
      continue;
    }
    const auto begin = static_cast<std::size_t>(write.offset);
    const std::size_t end = begin + write.bytes.size();
    for (std::size_t at = begin; at < end;) {
      const std::size_t next = std::min(end, (at / sector + 1) * sector);
      if (dice() % 100 < chance_pct) {
        overwrite(left, at, std::string_view(write.bytes).substr(at - begin, next - at));
      } else if (at >= file.safe.size() && dice() % 4 == 0) {
        // New room that was given to the file but never written holds whatever was there.
        overwrite(left, at, std::string(next - at, static_cast<char>(dice())));
      }
      at = next;
    }
  }
  return left;
}

DiskImage Disk::cut(Cut how, std::mt19937& dice) const {
  DiskImage image;
  if (how == Cut::all_lost) {
    for (const auto& [name, file] : safe_) image[name] = file->safe;
    return image;
  }
  if (how == Cut::all_kept) {
    for (const auto& [name, file] : seen_) image[name] = file->cache;
    return image;
  }
  std::set<std::string> names;
  for (const auto& [name, file] : safe_) names.insert(name);
  for (const auto& [name, file] : seen_) names.insert(name);
  for (const std::string& name : names) {
    const Names& entries = dice() % 2 == 0 ? seen_ : safe_;
    const auto found = entries.find(name);
    if (found != entries.end()) image[name] = survivors(*found->second, dice);
  }
  return image;
}

}  // namespace duskwire::store::testing
