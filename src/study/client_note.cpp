// SPDX-License-Identifier: Apache-2.0
#include "study/client_note.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string_view>

namespace duskwire::study {
namespace {

template <class T>
struct Word {
  std::string_view begin;  // of the word, so that plurals count
  T meaning;
};

constexpr Word<Feature> feature_words[] = {
    {"step", Feature::steps},     {"stair", Feature::steps},  {"walk", Feature::walk},  {"path", Feature::walk},
    {"drive", Feature::walk},     {"door", Feature::door},    {"porch", Feature::door}, {"entr", Feature::door},
    {"tree", Feature::tree},      {"oak", Feature::tree},     {"maple", Feature::tree}, {"palm", Feature::tree},
    {"birch", Feature::tree},     {"pine", Feature::tree},    {"house", Feature::wall}, {"wall", Feature::wall},
    {"facade", Feature::wall},    {"brick", Feature::wall},   {"stone", Feature::wall}, {"terrace", Feature::terrace},
    {"patio", Feature::terrace},  {"deck", Feature::terrace}, {"pond", Feature::water}, {"pool", Feature::water},
    {"fountain", Feature::water}, {"bed", Feature::bed},      {"border", Feature::bed}, {"hedge", Feature::bed},
    {"shrub", Feature::bed},      {"rose", Feature::bed}};

constexpr Word<Feeling> feeling_words[] = {
    {"scar", Feeling::fear},   {"afraid", Feeling::fear}, {"danger", Feeling::fear},    {"unsafe", Feeling::fear},
    {"trip", Feeling::fear},   {"fall", Feeling::fear},   {"fell", Feeling::fear},      {"slip", Feeling::fear},
    {"stumbl", Feeling::fear}, {"dark", Feeling::fear},   {"love", Feeling::love},      {"like", Feeling::love},
    {"favo", Feeling::love},   {"proud", Feeling::love},  {"beautiful", Feeling::love}, {"show", Feeling::love}};

constexpr std::string_view eye_words[] = {"bedroom", "window", "neighbo", "nursery"};

// Lower case words of a part of the note.
std::vector<std::string> words_of(std::string_view part) {
  std::vector<std::string> words(1);
  for (const char c : part) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      words.back() += static_cast<char>(std::tolower(byte));
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  return words;
}

// Parts between commas, full stops and the like, and at "and" and "but".
std::vector<std::string> parts_of(const std::string& note) {
  std::vector<std::string> parts(1);
  for (const char c : note) {
    if (c == ',' || c == '.' || c == ';' || c == '!' || c == '?' || c == '\n') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
    for (const std::string_view link : {" and ", " but "}) {
      std::string& last = parts.back();
      if (!last.ends_with(link)) continue;
      last.resize(last.size() - link.size());
      parts.emplace_back();
    }
  }
  for (std::string& part : parts) {
    part.erase(0, std::min(part.size(), part.find_first_not_of(" \t\r")));
    part.erase(part.find_last_not_of(" \t\r") + 1);
  }
  return parts;
}

// "bed" begins "bedroom" too, which is no flower bed.
bool begins(const std::string& word, std::string_view begin) {
  return word.starts_with(begin) && !(begin == "bed" && word.starts_with("bedroom"));
}

template <class T, std::size_t count>
std::optional<T> meaning_of(const std::string& word, const Word<T> (&list)[count]) {
  for (const Word<T>& each : list) {
    if (begins(word, each.begin)) return each.meaning;
  }
  return std::nullopt;
}

}  // namespace

ClientNote read_note(const std::string& note) {
  ClientNote out;
  for (const std::string& part : parts_of(note)) {
    const std::vector<std::string> words = words_of(part);
    const bool is_eye = std::any_of(words.begin(), words.end(), [](const std::string& word) {
      return std::any_of(std::begin(eye_words), std::end(eye_words),
                         [&](std::string_view eye) { return word.starts_with(eye); });
    });
    if (is_eye) {
      out.eyes.push_back(part);
      continue;
    }
    Feeling feeling = Feeling::plain;
    for (const std::string& word : words)
      feeling = std::min(feeling, meaning_of(word, feeling_words).value_or(feeling));
    for (const std::string& word : words) {
      const auto feature = meaning_of(word, feature_words);
      if (!feature) continue;
      const auto known = std::find_if(out.features.begin(), out.features.end(),
                                      [&](const NotedFeature& each) { return each.feature == *feature; });
      if (known == out.features.end()) {
        out.features.push_back({*feature, feeling, part});
      } else {
        known->feeling = std::min(known->feeling, feeling);
      }
    }
  }
  return out;
}

}  // namespace duskwire::study
