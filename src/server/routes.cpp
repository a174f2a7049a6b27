// SPDX-License-Identifier: Apache-2.0
#include "server/routes.hpp"

#include <algorithm>

namespace duskwire::server {

const std::vector<Route>& all_routes() {
  static const std::vector<Route> all = {
      {"GET", "jobs", BodyKind::none, 0, list_jobs},
      {"POST", "jobs", BodyKind::json, document_limit_bytes, make_job},
      {"GET", "jobs/*", BodyKind::none, 0, open_job},
      {"PUT", "jobs/*", BodyKind::json, document_limit_bytes, save_job},
      {"POST", "jobs/*/duplicate", BodyKind::json, small_limit_bytes, duplicate_job},
      {"POST", "jobs/*/archive", BodyKind::json, small_limit_bytes, archive_job},
      {"GET", "jobs/*/revisions", BodyKind::none, 0, list_revisions},
      {"GET", "jobs/*/revisions/*", BodyKind::none, 0, open_revision},
      {"GET", "images/*", BodyKind::none, 0, send_picture},
      {"POST", "images/*", BodyKind::picture, picture_limit_bytes, add_picture},
      {"POST", "nights", BodyKind::json, document_limit_bytes, begin_night},
      {"GET", "nights/*", BodyKind::none, 0, night_standing},
      {"DELETE", "nights/*", BodyKind::none, 0, end_night},
      {"GET", "nights/*/picture", BodyKind::none, 0, send_night},
      {"POST", "papers", BodyKind::json, document_limit_bytes, begin_papers},
      {"GET", "papers/*", BodyKind::none, 0, papers_standing},
      {"DELETE", "papers/*", BodyKind::none, 0, end_papers},
      {"GET", "papers/*/files/*", BodyKind::none, 0, send_paper},
      {"GET", "papers/*/pages/*/*", BodyKind::none, 0, send_paper_page},
      {"GET", "papers/*/zip", BodyKind::none, 0, send_papers_zip},
      {"GET", "shop-catalogue", BodyKind::none, 0, open_shop_catalogue},
      {"PUT", "shop-catalogue", BodyKind::json, catalogue_limit_bytes, save_shop_catalogue},
  };
  return all;
}

bool is_id(std::string_view text) {
  return !text.empty() && text.size() <= 64 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' ||
           c == '-';
  });
}

std::optional<std::vector<std::string>> match(std::string_view pattern, std::string_view path) {
  std::vector<std::string> ids;
  while (true) {
    const auto pattern_end = pattern.find('/');
    const auto path_end = path.find('/');
    const std::string_view wanted = pattern.substr(0, pattern_end);
    const std::string_view given = path.substr(0, path_end);
    if (wanted == "*") {
      if (!is_id(given)) return std::nullopt;
      ids.emplace_back(given);
    } else if (wanted != given) {
      return std::nullopt;
    }
    const bool last = pattern_end == std::string_view::npos;
    if (last != (path_end == std::string_view::npos)) return std::nullopt;
    if (last) return ids;
    pattern.remove_prefix(pattern_end + 1);
    path.remove_prefix(path_end + 1);
  }
}

}  // namespace duskwire::server
