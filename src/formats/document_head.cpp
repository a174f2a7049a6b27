// SPDX-License-Identifier: Apache-2.0
#include "formats/document_head.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "job/job.hpp"

namespace duskwire::formats {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 4> known_formats{
    {{"duskwire-job", "job"},
     {"duskwire-catalogue", "catalogue"},
     {"duskwire-ruleset", "ruleset"},
     {"duskwire-levels", "set of levels"}}};

bool read_format(Context& context, const Json& tree, std::string_view format, std::string_view noun) {
  const Context::Scope scope(context, "format");
  const std::string expected = fmt::format("\"{}\"", format);
  const auto found = tree.find("format");
  if (found == tree.end()) {
    context.broken(nullptr, expected,
                   fmt::format("\"format\" is missing: a {} says what it is. If this is one, begin it with \"format\": "
                               "{}, \"version\": {}.",
                               noun, expected, job::format_version));
    return true;  // it may well be one: say what else is wrong
  }
  if (*found == format) return true;
  std::string message = fmt::format("\"format\" is {}, so this is no {} of this program.", shown(*found), noun);
  for (const auto& [other, other_noun] : known_formats) {
    if (*found == other)
      message = fmt::format("This is a {}, where a {} is needed: give the other file.", other_noun, noun);
  }
  context.broken(*found, expected, message);
  return false;
}

bool read_version(Context& context, const Json& tree, std::string_view noun) {
  const Context::Scope scope(context, "version");
  const std::string expected = fmt::format("{}", job::format_version);
  const auto found = tree.find("version");
  if (found == tree.end()) {
    context.broken(nullptr, expected,
                   fmt::format("\"version\" is missing: add \"version\": {} if the {} follows that version of the "
                               "format.",
                               expected, noun));
    return true;
  }
  const bool is_number = found->is_number();
  const double version = is_number ? found->get<double>() : 0;
  if (is_number && version == job::format_version) return true;
  std::string message =
      fmt::format("\"version\" is {}, but takes the whole number {}, without quotes.", shown(*found), expected);
  if (is_number && version > job::format_version) {
    message = fmt::format(
        "This {} is of version {}, made by a newer program; this one reads version {}. Update this "
        "program to open it; nothing in the file was changed.",
        noun, shown(*found), expected);
  } else if (is_number) {
    message = fmt::format(
        "This {} says version {}, which was never published: the first version is {}. If it was "
        "written by hand to docs/job-format.md, set \"version\": {}.",
        noun, shown(*found), expected, expected);
  }
  context.broken(*found, expected, message);
  return false;
}

}  // namespace

bool read_head(Context& context, const Json& tree, std::string_view format, std::string_view noun) {
  if (!tree.is_object()) {
    context.broken(tree, "an object {...}",
                   fmt::format("The document is {}, where a {} is an object {{...}}.", type_words(tree), noun));
    return false;
  }
  const bool format_fits = read_format(context, tree, format, noun);
  const bool version_fits = read_version(context, tree, noun);
  return format_fits && version_fits;
}

}  // namespace duskwire::formats
