// SPDX-License-Identifier: Apache-2.0
#include <turbojpeg.h>

#include <memory>
#include <vector>

#include "server/picture_codec.hpp"

namespace duskwire::server {
namespace {

constexpr int quality = 92;  // no loss that an eye sees; the page has encoded the picture once already

struct Destroy {
  void operator()(void* handle) const { tjDestroy(handle); }
};
using Handle = std::unique_ptr<void, Destroy>;

}  // namespace

Result<CleanPicture> clean_jpeg(std::string_view bytes) {
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  const Handle reader(tjInitDecompress());
  int width_px = 0;
  int height_px = 0;
  int subsampling = 0;
  int colours = 0;
  if (!reader ||
      tjDecompressHeader3(reader.get(), data, bytes.size(), &width_px, &height_px, &subsampling, &colours) != 0) {
    return broken_picture();
  }
  const Result<bool> allowed = size_allowed(width_px, height_px);
  if (!allowed) return allowed.error();
  std::vector<unsigned char> pixels(3 * static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px));
  // A file that is cut short still decodes, with a warning; half a photograph is not what was sent.
  if (tjDecompress2(reader.get(), data, bytes.size(), pixels.data(), width_px, 0, height_px, TJPF_RGB,
                    TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS) != 0) {
    return broken_picture();
  }
  const Handle writer(tjInitCompress());
  unsigned char* out = nullptr;
  unsigned long out_bytes = 0;
  const int failed = !writer || tjCompress2(writer.get(), pixels.data(), width_px, 0, height_px, TJPF_RGB, &out,
                                            &out_bytes, TJSAMP_420, quality, 0);
  const std::unique_ptr<unsigned char, void (*)(unsigned char*)> owned(out, tjFree);
  if (failed != 0) return broken_picture();
  return CleanPicture{"image/jpeg", width_px, height_px, std::string(reinterpret_cast<char*>(out), out_bytes)};
}

}  // namespace duskwire::server
