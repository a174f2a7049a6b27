// SPDX-License-Identifier: Apache-2.0
// The C functions that the loader's JavaScript (face.js) calls: texts as pointer and length, the last answer is kept
// until the next call.
#include <emscripten.h>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "wasm/verbs.hpp"

namespace {

duskwire::wasm::Reply& last() {
  static duskwire::wasm::Reply reply;
  return reply;
}

std::vector<std::string>& arguments() {
  static std::vector<std::string> texts;
  return texts;
}

}  // namespace

extern "C" {

// Room for the next argument: the caller writes `bytes` bytes of UTF-8 to where this points.
EMSCRIPTEN_KEEPALIVE char* duskwire_argument(std::size_t bytes) { return arguments().emplace_back(bytes, '\0').data(); }

// The first argument is the verb. 0: answered, 1: refused.
EMSCRIPTEN_KEEPALIVE int duskwire_call() {
  std::vector<std::string> texts = std::move(arguments());
  arguments().clear();
  std::vector<std::string_view> given(texts.begin(), texts.end());
  if (given.empty()) given.emplace_back();
  const std::string_view verb = given.front();
  given.erase(given.begin());
  last() = duskwire::wasm::call(verb, given);
  return last().refused ? 1 : 0;
}

EMSCRIPTEN_KEEPALIVE const char* duskwire_answer() { return last().text.data(); }
EMSCRIPTEN_KEEPALIVE std::size_t duskwire_answer_bytes() { return last().text.size(); }
}
