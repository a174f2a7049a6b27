// SPDX-License-Identifier: Apache-2.0
#include "formats/job_writer.hpp"

#include "formats/shape_job.hpp"
#include "formats/write_shape.hpp"

namespace duskwire::formats {

Json job_document(const job::Job& job) {
  Json document = {{"format", "duskwire-job"}, {"version", job::format_version}};
  write_shape(job, document);
  return document;
}

std::string write_job(const job::Job& job) { return indented_text(job_document(job)) + "\n"; }

}  // namespace duskwire::formats
