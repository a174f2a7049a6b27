// SPDX-License-Identifier: Apache-2.0
#include "server/http.hpp"

#include <algorithm>

namespace duskwire::server {

const std::string* Head::field(std::string_view name) const {
  const auto found = std::find_if(fields.begin(), fields.end(), [&](const Field& field) { return field.name == name; });
  return found == fields.end() ? nullptr : &found->value;
}

std::size_t Head::count(std::string_view name) const {
  return static_cast<std::size_t>(
      std::count_if(fields.begin(), fields.end(), [&](const Field& field) { return field.name == name; }));
}

std::string_view Head::path() const {
  const std::string_view all = target;
  return all.substr(0, all.find('?'));
}

std::string_view Head::query() const {
  const std::string_view all = target;
  const auto mark = all.find('?');
  return mark == std::string_view::npos ? std::string_view{} : all.substr(mark + 1);
}

std::string_view Head::cookie(std::string_view name) const {
  const std::string* field_text = field("cookie");
  std::string_view cookies = field_text == nullptr ? std::string_view{} : *field_text;
  while (!cookies.empty()) {
    const auto end = cookies.find(';');
    std::string_view pair = cookies.substr(0, end);
    cookies = end == std::string_view::npos ? std::string_view{} : cookies.substr(end + 1);
    while (!pair.empty() && pair.front() == ' ') pair.remove_prefix(1);
    if (pair.size() > name.size() && pair.substr(0, name.size()) == name && pair[name.size()] == '=') {
      return pair.substr(name.size() + 1);
    }
  }
  return {};
}

}  // namespace duskwire::server
