// SPDX-License-Identifier: Apache-2.0
// Result<T>: a value or one Error. Used for every failure a caller can act on; exceptions are for our own bugs.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <variant>

namespace duskwire {

// Kinds of failure. The edges (command, server, page) translate them once: exit code, HTTP status, message.
enum class ErrorCode : std::uint8_t {
  unsupported = 1,  // well formed, but from a version or of a kind that this program does not handle
  invalid = 2,      // broken input: the message says what, where, the value and what was expected
  not_found = 3,    // names a thing that does not exist
  conflict = 4,     // was right once, but something changed since
  unavailable = 5,  // disk, file or device refused
  no_room = 6,      // the disk is full
};

struct Error {
  ErrorCode code = ErrorCode::invalid;
  std::string message;  // one sentence for a person, with the next step
};

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

  [[nodiscard]] bool ok() const { return held_.index() == 0; }
  explicit operator bool() const { return ok(); }

  // Precondition: ok(). std::get throws on a caller's bug.
  [[nodiscard]] const T& value() const& { return std::get<0>(held_); }
  [[nodiscard]] T& value() & { return std::get<0>(held_); }
  [[nodiscard]] T&& value() && { return std::get<0>(std::move(held_)); }
  // Precondition: !ok().
  [[nodiscard]] const Error& error() const { return std::get<1>(held_); }

 private:
  std::variant<T, Error> held_;
};

}  // namespace duskwire
