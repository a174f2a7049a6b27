// SPDX-License-Identifier: Apache-2.0
#include "formats/deposit_rules_file.hpp"

#include <stdexcept>
#include <utility>

#include "formats/document_head.hpp"
#include "formats/embedded.hpp"
#include "formats/shape_deposit_rules.hpp"
// After the shapes that it reads.
#include "formats/read_shape.hpp"

namespace duskwire::formats {

ReadDepositRules read_deposit_rules(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadDepositRules read;
  if (parsed.tree && read_head(context, *parsed.tree, "duskwire-deposit-rules", "file of rules on deposits")) {
    DepositRules rules;
    read_shape(context, *parsed.tree, rules, {"format", "version", "license"});
    context.look_up();
    read.rules = std::move(rules);
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.rules.reset();
  return read;
}

const DepositRules& embedded_deposit_rules() {
  static const DepositRules rules = [] {
    ReadDepositRules read = read_deposit_rules(embedded_deposit_rules_text());
    if (!read.rules) throw std::logic_error("the rules on deposits of this build are broken");
    return *std::move(read.rules);
  }();
  return rules;
}

}  // namespace duskwire::formats
