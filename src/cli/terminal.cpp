// SPDX-License-Identifier: Apache-2.0
#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cstdlib>

namespace duskwire::cli {
namespace {

constexpr int usual_columns = 80;
constexpr int least_columns = 60;
constexpr int most_columns = 160;  // longer lines are hard to follow with the eye

std::string value_of(const Surroundings& surroundings, const std::string& name) {
  const auto found = surroundings.environment.find(name);
  return found == surroundings.environment.end() ? "" : found->second;
}

// POSIX order: LC_ALL over LC_CTYPE over LANG. Where none is set nothing speaks against UTF-8.
bool shows_line_art(const Surroundings& surroundings) {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    std::string locale = value_of(surroundings, name);
    if (locale.empty()) continue;
    std::transform(locale.begin(), locale.end(), locale.begin(), [](unsigned char c) { return std::tolower(c); });
    return locale.find("utf-8") != std::string::npos || locale.find("utf8") != std::string::npos;
  }
  return true;
}

int columns_of(const Surroundings& surroundings) {
  int columns = surroundings.columns;
  if (const std::string told = value_of(surroundings, "COLUMNS"); columns == 0 && !told.empty()) {
    std::from_chars(told.data(), told.data() + told.size(), columns);
  }
  return columns <= 0 ? usual_columns : std::clamp(columns, least_columns, most_columns);
}

}  // namespace

Surroundings look_around() {
  Surroundings found;
  found.is_terminal = ::isatty(STDOUT_FILENO) == 1;
  winsize size{};
  if (found.is_terminal && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) found.columns = size.ws_col;
  for (const char* name : {"NO_COLOR", "TERM", "COLUMNS", "LC_ALL", "LC_CTYPE", "LANG"}) {
    if (const char* value = std::getenv(name)) found.environment[name] = value;
  }
  return found;
}

TextStyle style_for(const Surroundings& surroundings, ColourChoice colour) {
  TextStyle style;
  style.width = columns_of(surroundings);
  const bool wanted = surroundings.is_terminal && value_of(surroundings, "NO_COLOR").empty() &&
                      value_of(surroundings, "TERM") != "dumb";
  style.colour = colour == ColourChoice::always || (colour == ColourChoice::automatic && wanted);
  if (!shows_line_art(surroundings)) style.glyphs = ascii_glyphs();
  return style;
}

}  // namespace duskwire::cli
