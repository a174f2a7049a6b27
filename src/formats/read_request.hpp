// SPDX-License-Identifier: Apache-2.0
// How every request is read: the text as a tree, the tree by its shape, all problems told. After the shapes that it
// reads, as read_shape.hpp.
#pragma once

#include <string_view>
#include <utility>

#include "formats/requests.hpp"
// Last of all.
#include "formats/read_shape.hpp"

namespace duskwire::formats {

// `fill(context, tree, request)` reads the tree.
template <class Request, class Fill>
ReadRequest<Request> read_request(std::string_view text, const Fill& fill) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadRequest<Request> read;
  if (parsed.tree) fill(context, *parsed.tree, read.request.emplace());
  read.problems = context.take();
  if (has_errors(read.problems)) read.request.reset();
  return read;
}

}  // namespace duskwire::formats
