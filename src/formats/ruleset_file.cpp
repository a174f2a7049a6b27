// SPDX-License-Identifier: Apache-2.0
#include "formats/ruleset_file.hpp"

#include "formats/document_head.hpp"
#include "formats/read_shape.hpp"
#include "formats/shape_ruleset.hpp"

namespace duskwire::formats {

ReadRuleset read_ruleset(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadRuleset read;
  if (parsed.tree && read_head(context, *parsed.tree, "duskwire-ruleset", "ruleset")) {
    study::Ruleset ruleset;
    read_shape(context, *parsed.tree, ruleset, {"format", "version"});
    context.look_up();
    read.ruleset = std::move(ruleset);
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.ruleset.reset();
  return read;
}

}  // namespace duskwire::formats
