// SPDX-License-Identifier: Apache-2.0
// The routes of docs/server-api.md: which there are, what each takes, and the functions behind them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formats/json_text.hpp"
#include "server/http.hpp"
#include "server/picture_codec.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

class NightDesk;
class PaperDesk;

struct Call {
  store::Workspace& workspace;
  NightDesk& nights;
  PaperDesk& papers;
  const PictureTools& pictures;
  const Head& head;
  std::vector<std::string> ids;  // what stood for each * of the route's path
  formats::Json body;            // of a route that takes JSON
  const std::string& bytes;      // the body as it came
};

enum class BodyKind { none, json, picture };

struct Route {
  std::string_view method;
  std::string_view path;  // below /api/, with * for an id
  BodyKind body = BodyKind::none;
  std::size_t limit_bytes = 0;
  Response (*answer)(const Call&) = nullptr;
};

inline constexpr std::size_t checksum_digits = 64;
inline constexpr std::size_t small_limit_bytes = 64u << 10u;
inline constexpr std::size_t document_limit_bytes = 16u << 20u;
inline constexpr std::size_t catalogue_limit_bytes = 8u << 20u;

// The session's two routes belong to the service itself, all others are here.
[[nodiscard]] const std::vector<Route>& all_routes();

// The ids of a path that fits, or nothing. An id is 1 to 64 characters out of A-Z a-z 0-9 . _ -
[[nodiscard]] std::optional<std::vector<std::string>> match(std::string_view pattern, std::string_view path);
[[nodiscard]] bool is_id(std::string_view text);

Response list_jobs(const Call& call);
Response open_job(const Call& call);
Response save_job(const Call& call);
Response make_job(const Call& call);
Response duplicate_job(const Call& call);
Response archive_job(const Call& call);
Response list_revisions(const Call& call);
Response open_revision(const Call& call);
Response add_picture(const Call& call);
Response send_picture(const Call& call);
Response begin_night(const Call& call);
Response night_standing(const Call& call);
Response send_night(const Call& call);
Response end_night(const Call& call);
Response begin_papers(const Call& call);
Response papers_standing(const Call& call);
Response send_paper(const Call& call);
Response send_paper_page(const Call& call);
Response send_papers_zip(const Call& call);
Response end_papers(const Call& call);
Response open_shop_catalogue(const Call& call);
Response save_shop_catalogue(const Call& call);

}  // namespace duskwire::server
