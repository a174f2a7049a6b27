// SPDX-License-Identifier: Apache-2.0
#include "cli/night_photo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "cli/output_file.hpp"
#include "store/workspace.hpp"

namespace duskwire::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t hash_digits = 64;

bool is_hash(const std::string& text) {
  return text.size() == hash_digits && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

bool is_picture_file(const fs::path& path) {
  std::string ending = path.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(), [](unsigned char c) { return std::tolower(c); });
  return ending == ".jpg" || ending == ".jpeg" || ending == ".png" || ending == ".webp";
}

// In the order of their names, so that the same file is found every time.
std::vector<fs::path> pictures_in(const fs::path& folder) {
  std::vector<fs::path> found;
  std::error_code trouble;
  for (const auto& entry : fs::directory_iterator(folder, trouble)) {
    if (entry.is_regular_file(trouble) && is_picture_file(entry.path())) found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

Error no_photo(const job::View& view, const fs::path& folder) {
  return {ErrorCode::not_found,
          fmt::format("The photograph of view \"{}\" ({}) is not in {}: put it there, or name it with --photo FILE.",
                      view.id, is_hash(view.image) ? view.image.substr(0, 12) + "..." : view.image,
                      folder.empty() ? "this folder" : folder.string())};
}

}  // namespace

Result<std::string> read_photo(const job::View& view, const std::string& job_file, const std::string& given) {
  if (!given.empty()) return read_file(given);
  const fs::path folder = job_file == "-" ? fs::path() : fs::path(job_file).parent_path();
  if (view.image.empty()) {
    return Error{ErrorCode::not_found,
                 fmt::format("View \"{}\" has no photograph: bring one in, or name it with --photo FILE.", view.id)};
  }
  if (!is_hash(view.image)) {
    // A name only: a job from elsewhere must not reach out of its folder.
    const fs::path file = folder / fs::path(view.image).filename();
    std::error_code trouble;
    if (!fs::is_regular_file(file, trouble)) return no_photo(view, folder);
    return read_file(file.string());
  }
  std::vector<PictureBeside> found = pictures_beside(job_file, {view.image});
  if (found.empty()) return no_photo(view, folder);
  return std::move(found.front().bytes);
}

std::vector<PictureBeside> pictures_beside(const std::string& job_file, const std::vector<std::string>& hashes) {
  const fs::path folder = job_file == "-" ? fs::path() : fs::path(job_file).parent_path();
  std::vector<PictureBeside> found;
  if (hashes.empty()) return found;
  for (const fs::path& file : pictures_in(folder.empty() ? fs::path(".") : folder)) {
    Result<std::string> bytes = read_file(file.string());
    if (!bytes) continue;
    std::string hash = store::sha256_hex(bytes.value());
    const auto is_same = [&](const PictureBeside& picture) { return picture.hash == hash; };
    if (std::find(hashes.begin(), hashes.end(), hash) == hashes.end()) continue;
    if (std::any_of(found.begin(), found.end(), is_same)) continue;
    found.push_back({std::move(hash), std::move(bytes).value()});
    if (found.size() == hashes.size()) break;
  }
  return found;
}

}  // namespace duskwire::cli
