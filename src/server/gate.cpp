// SPDX-License-Identifier: Apache-2.0
#include "server/gate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "server/answers.hpp"
#include "server/secrets.hpp"

namespace duskwire::server {
namespace {

bool equal_but_for_case(std::string_view p, std::string_view q) {
  return std::equal(p.begin(), p.end(), q.begin(), q.end(),
                    [](unsigned char a, unsigned char b) { return std::tolower(a) == std::tolower(b); });
}

bool is_safe(std::string_view method) { return method == "GET" || method == "HEAD"; }

std::optional<Response> bad_framing(const Head& head) {
  if (head.target.size() > target_limit_bytes) {
    return refuse(414, "too_large", fmt::format("The address is longer than {} bytes.", target_limit_bytes));
  }
  if (head.fields.size() > field_limit) {
    return refuse(431, "too_large", fmt::format("The request has more than {} header fields.", field_limit));
  }
  if (head.count("transfer-encoding") > 0) {
    return refuse(411, "invalid", "Send the body in one piece with its Content-Length; chunked bodies are not read.");
  }
  const std::string* length = head.field("content-length");
  if (head.count("content-length") > 1 ||
      (length != nullptr && (length->empty() || length->find_first_not_of("0123456789") != std::string::npos))) {
    return refuse(400, "invalid", "Send one Content-Length, in digits alone.");
  }
  if (head.count("content-encoding") > 0) {
    return refuse(415, "unsupported", "Send the body as it is; compressed bodies are not read.");
  }
  return std::nullopt;
}

}  // namespace

Gate::Gate(std::uint16_t port, std::string token, std::string session_secret, const Names& names)
    : port_(std::to_string(port)), token_(std::move(token)), secret_(std::move(session_secret)) {
  const auto with_port = [this](const std::string& name) {
    return name.find(':') == std::string::npos ? name + ":" + port_ : name;
  };
  own_ = {"127.0.0.1:" + port_, "localhost:" + port_, "[::1]:" + port_};
  for (const std::string& address : names.lan_addresses) on_lan_.push_back(with_port(address));
  for (const std::string& name : names.further) {
    own_.push_back(with_port(name));
    on_lan_.push_back(with_port(name));
  }
}

bool Gate::own_name(const Head& head) const {
  if (head.count("host") != 1) return false;
  const std::vector<std::string>& names = head.from_lan ? on_lan_ : own_;
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& name) { return equal_but_for_case(name, *head.field("host")); });
}

bool Gate::has_bearer_token(const Head& head) const {
  const std::string* field = head.field("authorization");
  constexpr std::string_view scheme = "Bearer ";
  return field != nullptr && field->size() > scheme.size() && field->compare(0, scheme.size(), scheme) == 0 &&
         is_token(std::string_view(*field).substr(scheme.size()));
}

bool Gate::from_foreign_page(const Head& head) const {
  if (const std::string* site = head.field("sec-fetch-site")) return *site != "same-origin" && *site != "none";
  const std::string* origin = head.field("origin");
  if (origin != nullptr) {
    constexpr std::string_view scheme = "http://";
    return origin->compare(0, scheme.size(), scheme) != 0 || *origin != "http://" + *head.field("host");
  }
  // A program that is no browser sends neither, but no page can make a browser send this field to us.
  return !is_safe(head.method) && (head.from_lan || !has_bearer_token(head));
}

std::optional<Response> Gate::refusal(const Head& head, bool below_api) const {
  if (!own_name(head)) {
    const std::vector<std::string>& names = head.from_lan ? on_lan_ : own_;
    return refuse(
        421, "misdirected",
        fmt::format("This server answers to {} alone. Use the address that it printed at its start; if it has "
                    "a further name, start it with --name NAME.",
                    fmt::join(names, " and ")));
  }
  if (auto framing = bad_framing(head)) return framing;
  if (below_api && from_foreign_page(head)) {
    return refuse(403, "forbidden", "This request comes from another page or program. Open duskwire's own page.");
  }
  return std::nullopt;
}

bool Gate::is_token(std::string_view given) const { return equal_in_constant_time(given, token_); }

bool Gate::knows(const Head& head) const {
  // Whoever listens in on the network could take them from there.
  if (head.from_lan) return false;
  return has_bearer_token(head) || equal_in_constant_time(head.cookie("duskwire-" + port_), secret_);
}

// The port is in the name, as cookies are shared by all ports of a host.
std::string Gate::cookie() const {
  return fmt::format("duskwire-{}={}; HttpOnly; SameSite=Strict; Path=/api", port_, secret_);
}

}  // namespace duskwire::server
