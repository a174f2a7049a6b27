// SPDX-License-Identifier: Apache-2.0
// The files of the page, read once at the start. A request names one of them or none: no path is ever joined.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "server/http.hpp"

namespace duskwire::server {

class PageFiles {
 public:
  // The regular files below a folder; links are left out. Errors: not_found (no folder, or no index.html in it).
  static Result<PageFiles> read(const std::string& folder);
  // Without a page: `/` says how to build it.
  PageFiles() = default;

  [[nodiscard]] Response answer(std::string_view path) const;

 private:
  struct File {
    std::string bytes;
    std::string media_type;
    bool immutable = false;
  };
  std::map<std::string, File, std::less<>> files_;
};

}  // namespace duskwire::server
