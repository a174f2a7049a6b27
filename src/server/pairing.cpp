// SPDX-License-Identifier: Apache-2.0
#include "server/pairing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "server/secrets.hpp"

namespace duskwire::server {

Pairing::Pairing(std::function<Clock::time_point()> now, std::function<std::string()> new_code)
    : now_(std::move(now)), new_code_(std::move(new_code)) {
  renew();
}

void Pairing::renew() {
  code_ = new_code_();
  made_ = now_();
  wrong_tries_of_code_ = 0;
}

void Pairing::renew_if_due() {
  if (now_() - made_ >= code_life) renew();
}

std::string Pairing::code() {
  const std::lock_guard<std::mutex> lock(mutex_);
  if (wrong_tries_ >= tries_in_all) return {};
  renew_if_due();
  return code_;
}

Pairing::Verdict Pairing::judge(std::string_view given) {
  std::string digits;
  std::copy_if(given.begin(), given.end(), std::back_inserter(digits), [](char c) { return c != ' ' && c != '-'; });
  const std::lock_guard<std::mutex> lock(mutex_);
  if (wrong_tries_ >= tries_in_all) return Verdict::over;
  renew_if_due();
  if (equal_in_constant_time(digits, code_)) {
    renew();
    return Verdict::right;
  }
  ++wrong_tries_;
  if (++wrong_tries_of_code_ >= tries_per_code) renew();
  return wrong_tries_ >= tries_in_all ? Verdict::over : Verdict::wrong;
}

std::string random_code() {
  constexpr std::uint32_t codes = 100'000'000;
  // Draws beyond the last whole multiple would make low codes likelier.
  constexpr std::uint32_t fair = UINT32_MAX - UINT32_MAX % codes;
  std::uint32_t drawn = 0;
  do drawn = random_number();
  while (drawn >= fair);
  return fmt::format("{:08}", drawn % codes);
}

}  // namespace duskwire::server
