// SPDX-License-Identifier: Apache-2.0
// The code on the screen that lets a phone in: short, so it lives two minutes, bears five wrong tries, serves one
// phone, and after twenty wrong tries in all nobody is paired any more. (NIST SP 800-63B, 5.2.2: at most 100 failures
// in a row, from memory.) Knows no clock of its own. Calls may come from any thread.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>

namespace duskwire::server {

class Pairing {
 public:
  using Clock = std::chrono::steady_clock;
  static constexpr std::chrono::seconds code_life{120};
  static constexpr int tries_per_code = 5;
  static constexpr int tries_in_all = 20;

  enum class Verdict : std::uint8_t { right = 0, wrong = 1, over = 2 };

  // `new_code`: eight digits that nobody can foresee.
  Pairing(std::function<Clock::time_point()> now, std::function<std::string()> new_code);

  // The code of this moment; made anew where it has run out. Empty once pairing is over.
  std::string code();
  // A right code is used up by this. Blanks and dashes do not count.
  Verdict judge(std::string_view given);

 private:
  void renew_if_due();
  void renew();

  std::function<Clock::time_point()> now_;
  std::function<std::string()> new_code_;
  std::mutex mutex_;
  std::string code_;
  Clock::time_point made_;
  int wrong_tries_of_code_ = 0;
  int wrong_tries_ = 0;
};

// Eight digits, each as likely as any other.
[[nodiscard]] std::string random_code();

}  // namespace duskwire::server
