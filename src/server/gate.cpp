// SPDX-License-Identifier: Apache-2.0
#include "server/gate.hpp"

#include <fmt/format.h>
#include <openssl/crypto.h>
#include <sys/random.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <stdexcept>

#include "server/answers.hpp"

namespace duskwire::server {
namespace {

bool equal_in_constant_time(std::string_view p, std::string_view q) {
  return p.size() == q.size() && CRYPTO_memcmp(p.data(), q.data(), p.size()) == 0;
}

bool equal_but_for_case(std::string_view p, std::string_view q) {
  return std::equal(p.begin(), p.end(), q.begin(), q.end(),
                    [](unsigned char a, unsigned char b) { return std::tolower(a) == std::tolower(b); });
}

bool is_safe(std::string_view method) { return method == "GET" || method == "HEAD"; }

// The value of one cookie out of a Cookie field.
std::string_view cookie_value(std::string_view cookies, std::string_view name) {
  while (!cookies.empty()) {
    const auto end = cookies.find(';');
    std::string_view pair = cookies.substr(0, end);
    cookies = end == std::string_view::npos ? std::string_view{} : cookies.substr(end + 1);
    while (!pair.empty() && pair.front() == ' ') pair.remove_prefix(1);
    if (pair.size() > name.size() && pair.substr(0, name.size()) == name && pair[name.size()] == '=') {
      return pair.substr(name.size() + 1);
    }
  }
  return {};
}

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
  if (head.count("content-encoding") > 0) {
    return refuse(415, "unsupported", "Send the body as it is; compressed bodies are not read.");
  }
  return std::nullopt;
}

}  // namespace

Gate::Gate(std::uint16_t port, std::string token, std::string session_secret)
    : port_(std::to_string(port)), token_(std::move(token)), secret_(std::move(session_secret)) {}

bool Gate::own_name(std::string_view host) const {
  return equal_but_for_case(host, "127.0.0.1:" + port_) || equal_but_for_case(host, "localhost:" + port_);
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
  return !is_safe(head.method) && !has_bearer_token(head);
}

std::optional<Response> Gate::refusal(const Head& head, bool below_api) const {
  if (head.count("host") != 1 || !own_name(*head.field("host"))) {
    return refuse(421, "misdirected",
                  fmt::format("This server answers to 127.0.0.1:{0} and localhost:{0} alone. Use the address that it "
                              "printed at its start.",
                              port_));
  }
  if (auto framing = bad_framing(head)) return framing;
  if (below_api && from_foreign_page(head)) {
    return refuse(403, "forbidden", "This request comes from another page or program. Open duskwire's own page.");
  }
  return std::nullopt;
}

bool Gate::is_token(std::string_view given) const { return equal_in_constant_time(given, token_); }

bool Gate::knows(const Head& head) const {
  if (has_bearer_token(head)) return true;
  const std::string* cookies = head.field("cookie");
  return cookies != nullptr && equal_in_constant_time(cookie_value(*cookies, "duskwire-" + port_), secret_);
}

// The port is in the name, as cookies are shared by all ports of a host.
std::string Gate::cookie() const {
  return fmt::format("duskwire-{}={}; HttpOnly; SameSite=Strict; Path=/api", port_, secret_);
}

std::string random_secret() {
  std::array<unsigned char, 32> random{};
  if (::getrandom(random.data(), random.size(), 0) != static_cast<ssize_t>(random.size())) {
    throw std::runtime_error("the operating system gives no random numbers");
  }
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  std::string text;
  unsigned held = 0;
  int bits = 0;
  for (const unsigned char byte : random) {
    held = (held << 8u) | byte;
    for (bits += 8; bits >= 6; bits -= 6) text += letters[(held >> static_cast<unsigned>(bits - 6)) & 63u];
  }
  text += letters[(held << static_cast<unsigned>(6 - bits)) & 63u];
  return text;
}

}  // namespace duskwire::server
