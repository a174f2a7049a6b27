// SPDX-License-Identifier: Apache-2.0
#include <turbojpeg.h>

#include <memory>

#include "pictures/codec.hpp"

namespace duskwire::pictures {
namespace {

struct Destroy {
  void operator()(void* handle) const { tjDestroy(handle); }
};
using Handle = std::unique_ptr<void, Destroy>;

}  // namespace

Result<Picture> decode_jpeg(std::string_view file, const Limits& limits) {
  const auto* data = reinterpret_cast<const unsigned char*>(file.data());
  const Handle reader(tjInitDecompress());
  int width_px = 0;
  int height_px = 0;
  int subsampling = 0;
  int colours = 0;
  if (!reader ||
      tjDecompressHeader3(reader.get(), data, file.size(), &width_px, &height_px, &subsampling, &colours) != 0) {
    return broken_picture();
  }
  const Result<bool> allowed = size_allowed(width_px, height_px, limits);
  if (!allowed) return allowed.error();
  Picture out{static_cast<std::uint32_t>(width_px), static_cast<std::uint32_t>(height_px), 3, {}};
  out.elements.resize(bytes_of(out.width_px, out.height_px, out.channels));
  // A file that is cut short still decodes, with a warning; half a photograph is not what was sent.
  if (tjDecompress2(reader.get(), data, file.size(), out.elements.data(), width_px, 0, height_px, TJPF_RGB,
                    TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS) != 0) {
    return broken_picture();
  }
  return out;
}

Result<std::string> encode_jpeg(const Picture& picture, int quality) {
  const Handle writer(tjInitCompress());
  unsigned char* out = nullptr;
  unsigned long out_bytes = 0;
  const int failed =
      !writer || tjCompress2(writer.get(), picture.elements.data(), static_cast<int>(picture.width_px), 0,
                             static_cast<int>(picture.height_px), picture.channels == 4 ? TJPF_RGBA : TJPF_RGB, &out,
                             &out_bytes, TJSAMP_420, quality, 0);
  const std::unique_ptr<unsigned char, void (*)(unsigned char*)> owned(out, tjFree);
  if (failed != 0) return cannot_write_picture();
  return std::string(reinterpret_cast<char*>(out), out_bytes);
}

}  // namespace duskwire::pictures
