// SPDX-License-Identifier: Apache-2.0
// Requests and answers as plain values, so that gate and routes are tested without a socket.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace duskwire::server {

struct Field {
  std::string name;  // lower case
  std::string value;
};

// What is known before the body is read.
struct Head {
  std::string method;  // as sent, upper case by the standard
  std::string target;  // as sent: path and query
  std::vector<Field> fields;
  bool from_lan = false;  // came in by the door to the local network, not by this computer's own

  // The first field of that (lower-case) name, or nullptr.
  [[nodiscard]] const std::string* field(std::string_view name) const;
  [[nodiscard]] std::size_t count(std::string_view name) const;
  [[nodiscard]] std::string_view path() const;
  [[nodiscard]] std::string_view query() const;
  // The value of a cookie, empty where there is none.
  [[nodiscard]] std::string_view cookie(std::string_view name) const;
};

struct Response {
  unsigned status = 200;
  std::string media_type;  // empty: no body
  std::string body;
  std::vector<Field> fields;   // beyond those that every answer carries
  std::string content_policy;  // empty: the page's own policy
};

// One who answers: first on the head alone, so that a body that will be refused is never read.
class Handler {
 public:
  virtual ~Handler() = default;
  struct Admission {
    bool admitted = false;
    std::size_t body_limit_bytes = 0;
    // Its answer takes seconds and much memory: such requests are answered one after the other, beside all others.
    bool picture = false;
    Response refusal;  // where not admitted
  };
  virtual Admission admit(const Head& head) = 0;
  // Only for an admitted head. May be called from several threads at once.
  virtual Response answer(const Head& head, const std::string& body) = 0;
};

}  // namespace duskwire::server
