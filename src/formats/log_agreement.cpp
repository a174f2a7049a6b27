// SPDX-License-Identifier: Apache-2.0
#include "formats/log_agreement.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "formats/read_shape.hpp"
#include "formats/shape_visit.hpp"

namespace duskwire::formats {
namespace {

void warn(Context& context, std::string value, std::string expected, std::string message) {
  context.report(Severity::warning, std::move(value), std::move(expected), std::move(message));
}

void check_ids(Context& context, const job::Visit& visit) {
  std::set<std::string> ids;
  for (std::size_t k = 0; k < visit.log.size(); ++k) {
    const job::LogEntry& entry = visit.log[k];
    const Context::Scope scope(context, k);
    if (!ids.insert(entry.id).second) {
      warn(context, entry.id, "each entry once", fmt::format("Entry \"{}\" of the log is there twice.", entry.id));
    }
    if (entry.visit != visit.id) {
      warn(context, entry.visit, visit.id,
           fmt::format("Entry \"{}\" is of the visit \"{}\", but stands in the log of \"{}\".", entry.id, entry.visit,
                       visit.id));
    }
  }
  for (std::size_t k = 0; k < visit.log.size(); ++k) {
    const job::LogEntry& entry = visit.log[k];
    if (entry.kind != job::LogKind::strike || ids.contains(entry.strikes)) continue;
    const Context::Scope scope(context, k);
    warn(context, entry.strikes, "an entry of this log",
         fmt::format("Entry \"{}\" strikes \"{}\", which the log does not have: take the log of the other device in.",
                     entry.id, entry.strikes));
  }
}

// Each device counts its entries: a number that is not there is an entry that was lost on the way.
void check_numbers(Context& context, const job::Visit& visit) {
  std::map<std::string, std::set<std::uint32_t>> numbers;
  for (const job::LogEntry& entry : visit.log) numbers[entry.device].insert(entry.number);
  for (const auto& [device, seen] : numbers) {
    const std::uint32_t last = *seen.rbegin();
    if (last == seen.size()) continue;
    warn(context, fmt::format("{} of {}", seen.size(), last), "every number from 1",
         fmt::format("{} of the {} entries that \"{}\" wrote are not in the log: take the log of that device in.",
                     last - seen.size(), last, device));
  }
}

}  // namespace

std::vector<job::Reading> standing_readings(const std::vector<job::LogEntry>& log) {
  std::set<std::string> struck;
  std::vector<const job::LogEntry*> order;
  for (const job::LogEntry& entry : log) {
    if (entry.kind == job::LogKind::strike) struck.insert(entry.strikes);
    order.push_back(&entry);
  }
  std::stable_sort(order.begin(), order.end(), [](const job::LogEntry* x, const job::LogEntry* y) {
    return std::tie(x->at, x->device, x->number, x->id) < std::tie(y->at, y->device, y->number, y->id);
  });
  std::vector<job::Reading> readings;
  for (const job::LogEntry* entry : order) {
    if (entry->kind != job::LogKind::reading || struck.contains(entry->id)) continue;
    Context aside;
    read_part(aside, Json::parse(entry->reading, nullptr, false), readings.emplace_back());
  }
  return readings;
}

void check_log(Context& context, const job::Visit& visit) {
  if (visit.log.empty()) return;
  {
    const Context::Scope scope(context, "log");
    check_ids(context, visit);
    check_numbers(context, visit);
  }
  const std::vector<job::Reading> standing = standing_readings(visit.log);
  if (standing == visit.readings) return;
  const Context::Scope scope(context, "readings");
  warn(context, fmt::format("{} readings", visit.readings.size()),
       fmt::format("the {} that its log leaves standing", standing.size()),
       fmt::format("The readings of the visit of {} are not those of its log ({} here, {} there): the readings count; "
                   "the page makes them anew with the next entry of that log.",
                   visit.date, visit.readings.size(), standing.size()));
}

}  // namespace duskwire::formats
