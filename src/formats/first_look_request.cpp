// SPDX-License-Identifier: Apache-2.0
#include "formats/first_look_request.hpp"

#include "formats/shape_first_look.hpp"
// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {

ReadRequest<study::FirstLookRequest> read_first_look_request(std::string_view text) {
  return read_request<study::FirstLookRequest>(
      text, [](Context& context, const Json& tree, study::FirstLookRequest& out) { read_shape(context, tree, out); });
}

}  // namespace duskwire::formats
