// SPDX-License-Identifier: Apache-2.0
#include "server/service.hpp"

#include <fmt/format.h>

#include <charconv>
#include <exception>
#include <thread>

#include "server/answers.hpp"
#include "server/body.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

constexpr std::string_view api = "/api/";
constexpr std::string_view session_path = "/api/session";
constexpr std::string_view pairing_path = "/api/pairing";
constexpr std::string_view page_policy =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; font-src 'self'; "
    "img-src 'self' blob: data:; connect-src 'self'; manifest-src 'self'; form-action 'none'; base-uri 'none'; "
    "frame-ancestors 'none'";

bool below_api(std::string_view path) { return path.substr(0, api.size()) == api || path == "/api"; }

std::string_view inner(std::string_view path) {
  return path.size() > api.size() ? path.substr(api.size()) : std::string_view{};
}

// HEAD is answered as GET; the listener leaves the body out.
std::string_view method_of(const Head& head) { return head.method == "HEAD" ? std::string_view("GET") : head.method; }

Handler::Admission admitted(std::size_t body_limit_bytes) {
  Handler::Admission admission;
  admission.admitted = true;
  admission.body_limit_bytes = body_limit_bytes;
  return admission;
}

Handler::Admission turned_away(Response response) {
  Handler::Admission admission;
  add_standing_fields(response);
  admission.refusal = std::move(response);
  return admission;
}

struct Found {
  const Route* route = nullptr;
  std::vector<std::string> ids;
  std::string allowed;  // methods of the path, where the method is none of them
};

Found find_route(const Head& head) {
  Found found;
  for (const Route& route : all_routes()) {
    auto ids = match(route.path, inner(head.path()));
    if (!ids) continue;
    if (route.method == method_of(head)) return {&route, *std::move(ids), ""};
    found.allowed += (found.allowed.empty() ? "" : ", ") + std::string(route.method);
  }
  return found;
}

Response stranger(const Head& head) {
  return refuse(401, "unauthorised",
                head.from_lan ? "This phone is not paired, or was forgotten: type the code on the server's screen."
                              : "No session: the server was started anew, or the page was opened without its token. "
                                "Open the address that the server printed at its start.");
}

Response wrong_method(const std::string& allowed) {
  Response response = refuse(405, "not_allowed", "This address takes " + allowed + " alone.");
  response.fields.push_back({"Allow", allowed});
  return response;
}

bool is_json(const Head& head) {
  const std::string* type = head.field("content-type");
  constexpr std::string_view json = "application/json";
  return type != nullptr && type->compare(0, json.size(), json) == 0 &&
         (type->size() == json.size() || (*type)[json.size()] == ';' || (*type)[json.size()] == ' ');
}

// Length and type of a body against what the route takes.
std::optional<Response> bad_body(const Head& head, BodyKind kind, std::size_t limit_bytes) {
  const std::string* length = head.field("content-length");
  if (kind == BodyKind::none) {
    if (length == nullptr || *length == "0") return std::nullopt;
    return refuse_body("This address takes no body.", {});
  }
  if (length == nullptr) return refuse(411, "invalid", "Send the body with its Content-Length.");
  if (kind == BodyKind::json && !is_json(head)) {
    return refuse(415, "unsupported", "Send the body as JSON, with Content-Type: application/json.");
  }
  std::uint64_t bytes = 0;
  const auto [end, fault] = std::from_chars(length->data(), length->data() + length->size(), bytes);
  if (fault != std::errc{} || end != length->data() + length->size() || bytes > limit_bytes) {
    return refuse(413, "too_large",
                  fmt::format("The body is {} bytes; at most {} are taken here.", *length, limit_bytes));
  }
  return std::nullopt;
}

formats::TextLimits body_limits(std::size_t bytes) {
  formats::TextLimits limits;
  limits.bytes = bytes;
  limits.depth = 65;  // a document of 64 levels, one level down
  return limits;
}

}  // namespace

void add_standing_fields(Response& response) {
  response.fields.push_back({"Content-Security-Policy",
                             response.content_policy.empty() ? std::string(page_policy) : response.content_policy});
  response.fields.push_back({"X-Content-Type-Options", "nosniff"});
  response.fields.push_back({"Referrer-Policy", "no-referrer"});
  response.fields.push_back({"Cross-Origin-Opener-Policy", "same-origin"});
  response.fields.push_back({"Cross-Origin-Resource-Policy", "same-origin"});
}

