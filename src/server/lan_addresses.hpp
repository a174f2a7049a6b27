// SPDX-License-Identifier: Apache-2.0
// This computer's addresses on the local network, and which addresses may be opened at all.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"

namespace duskwire::server {

// IPv4, of interfaces that are up, private ones alone (RFC 1918, and RFC 3927's link-local ones).
[[nodiscard]] std::vector<std::string> lan_addresses();

// Where to open: the wish if there is one, else all of lan_addresses(). Errors: invalid (no IPv4 address, or one that
// the internet may reach), not_found (this computer is on no local network).
[[nodiscard]] Result<std::vector<std::string>> addresses_to_open(const std::string& wish);

// A name that Host may hold: letters, digits, dots, dashes, and a port behind a colon if it is not ours.
[[nodiscard]] bool is_host_name(const std::string& name);

}  // namespace duskwire::server
