// SPDX-License-Identifier: Apache-2.0
#include "formats/requests.hpp"

#include "estimate/labour_rates.hpp"
#include "formats/shape_requests.hpp"
// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {

ReadRequest<CheckRequest> read_check_request(std::string_view text) {
  return read_request<CheckRequest>(
      text, [](Context& context, const Json& tree, CheckRequest& out) { read_shape(context, tree, out); });
}

ReadRequest<AskRequest> read_ask_request(std::string_view text) {
  return read_request<AskRequest>(text, [](Context& context, const Json& tree, AskRequest& out) {
    read_shape(context, tree, out.question, {"units"});
    if (!tree.is_object() || !tree.contains("units")) return;
    const Context::Scope scope(context, "units");
    read_value(context, tree["units"], out.units, OneOf{}, {"units", optional, "Units of the answer's words"});
  });
}

ReadRequest<StartRequest> read_start_request(std::string_view text) {
  return read_request<StartRequest>(
      text, [](Context& context, const Json& tree, StartRequest& out) { read_shape(context, tree, out); });
}

ReadRequest<study::RouteRequest> read_route_request(std::string_view text, const job::Job& job) {
  return read_request<study::RouteRequest>(text, [&](Context& context, const Json& tree, study::RouteRequest& out) {
    out.rates = estimate::install_rates(job);
    read_shape(context, tree, out);
  });
}

}  // namespace duskwire::formats