Service::Service(store::Workspace& workspace, std::string workspace_name, Gate gate, PageFiles page,
                 PictureTools pictures, std::shared_ptr<LanDesk> lan)
    : workspace_(workspace),
      nights_(std::thread::hardware_concurrency(), pictures.open),
      workspace_name_(std::move(workspace_name)),
      gate_(std::move(gate)),
      page_(std::move(page)),
      pictures_(std::move(pictures)),
      lan_(std::move(lan)) {}

bool Service::knows(const Head& head) const { return gate_.knows(head) || (lan_ && lan_->knows(head)); }

Handler::Admission Service::admit(const Head& head) {
  const bool api_route = below_api(head.path());
  if (auto refusal = gate_.refusal(head, api_route)) return turned_away(*std::move(refusal));
  if (api_route) return admit_api(head);
  if (method_of(head) != "GET") return turned_away(wrong_method("GET, HEAD"));
  if (auto refusal = bad_body(head, BodyKind::none, 0)) return turned_away(*std::move(refusal));
  return admitted(0);
}

Handler::Admission Service::admit_api(const Head& head) const {
  if (head.path() == session_path || (lan_ && head.from_lan && head.path() == pairing_path)) {
    const bool asks = method_of(head) == "GET";
    if (!asks && head.method != "POST") return turned_away(wrong_method("GET, POST"));
    if (auto refusal = bad_body(head, asks ? BodyKind::none : BodyKind::json, small_limit_bytes)) {
      return turned_away(*std::move(refusal));
    }
    return admitted(asks ? 0 : small_limit_bytes);
  }
  if (!knows(head)) return turned_away(stranger(head));
  const Found found = find_route(head);
  if (found.route == nullptr) {
    if (!found.allowed.empty()) return turned_away(wrong_method(found.allowed));
    return turned_away(refuse(404, "not_found", "There is nothing at this address."));
  }
  if (auto refusal = bad_body(head, found.route->body, found.route->limit_bytes))
    return turned_away(*std::move(refusal));
  Admission admission = admitted(found.route->limit_bytes);
  admission.picture = found.route->body == BodyKind::picture;
  return admission;
}

Response Service::answer(const Head& head, const std::string& body) {
  Response response;
  try {
    response = below_api(head.path()) ? answer_api(head, body) : page_.answer(head.path());
  } catch (const std::exception&) {
    // A fault of our own: its words may hold a path or a query, so they stay here.
    response =
        refuse(500, "fault", "The server met a fault of its own. Nothing was stored; please report what you did.");
  }
  add_standing_fields(response);
  return response;
}

Response Service::answer_api(const Head& head, const std::string& body) const {
  if (head.path() == session_path) return answer_session(head, body);
  if (lan_ && head.from_lan && head.path() == pairing_path) {
    return method_of(head) == "GET" ? lan_->standing() : lan_->pair(body);
  }
  // A phone may have been forgotten while its body was on the way.
  if (!knows(head)) return stranger(head);
  Found found = find_route(head);
  if (found.route == nullptr) return refuse(404, "not_found", "There is nothing at this address.");
  Call call{workspace_, nights_, papers_, pictures_, head, std::move(found.ids), {}, body};
  if (found.route->body == BodyKind::json) {
    formats::ParsedText parsed = formats::parse_text(body, body_limits(found.route->limit_bytes));
    // A key that comes twice is a problem too: one of its values would be lost in silence.
    if (!parsed.tree || has_errors(parsed.problems)) {
      return refuse_body("The body is no JSON that can be read; nothing was stored.", parsed.problems);
    }
    call.body = *std::move(parsed.tree);
  }
  return found.route->answer(call);
}

Response Service::answer_session(const Head& head, const std::string& body) const {
  const bool asks = method_of(head) == "GET";
  if (!asks) {
    if (head.from_lan) {
      return refuse(
          403, "forbidden",
          "The token opens the page on the server's own computer alone. On the network a phone is paired with "
          "the code on the server's screen.");
    }
    const formats::ParsedText parsed = formats::parse_text(body, body_limits(small_limit_bytes));
    if (!parsed.tree) return refuse_body("The body is no JSON that can be read.", parsed.problems);
    if (!gate_.is_token(text_at(*parsed.tree, {"token"}))) {
      return refuse(401, "unauthorised",
                    "This token is not the one of this start. Open the address that the server printed.");
    }
  } else if (!knows(head)) {
    return stranger(head);
  }
  Json tree;
  tree["server"] = "duskwire";
  tree["version"] = DUSKWIRE_VERSION;
  tree["workspace_id"] = workspace_.workspace_id();
  tree["workspace"] = workspace_name_;
  tree["api"] = 1;
  Response response = json_answer(200, tree);
  if (!asks) response.fields.push_back({"Set-Cookie", gate_.cookie()});
  return response;
}

}  // namespace duskwire::server
