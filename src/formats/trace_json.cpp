// SPDX-License-Identifier: Apache-2.0
#include "formats/trace_json.hpp"

#include "formats/job_writer.hpp"
#include "formats/result_trace.hpp"
#include "formats/write_result.hpp"
// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {

ReadRequest<study::TraceRequest> read_trace_request(std::string_view text) {
  return read_request<study::TraceRequest>(
      text, [](Context& context, const Json& tree, study::TraceRequest& out) { read_shape(context, tree, out); });
}

Json trace_json(const study::Traced& traced) {
  Json out = {{"job", traced.job ? job_document(*traced.job) : Json(nullptr)}};
  out.update(result_json(traced));
  return out;
}

}  // namespace duskwire::formats
