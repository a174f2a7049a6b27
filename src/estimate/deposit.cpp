// SPDX-License-Identifier: Apache-2.0
#include "estimate/deposit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/currency.hpp"
#include "base/nearest.hpp"
#include "estimate/money.hpp"

namespace duskwire::estimate {
namespace {

std::string money_words(std::int64_t minor, const std::string& currency) {
  return fmt::format("{} {}", decimal_amount(minor, currency), currency);
}

// The smallest of several limits, with its words; empty while none was given.
class Lowest {
 public:
  void take(std::int64_t minor, std::string words) {
    if (!reason_.empty() && minor >= minor_) return;
    minor_ = minor;
    reason_ = std::move(words);
  }
  [[nodiscard]] bool is_given() const { return !reason_.empty(); }
  [[nodiscard]] std::int64_t minor() const { return minor_; }
  [[nodiscard]] const std::string& reason() const { return reason_; }

 private:
  std::int64_t minor_ = 0;
  std::string reason_;
};

const DepositRule* find_rule(const std::string& id, const std::vector<DepositRule>& rules, Problems& problems) {
  if (id.empty()) return nullptr;
  std::vector<std::string> known;
  for (const DepositRule& rule : rules) {
    if (rule.id == id) return &rule;
    known.push_back(rule.id);
  }
  const std::string near = nearest(id, known);
  problems.push_back({Severity::warning, "/offer/terms/deposit_rule", id, "id of a rule on deposits",
                      fmt::format("There is no rule on deposits \"{}\", so no rule limits the deposit.{}", id,
                                  near.empty() ? "" : fmt::format(" Did you mean {}?", near))});
  return nullptr;
}

void limit_by_rule(const DepositRule& rule, std::int64_t total_minor, const std::string& currency, Lowest& lowest,
                   Problems& problems) {
  if (rule.most_pct) {
    lowest.take(share_minor(total_minor, *rule.most_pct).value_or(0),
                fmt::format("the rule allows {:g} % of the price", *rule.most_pct));
  }
  if (!rule.most_minor) return;
  if (rule.currency != currency) {
    problems.push_back({Severity::warning, "/offer/terms/deposit_rule", rule.id, "a rule in the site's currency",
                        fmt::format("The rule \"{}\" names an amount in {}, the job is in {}: only its share is used.",
                                    rule.title, rule.currency, currency)});
    return;
  }
  lowest.take(*rule.most_minor, fmt::format("the rule allows {}", money_words(*rule.most_minor, currency)));
}

}  // namespace

std::optional<Deposit> deposit_of(const job::Terms& terms, const std::vector<DepositRule>& rules,
                                  std::int64_t total_minor, const std::string& currency, Problems& problems) {
  const std::int64_t price_minor = std::max<std::int64_t>(0, total_minor);
  Lowest lowest;
  if (terms.deposit_pct) {
    lowest.take(share_minor(price_minor, *terms.deposit_pct).value_or(0),
                fmt::format("the offer asks {:g} % of the price", *terms.deposit_pct));
  }
  Deposit deposit;
  if (const DepositRule* rule = find_rule(terms.deposit_rule, rules, problems)) {
    limit_by_rule(*rule, price_minor, currency, lowest, problems);
    deposit.rule = rule->id;
    deposit.title = rule->title;
    deposit.status = rule->status;
  }
  if (!lowest.is_given()) return std::nullopt;
  if (terms.deposit_cap_minor) {
    lowest.take(*terms.deposit_cap_minor,
                fmt::format("the offer asks {} at most", money_words(*terms.deposit_cap_minor, currency)));
  }
  deposit.amount_minor = std::min(lowest.minor(), price_minor);
  deposit.reason = fmt::format("{}: {}.", money_words(deposit.amount_minor, currency), lowest.reason());
  return deposit;
}

}  // namespace duskwire::estimate
