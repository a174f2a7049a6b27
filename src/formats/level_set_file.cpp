// SPDX-License-Identifier: Apache-2.0
#include "formats/level_set_file.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "formats/document_head.hpp"
#include "formats/embedded.hpp"
#include "formats/shape_level_set.hpp"
// After the shapes that it reads.
#include "formats/read_shape.hpp"

namespace duskwire::formats {
namespace {

study::LevelSets read_all() {
  study::LevelSets sets;
  for (const std::string_view text : embedded_level_files()) {
    ReadLevelSet read = read_level_set(text);
    if (!read.set) throw std::logic_error("a set of levels of this build is broken");
    sets.push_back(*std::move(read.set));
  }
  std::stable_partition(sets.begin(), sets.end(), [](const study::LevelSet& set) { return set.id == "garden"; });
  return sets;
}

}  // namespace

ReadLevelSet read_level_set(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadLevelSet read;
  if (parsed.tree && read_head(context, *parsed.tree, "duskwire-levels", "set of levels")) {
    study::LevelSet set;
    read_shape(context, *parsed.tree, set, {"format", "version", "license"});
    context.look_up();
    read.set = std::move(set);
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.set.reset();
  return read;
}

const study::LevelSets& embedded_level_sets() {
  static const study::LevelSets sets = read_all();
  return sets;
}

}  // namespace duskwire::formats
