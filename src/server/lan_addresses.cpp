// SPDX-License-Identifier: Apache-2.0
#include "server/lan_addresses.hpp"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <optional>

namespace duskwire::server {
namespace {

struct Block {
  std::uint32_t first;
  int bits;
};

constexpr std::array<Block, 4> private_blocks = {
    {{0x0a000000u, 8}, {0xac100000u, 12}, {0xc0a80000u, 16}, {0xa9fe0000u, 16}}};
constexpr Block loopback{0x7f000000u, 8};

bool within(std::uint32_t address, const Block& block) { return (address ^ block.first) >> (32 - block.bits) == 0; }

bool is_private(std::uint32_t address) {
  return std::any_of(private_blocks.begin(), private_blocks.end(),
                     [&](const Block& block) { return within(address, block); });
}

std::optional<std::uint32_t> number_of(const std::string& text) {
  in_addr address{};
  if (::inet_pton(AF_INET, text.c_str(), &address) != 1) return std::nullopt;
  return ntohl(address.s_addr);
}

std::string text_of(std::uint32_t address) {
  return fmt::format("{}.{}.{}.{}", address >> 24u, (address >> 16u) & 255u, (address >> 8u) & 255u, address & 255u);
}

}  // namespace

std::vector<std::string> lan_addresses() {
  std::vector<std::string> all;
  ifaddrs* first = nullptr;
  if (::getifaddrs(&first) != 0) return all;
  const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> owned(first, ::freeifaddrs);
  for (const ifaddrs* at = first; at != nullptr; at = at->ifa_next) {
    if (at->ifa_addr == nullptr || at->ifa_addr->sa_family != AF_INET || (at->ifa_flags & IFF_UP) == 0) continue;
    const std::uint32_t address = ntohl(reinterpret_cast<const sockaddr_in*>(at->ifa_addr)->sin_addr.s_addr);
    if (is_private(address)) all.push_back(text_of(address));
  }
  return all;
}

Result<std::vector<std::string>> addresses_to_open(const std::string& wish) {
  if (wish.empty()) {
    std::vector<std::string> all = lan_addresses();
    if (!all.empty()) return all;
    return Error{ErrorCode::not_found,
                 "This computer has no private IPv4 address: it is on no local network. Join one, or leave --lan out."};
  }
  const auto number = number_of(wish);
  if (number && (is_private(*number) || within(*number, loopback))) return std::vector<std::string>{wish};
  return Error{
      ErrorCode::invalid,
      fmt::format("--address {}: expected a private IPv4 address of this computer, such as 192.168.1.20. Others "
                  "may be reached from the internet, which this server is not made for.",
                  wish)};
}

bool is_host_name(const std::string& name) {
  const auto colon = name.find(':');
  const std::string host = name.substr(0, colon);
  const bool plain = !host.empty() && host.size() <= 253 && std::all_of(host.begin(), host.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '-';
  });
  if (!plain || colon == std::string::npos) return plain;
  const std::string port = name.substr(colon + 1);
  return !port.empty() && port.size() <= 5 && port.find_first_not_of("0123456789") == std::string::npos;
}

}  // namespace duskwire::server
