// SPDX-License-Identifier: Apache-2.0
// The head of a request out of the parser of HTTP, as the gate and the routes take it. Internal to the room and its
// fuzz target.
#pragma once

#include <algorithm>
#include <boost/beast/http.hpp>
#include <cctype>
#include <string>
#include <utility>

#include "server/http.hpp"

namespace duskwire::server {

inline Head head_of(const boost::beast::http::request<boost::beast::http::string_body>& request) {
  Head head;
  head.method = std::string(request.method_string());
  head.target = std::string(request.target());
  for (const auto& field : request) {
    std::string name(field.name_string());
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return std::tolower(c); });
    head.fields.push_back({std::move(name), std::string(field.value())});
  }
  return head;
}

}  // namespace duskwire::server
