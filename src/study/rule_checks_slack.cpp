// SPDX-License-Identifier: Apache-2.0
// Rule check of the loose cable left at each end: what lets a fixture be lifted and a splice be made again.
#include <fmt/format.h>

#include <algorithm>

#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

struct EndNames {
  const char* key;  // in the rule's table
  const char* words;
};

EndNames names_of(estimate::EndKind kind) {
  switch (kind) {
    case estimate::EndKind::luminaire:
      return {"luminaire", "fixture"};
    case estimate::EndKind::joint:
      return {"splice", "splice"};
    case estimate::EndKind::output:
      return {"transformer", "transformer output"};
    case estimate::EndKind::unknown:
      break;
  }
  return {"", ""};
}

double usual_slack_m(const job::Practice& practice, estimate::EndKind kind) {
  switch (kind) {
    case estimate::EndKind::luminaire:
      return practice.slack_at_luminaire_m;
    case estimate::EndKind::joint:
      return practice.slack_at_splice_m;
    default:
      return practice.slack_at_transformer_m;
  }
}

std::string message(const std::string& what, const std::string& where, const WordedPair& lengths, double slack_m) {
  const std::string has = slack_m > 0 ? fmt::format("only {} of", lengths.measured) : "no";
  return fmt::format("{} has {} loose cable at {}; leave at least {}, laid as a loose S.", what, has, where,
                     lengths.limit);
}

class SlackCheck {
 public:
  SlackCheck(const RuleContext& context, const Rule& rule) : context_(context), rule_(rule) {}

  Findings run() {
    for (std::size_t c = 0; c < context_.job.cables.size(); ++c) {
      const job::Cable& cable = context_.job.cables[c];
      cable_end(c, "from", cable.from, estimate::slack_at_from_m(context_.job, context_.ends, cable));
      cable_end(c, "to", cable.to, estimate::slack_at_to_m(context_.job, context_.ends, cable));
    }
    for (std::size_t l = 0; l < context_.job.luminaires.size(); ++l) lead(l);
    return std::move(findings_);
  }

 private:
  std::optional<double> limit_m(estimate::EndKind kind) const {
    const std::map<std::string, double>& limits = table(rule_, "slack_m");
    const auto found = limits.find(names_of(kind).key);
    return found == limits.end() ? std::nullopt : std::optional<double>(found->second);
  }

  void cable_end(std::size_t index, const char* end, const std::string& end_id, double slack_m) {
    const estimate::EndKind kind = context_.ends.find(end_id).kind;
    const std::optional<double> least_m = limit_m(kind);
    if (!least_m || !exceeds(*least_m, slack_m)) return;
    const job::Cable& cable = context_.job.cables[index];
    const WordedPair lengths = worded_apart(slack_m, *least_m, depth_unit(context_.units()));
    Finding finding =
        finding_of(context_, rule_, place_of("cables", index, cable.id), {slack_m, *least_m, "m"},
                   message("Cable " + cable.id, fmt::format("{} {}", names_of(kind).words, end_id), lengths, slack_m));
    const double wanted_m = std::max(*least_m, usual_slack_m(context_.job.practice, kind));
    job::Change longer = change(job::ChangeKind::set_slack, cable.id, std::string(end));
    longer.number = wanted_m;
    finding.cures.push_back({fmt::format("Leave {} there and cut the cable that much longer.",
                                         worded(wanted_m, depth_unit(context_.units()))),
                             {longer}});
    findings_.push_back(std::move(finding));
  }

  // A fixture that hangs on its own lead keeps the loose part of that lead.
  void lead(std::size_t index) {
    const job::Luminaire& luminaire = context_.job.luminaires[index];
    const std::optional<double> least_m = limit_m(estimate::EndKind::luminaire);
    const double slack_m = luminaire.slack_m.value_or(context_.job.practice.slack_at_luminaire_m);
    if (luminaire.joint.empty() || !least_m || !exceeds(*least_m, slack_m)) return;
    const WordedPair lengths = worded_apart(slack_m, *least_m, depth_unit(context_.units()));
    findings_.push_back(finding_of(context_, rule_, place_of("luminaires", index, luminaire.id),
                                   {slack_m, *least_m, "m"},
                                   message(called(luminaire.id, luminaire.name), "the fixture", lengths, slack_m)));
  }

  const RuleContext& context_;
  const Rule& rule_;
  Findings findings_;
};

}  // namespace

Findings check_slack(const RuleContext& context, const Rule& rule) { return SlackCheck(context, rule).run(); }

}  // namespace duskwire::study
