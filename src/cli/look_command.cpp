// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "base/decimal.hpp"
#include "cli/commands.hpp"
#include "cli/photograph_page.hpp"
#include "cli/quantity.hpp"
#include "cli/session.hpp"
#include "formats/first_look_json.hpp"
#include "formats/json_text.hpp"
#include "study/first_look.hpp"

namespace duskwire::cli {
namespace {

std::optional<double> pixels_of(std::string text) {
  if (text.ends_with("px")) text.resize(text.size() - 2);
  const LeadingNumber read = leading_number(text);
  if (read.length == 0 || read.length != text.size() || !(read.value > 0)) return std::nullopt;
  return read.value;
}

// "tree:1480": a name and a length on the photograph.
std::optional<study::SeenThing> thing_of(const std::string& text) {
  const std::size_t colon = text.rfind(':');
  if (colon == std::string::npos || colon == 0) return std::nullopt;
  const auto size_px = pixels_of(text.substr(colon + 1));
  if (!size_px) return std::nullopt;
  return study::SeenThing{text.substr(0, colon), *size_px};
}

Outcome slip(const std::string& sentence) {
  return {exit_bad_input, "", "duskwire look: " + sentence + "\nTry duskwire look --help.\n"};
}

}  // namespace

Outcome look_command(const LookRequest& request, const Common& common, const TextStyle& style) {
  TextStyle own = style;
  own.units = common.units.value_or(job::DisplayUnits::metric);
  study::FirstLookRequest asked;
  // "door:2.03m:410": the last part is on the photograph, the one before it in the garden.
  const auto known = thing_of(request.known);
  const std::size_t colon = known ? known->name.rfind(':') : std::string::npos;
  if (colon == std::string::npos || colon == 0) {
    return slip(
        fmt::format("--known {}: a name, its size and its size on the photograph were expected, such as "
                    "door:2.03m:410px.",
                    request.known));
  }
  const Result<double> known_m = read_length_m(known->name.substr(colon + 1), own.units);
  if (!known_m) return slip(fmt::format("--known {}: {}", request.known, known_m.error().message));
  asked.known = {known->name.substr(0, colon), known->size_px};
  asked.known_m = known_m.value();
  for (const std::string& text : request.things) {
    const auto thing = thing_of(text);
    if (!thing) {
      return slip(
          fmt::format("--thing {}: a name and its size on the photograph were expected, such as tree:1480px.", text));
    }
    asked.things.push_back(*thing);
  }
  asked.note = request.note;
  asked.depth_error_share = request.depth_error_pct / 100;
  const Result<study::FirstLook> look = study::first_look(asked);
  if (!look) return refuse(look.error());
  return {exit_sound,
          common.json ? formats::indented_text(formats::first_look_json(look.value())) + "\n"
                      : look_text(look.value(), own),
          ""};
}

}  // namespace duskwire::cli
