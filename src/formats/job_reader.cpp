// SPDX-License-Identifier: Apache-2.0
#include "formats/job_reader.hpp"

#include "formats/document_head.hpp"
#include "formats/job_agreement.hpp"
#include "formats/read_shape.hpp"
#include "formats/shape_job.hpp"

namespace duskwire::formats {

namespace {

ReadJob read_tree(Context context, const Json& tree) {
  if (!read_head(context, tree, "duskwire-job", "job")) return {std::nullopt, context.take()};
  job::Job job;
  read_shape(context, tree, job, {"format", "version"});
  context.look_up();
  if (context.is_broken()) return {std::nullopt, context.take()};
  check_agreement(context, job);
  return {std::move(job), context.take()};
}

}  // namespace

ReadJob read_job_tree_leniently(const Json& tree) { return read_tree({}, tree); }

ReadJob read_job_leniently(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  if (!parsed.tree) return {std::nullopt, context.take()};
  return read_tree(std::move(context), *parsed.tree);
}

ReadJob read_job(std::string_view text) {
  ReadJob read = read_job_leniently(text);
  if (has_errors(read.problems)) read.job.reset();
  return read;
}

}  // namespace duskwire::formats
