// SPDX-License-Identifier: Apache-2.0
// Reading the small parts of a JSON body: each asks for one key and collects what is wrong with it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "formats/json_text.hpp"

namespace duskwire::server {

class Body {
 public:
  explicit Body(const formats::Json& tree) : tree_(tree) {}

  std::int64_t whole_number(const char* key);                 // required, 0 or more
  bool boolean(const char* key);                              // required
  std::string id(const char* key);                            // required
  std::string text(const char* key, std::size_t most_bytes);  // optional, "" where absent
  std::string required_text(const char* key, std::size_t most_bytes);
  std::string object_text(const char* key, std::size_t most_bytes);  // optional, as compact JSON

  // A document of this format at version 1, as compact JSON. `id`: what its /id must be, unless empty.
  std::string document(const char* format, std::string_view id);

  [[nodiscard]] const Problems& problems() const { return problems_; }

 private:
  const formats::Json* find(const char* key);
  void complain(const std::string& pointer, const formats::Json* value, const std::string& expected);

  const formats::Json& tree_;
  Problems problems_;
};

// The text at a path of keys, "" where there is none.
[[nodiscard]] std::string text_at(const formats::Json& tree, std::initializer_list<const char*> keys);

}  // namespace duskwire::server
