// SPDX-License-Identifier: Apache-2.0
// Reads a visit and its log.
#include "formats/log_agreement.hpp"
#include "formats/read_shape.hpp"
#include "formats/shape_visit.hpp"

namespace duskwire::formats {
namespace {

void need_of_kind(Context& context, bool is_there, const char* key, const job::LogEntry& entry) {
  if (is_there) return;
  const char* kind = names(Of<job::LogKind>{}).at(static_cast<std::size_t>(entry.kind));
  context.report(Severity::error, "", fmt::format("\"{}\"", key),
                 fmt::format("Entry \"{}\" of the log is of kind {}, so it needs \"{}\".", entry.id, kind, key));
}

// What was said is read as a visit would be, without what is said no longer.
void check_facts(Context& context, const Json& facts) {
  Json said = Json::object();
  for (const auto& [key, value] : facts.items()) {
    if (!value.is_null()) said[key] = value;
  }
  if (!said.contains("date")) said["date"] = "2000-01-01";
  if (!said.contains("kind")) said["kind"] = "other";
  const Context::Scope scope(context, "facts");
  job::Visit seen;
  read_shape(context, said, seen);
}

}  // namespace

void read_part(Context& context, const Json& value, job::LogEntry& out) {
  read_shape(context, value, out);
  if (!value.is_object()) return;
  const auto facts = value.find("facts");
  if (facts != value.end() && facts->is_object()) check_facts(context, *facts);
  switch (out.kind) {
    case job::LogKind::facts:
      return need_of_kind(context, !out.facts.empty(), "facts", out);
    case job::LogKind::reading:
      return need_of_kind(context, !out.reading.empty(), "reading", out);
    case job::LogKind::strike:
      return need_of_kind(context, !out.strikes.empty(), "strikes", out);
    case job::LogKind::sign:
      need_of_kind(context, !out.signed_by.empty(), "signed_by", out);
      return need_of_kind(context, out.covers.has_value(), "covers", out);
    case job::LogKind::backfill:
      return need_of_kind(context, !out.without.empty(), "without", out);
  }
}

void read_part(Context& context, const Json& value, job::Visit& out) {
  read_shape(context, value, out);
  check_log(context, out);
}

}  // namespace duskwire::formats
