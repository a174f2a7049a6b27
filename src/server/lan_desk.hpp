// SPDX-License-Identifier: Apache-2.0
// The door to the local network: who may pair, who is paired, and when the door closes by itself. Calls may come from
// any thread.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <mutex>
#include <string>

#include "server/devices.hpp"
#include "server/http.hpp"
#include "server/pairing.hpp"

namespace duskwire::server {

// What the person at the screen is told while it happens.
struct LanNews {
  enum class Kind : std::uint8_t {
    code = 0,          // `text`: the code that is good from now on
    paired = 1,        // the phone's name
    wrong_code = 2,    // nothing
    pairing_over = 3,  // nothing: too many wrong codes
    closed = 4,        // nothing: nobody paired was there for too long
  };
  Kind kind = Kind::code;
  std::string text;
};

class LanDesk {
 public:
  using Clock = Pairing::Clock;
  struct Surroundings {
    std::function<Clock::time_point()> now;
    std::function<std::string()> now_utc;
    std::function<std::string()> new_code;
    std::function<void(const LanNews&)> tell;
  };

  // `port`: for the cookie's name, as cookies are shared by all ports of a host. `idle`: the door closes after so long
  // without a request of a paired phone.
  LanDesk(Devices devices, std::string fingerprint, std::uint16_t port, std::chrono::milliseconds idle,
          Surroundings around);

  // Asked again and again: tells a new code; false from when the door has to be closed.
  bool stays_open();

  // A request of a phone that is paired and not forgotten.
  [[nodiscard]] bool knows(const Head& head);
  // GET /api/pairing and POST /api/pairing.
  [[nodiscard]] Response standing();
  [[nodiscard]] Response pair(const std::string& body);

 private:
  void tell_code();

  Devices devices_;
  std::string fingerprint_;
  std::string cookie_name_;
  std::chrono::milliseconds idle_;
  Surroundings around_;
  Pairing pairing_;
  std::mutex mutex_;
  Clock::time_point last_seen_;
  std::string told_code_;
};

}  // namespace duskwire::server
