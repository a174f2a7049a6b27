// SPDX-License-Identifier: Apache-2.0
// The socket side: loopback, and the local network where that door is opened; deadlines and limits on everything, one
// thread for all connections and a few for the answers, so that a slow client costs a few kilobytes and no one else's
// time.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "server/http.hpp"

namespace duskwire::server {

struct Limits {
  std::chrono::milliseconds head{10'000};  // from the first wait to the last byte of the head
  std::chrono::milliseconds idle{30'000};  // between two requests of one connection, the next head included
  std::chrono::milliseconds transfer{60'000};
  std::size_t transfer_bytes_per_s = 50'000;  // a body has `transfer`, and this pace on top
  std::size_t head_bytes = 16u << 10u;
  // Beyond either: the one that has kept us waiting longest goes.
  std::size_t connections = 256;
  std::size_t connections_per_peer = 16;
};

class Listener {
 public:
  // Binds 127.0.0.1 and, where this computer has it, ::1 at the port (0: any that is free at both). Errors: unavailable
  // (the port is taken at one of them, or forbidden).
  static Result<std::unique_ptr<Listener>> open(std::uint16_t port, Limits limits = {});
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  [[nodiscard]] std::uint16_t port() const;
  // This computer has no ::1.
  [[nodiscard]] bool only_ipv4() const { return only_ipv4_; }
  // The door to the local network: the same port at these IPv4 addresses. While run() runs, `stays_open` is asked twice
  // a second; from its first no on the door is shut for good and all that came in by it are cut off.
  Result<bool> open_lan(const std::vector<std::string>& addresses, std::function<bool()> stays_open);
  // Answers until stop(), SIGINT or SIGTERM; answers that were begun are finished first. The handler outlives it.
  void run(Handler& handler);
  // From any thread.
  void stop();

 private:
  struct State;
  explicit Listener(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
  bool only_ipv4_ = false;
};

}  // namespace duskwire::server
