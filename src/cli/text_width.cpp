// SPDX-License-Identifier: Apache-2.0
#include "cli/text_width.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace duskwire::cli {
namespace {

struct Symbol {
  std::size_t bytes = 1;
  int cells = 1;
};

// Cells of one code point. Wide: the East Asian blocks of Unicode; none: combining marks and joiners.
int cells_of(std::uint32_t code) {
  if ((code >= 0x300 && code <= 0x36f) || (code >= 0x200b && code <= 0x200f) || code == 0xfe0f) return 0;
  const bool wide = (code >= 0x1100 && code <= 0x115f) || (code >= 0x2e80 && code <= 0xa4cf) ||
                    (code >= 0xac00 && code <= 0xd7a3) || (code >= 0xf900 && code <= 0xfaff) ||
                    (code >= 0xfe30 && code <= 0xfe6f) || (code >= 0xff00 && code <= 0xff60) ||
                    (code >= 0x1f300 && code <= 0x1faff);
  return wide ? 2 : 1;
}

std::size_t length_of(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xc2 && lead < 0xe0) return 2;
  if (lead >= 0xe0 && lead < 0xf0) return 3;
  if (lead >= 0xf0 && lead < 0xf5) return 4;
  return 1;
}

// A colour code: ESC [ digits and semicolons m.
std::size_t escape_length(std::string_view rest) {
  if (rest.size() < 2 || rest[0] != '\x1b' || rest[1] != '[') return 0;
  const std::size_t end = rest.find('m');
  return end == std::string_view::npos ? 0 : end + 1;
}

Symbol next_symbol(std::string_view rest) {
  if (const std::size_t escape = escape_length(rest); escape > 0) return {escape, 0};
  const auto lead = static_cast<unsigned char>(rest.front());
  const std::size_t bytes = length_of(lead);
  if (bytes == 1 || rest.size() < bytes) return {1, lead < 0x20 ? 0 : 1};
  std::uint32_t code = lead & (0xffu >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    const auto byte = static_cast<unsigned char>(rest[i]);
    if ((byte & 0xc0u) != 0x80u) return {1, 1};
    code = (code << 6u) | (byte & 0x3fu);
  }
  return {bytes, cells_of(code)};
}

// The longest beginning of `text` that fits in `cells`; at least one symbol, so that callers always advance.
std::size_t fitting_bytes(std::string_view text, int cells) {
  std::size_t used = 0;
  int width = 0;
  while (used < text.size()) {
    const Symbol symbol = next_symbol(text.substr(used));
    if (width + symbol.cells > cells && used > 0) break;
    width += symbol.cells;
    used += symbol.bytes;
  }
  return used;
}

// A unit that must not be parted from the number before it.
bool is_unit(std::string_view word) {
  while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  constexpr std::array<std::string_view, 20> units = {"V",  "A",   "VA",  "W",   "%",  "m",  "ft", "in", "°C", "°F",
                                                      "mm", "mm²", "AWG", "ohm", "lx", "fc", "C",  "F",  "K",  "USD"};
  return std::find(units.begin(), units.end(), word) != units.end();
}

bool ends_in_digit(std::string_view word) { return !word.empty() && word.back() >= '0' && word.back() <= '9'; }

// The pieces of `text` between which a line may break: words, a number together with its unit.
std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    const bool follows_directly = !words.empty() && words.back().data() + words.back().size() + 1 == word.data();
    if (follows_directly && ends_in_digit(words.back()) && is_unit(word)) {
      words.back() = {words.back().data(), words.back().size() + 1 + word.size()};
    } else if (!word.empty()) {
      words.push_back(word);
    }
    at = end + 1;
  }
  return words;
}

}  // namespace

int display_width(std::string_view text) {
  int width = 0;
  while (!text.empty()) {
    const Symbol symbol = next_symbol(text);
    width += symbol.cells;
    text.remove_prefix(symbol.bytes);
  }
  return width;
}

std::string clip(std::string_view text, int cells, std::string_view ellipsis) {
  if (display_width(text) <= cells) return std::string(text);
  const int room = cells - display_width(ellipsis);
  if (room <= 0) return std::string(text.substr(0, fitting_bytes(text, std::max(cells, 1))));
  std::string_view kept = text.substr(0, fitting_bytes(text, room));
  while (!kept.empty() && kept.back() == ' ') kept.remove_suffix(1);
  return std::string(kept) + std::string(ellipsis);
}

std::string pad_right(std::string_view text, int cells) {
  return std::string(text) + std::string(static_cast<std::size_t>(std::max(0, cells - display_width(text))), ' ');
}

std::string pad_left(std::string_view text, int cells) {
  return std::string(static_cast<std::size_t>(std::max(0, cells - display_width(text))), ' ') + std::string(text);
}

std::vector<std::string> wrap(std::string_view text, int cells) { return wrap(text, cells, cells); }

std::vector<std::string> wrap(std::string_view text, int first_cells, int cells) {
  std::vector<std::string> lines;
  std::string line;
  const auto room = [&] { return std::max(lines.empty() ? first_cells : cells, 1); };
  for (std::string_view word : words_of(text)) {
    if (!line.empty() && display_width(line) + 1 + display_width(word) <= room()) {
      line += ' ';
      line += word;
      continue;
    }
    if (!line.empty()) lines.push_back(std::move(line));
    while (display_width(word) > room()) {
      const std::size_t bytes = fitting_bytes(word, room());
      lines.emplace_back(word.substr(0, bytes));
      word.remove_prefix(bytes);
    }
    line = std::string(word);
  }
  if (!line.empty()) lines.push_back(std::move(line));
  return lines;
}

std::string paragraph(std::string_view lead, std::string_view text, int width) {
  return paragraph(lead, text, width, display_width(lead));
}

std::string paragraph(std::string_view lead, std::string_view text, int width, int hang) {
  std::string out(lead);
  const std::vector<std::string> lines = wrap(text, width - display_width(lead), width - hang);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0) out.append(static_cast<std::size_t>(hang), ' ');
    out += lines[i] + "\n";
  }
  return lines.empty() ? out + "\n" : out;
}

}  // namespace duskwire::cli
