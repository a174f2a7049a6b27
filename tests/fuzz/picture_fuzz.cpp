// SPDX-License-Identifier: Apache-2.0
// Any bytes into the reader of picture files: no crash, no more memory than the limits allow, a picture that is whole,
// and an upright one that can be shrunk and written again.
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "pictures/codec.hpp"

namespace {

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  using namespace duskwire;
  const std::string_view file(reinterpret_cast<const char*>(data), size);
  const pictures::CameraNote note = pictures::read_exif(file);
  demand(note.orientation >= 1 && note.orientation <= 8, "an orientation is one of eight");
  const auto read = pictures::decode(file, {1'000'000, 4000});
  if (!read) {
    demand(!read.error().message.empty(), "a refusal says why");
    return 0;
  }
  const pictures::Picture& picture = read.value().picture;
  const std::size_t bytes = pictures::bytes_of(picture.width_px, picture.height_px, picture.channels);
  demand(bytes > 0 && picture.elements.size() == bytes, "a picture has all its elements");
  const pictures::Picture small = pictures::shrunk(picture, 16, 16);
  demand(small.width_px <= 16 && small.height_px <= 16, "it shrinks");
  demand(pictures::encode_png(small).ok(), "it can be written");
  return 0;
}
