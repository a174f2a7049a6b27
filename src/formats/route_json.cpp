// SPDX-License-Identifier: Apache-2.0
#include "formats/route_json.hpp"

#include "formats/job_writer.hpp"
#include "formats/result_route.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json route_answer_json(const study::RouteAnswer& answer) {
  Json out = {{"job", answer.job ? job_document(*answer.job) : Json(nullptr)}};
  out.update(result_json(answer));
  return out;
}

Json route_progress_json(const study::RouteProgress& progress, bool more) {
  Json out = result_json(progress);
  out["more"] = more;
  return out;
}

}  // namespace duskwire::formats
