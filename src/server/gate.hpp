// SPDX-License-Identifier: Apache-2.0
// Who may come in. A loopback address is no wall: any page in the browser can send to it. So: one of our own names in
// Host (against rebinding of names), no foreign page (Sec-Fetch-Site, else Origin), and a secret of this start.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "server/http.hpp"

namespace duskwire::server {

// Bounds on the head beyond the 16 KiB that the parser itself enforces.
inline constexpr std::size_t target_limit_bytes = 2048;
inline constexpr std::size_t field_limit = 64;

class Gate {
 public:
  // The port is part of the names; token and secret come from the operating system's random source.
  Gate(std::uint16_t port, std::string token, std::string session_secret);

  // Host, framing and, for a route of the interface (`below_api`), where the request comes from.
  [[nodiscard]] std::optional<Response> refusal(const Head& head, bool below_api) const;

  [[nodiscard]] bool knows(const Head& head) const;           // cookie or bearer token
  [[nodiscard]] bool is_token(std::string_view given) const;  // in constant time
  [[nodiscard]] std::string cookie() const;                   // the Set-Cookie of a new session
  [[nodiscard]] const std::string& token() const { return token_; }

 private:
  [[nodiscard]] bool own_name(std::string_view host) const;
  [[nodiscard]] bool from_foreign_page(const Head& head) const;
  [[nodiscard]] bool has_bearer_token(const Head& head) const;

  std::string port_;
  std::string token_;
  std::string secret_;
};

// 256 random bits as 43 characters out of A-Z a-z 0-9 - _.
[[nodiscard]] std::string random_secret();

}  // namespace duskwire::server
