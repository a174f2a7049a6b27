// SPDX-License-Identifier: Apache-2.0
// Who may come in. A loopback address is no wall: any page in the browser can send to it. So: one of our own names in
// Host (against rebinding of names), no foreign page (Sec-Fetch-Site, else Origin), and a secret of this start.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/http.hpp"

namespace duskwire::server {

// Bounds on the head beyond the 16 KiB that the parser itself enforces.
inline constexpr std::size_t target_limit_bytes = 2048;
inline constexpr std::size_t field_limit = 64;

// What the server may be called besides 127.0.0.1 and localhost. Each with its own port behind a colon, or with ours.
struct Names {
  std::vector<std::string> further;        // by --name, from both sides
  std::vector<std::string> lan_addresses;  // where the door to the local network is open
};

class Gate {
 public:
  // The port is part of the names; token and secret come from the operating system's random source.
  Gate(std::uint16_t port, std::string token, std::string session_secret, const Names& names = {});

  // Host, framing and, for a route of the interface (`below_api`), where the request comes from.
  [[nodiscard]] std::optional<Response> refusal(const Head& head, bool below_api) const;

  [[nodiscard]] bool knows(const Head& head) const;           // cookie or bearer token, never over the LAN
  [[nodiscard]] bool is_token(std::string_view given) const;  // in constant time
  [[nodiscard]] std::string cookie() const;                   // the Set-Cookie of a new session
  [[nodiscard]] const std::string& token() const { return token_; }

 private:
  [[nodiscard]] bool own_name(const Head& head) const;
  [[nodiscard]] bool from_foreign_page(const Head& head) const;
  [[nodiscard]] bool has_bearer_token(const Head& head) const;

  std::string port_;
  std::string token_;
  std::string secret_;
  std::vector<std::string> own_;
  std::vector<std::string> on_lan_;
};

}  // namespace duskwire::server
