// SPDX-License-Identifier: Apache-2.0
#include "server/page_files.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "server/answers.hpp"

namespace duskwire::server {
namespace {

namespace fs = std::filesystem;

// Only these are served; a file of another kind in the folder was not meant for the page.
std::string media_type_of(const std::string& ending) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 11> types{{
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".wasm", "application/wasm"},
      {".woff2", "font/woff2"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".jpg", "image/jpeg"},
      {".webmanifest", "application/manifest+json"},
      {".json", "application/json"},
      {".txt", "text/plain; charset=utf-8"},
  }};
  const auto found = std::find_if(types.begin(), types.end(), [&](const auto& type) { return type.first == ending; });
  return found == types.end() ? std::string{} : std::string(found->second);
}

constexpr std::string_view assets = "/assets/";

}  // namespace

Result<PageFiles> PageFiles::read(const std::string& folder) {
  PageFiles page;
  std::error_code fault;
  for (fs::recursive_directory_iterator at(folder, fault), end; !fault && at != end; at.increment(fault)) {
    if (at->is_symlink() || !at->is_regular_file()) continue;
    const std::string media_type = media_type_of(at->path().extension().string());
    if (media_type.empty()) continue;
    const std::string name = "/" + at->path().lexically_relative(folder).generic_string();
    std::ifstream file(at->path(), std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    page.files_[name] = {std::move(bytes), media_type, name.compare(0, assets.size(), assets) == 0};
  }
  if (page.files_.count("/index.html") == 0) {
    return Error{ErrorCode::not_found, "There is no built page in that folder: tools/build_page.sh builds it."};
  }
  return page;
}

Response PageFiles::answer(std::string_view path) const {
  const auto found = files_.find(path == "/" ? std::string_view("/index.html") : path);
  if (found == files_.end()) {
    Response response = refuse(404, "not_found", "There is nothing at this address.");
    if (path != "/") return response;
    response.media_type = "text/plain; charset=utf-8";
    response.body = "The page is not built yet: tools/build_page.sh builds it. Then start the server again.\n";
    return response;
  }
  const File& file = found->second;
  Response response;
  response.media_type = file.media_type;
  response.body = file.bytes;
  response.fields.push_back({"Cache-Control", file.immutable ? "public, max-age=31536000, immutable" : "no-cache"});
  return response;
}

}  // namespace duskwire::server
