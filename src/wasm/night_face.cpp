// SPDX-License-Identifier: Apache-2.0
#include "wasm/night_face.hpp"

#include <emscripten.h>

#include <cstddef>
#include <cstdint>
#include <utility>

#include "formats/job_reader.hpp"
#include "formats/json_text.hpp"
#include "formats/night_json.hpp"
#include "study/night_session.hpp"
#include "wasm/kept_document.hpp"

namespace duskwire::wasm {
namespace {

study::NightSession& session() {
  static study::NightSession kept;
  return kept;
}

// Where the page writes a photograph.
struct Intake {
  std::uint32_t width_px = 0;
  std::uint32_t height_px = 0;
  std::vector<std::uint8_t> rgba;
};

Intake& intake() {
  static Intake kept;
  return kept;
}

void take_photograph() {
  Intake& in = intake();
  light::Photograph photograph{in.width_px, in.height_px, {}};
  photograph.rgb.resize(in.rgba.size() / 4 * 3);
  for (std::size_t i = 0; i < in.rgba.size() / 4; ++i) {
    for (std::size_t c = 0; c < 3; ++c) photograph.rgb[3 * i + c] = in.rgba[4 * i + c];
  }
  session().give(std::move(photograph));
  in = {};
}

KeptDocument& kept() {
  static KeptDocument document;
  return document;
}

Reply picture_of(const formats::ReadJob& read, std::string_view wish) {
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_night_wish(wish);
  if (!asked.request) return refuse_input("What is asked of the night", asked.problems);
  const Result<study::NightFacts> made = session().picture(*read.job, *asked.request);
  if (!made) return refuse(made.error());
  return {false, formats::compact_text(formats::night_facts_json(made.value()))};
}

}  // namespace

Reply night_picture(const std::vector<std::string_view>& given) {
  const formats::ParsedText parsed = kept().keep(given[0]);
  // What is wrong with the text itself is told by the reader of texts.
  if (!parsed.tree || !parsed.problems.empty()) return picture_of(formats::read_job_leniently(given[0]), given[1]);
  return picture_of(formats::read_job_tree_leniently(*parsed.tree), given[1]);
}

Reply night_changed(const std::vector<std::string_view>& given) {
  const Result<const formats::Json*> tree = kept().change(given[0]);
  if (!tree) return refuse(tree.error());
  return picture_of(formats::read_job_tree_leniently(*tree.value()), given[1]);
}

Reply night_probe(const std::vector<std::string_view>& given) {
  const formats::ParsedText parsed = formats::parse_text(given[0]);
  const bool is_place = parsed.tree && parsed.tree->is_array() && parsed.tree->size() == 2 &&
                        parsed.tree->at(0).is_number() && parsed.tree->at(1).is_number();
  if (!is_place) return refuse({ErrorCode::invalid, "A place on the picture is [x, y] in picture elements."});
  const Result<study::NightProbe> found =
      session().probe(parsed.tree->at(0).get<double>(), parsed.tree->at(1).get<double>());
  if (!found) return refuse(found.error());
  return {false, formats::compact_text(formats::night_probe_json(found.value()))};
}

}  // namespace duskwire::wasm

extern "C" {

// Room for a photograph as RGBA: the caller writes it there, then calls duskwire_night_take.
EMSCRIPTEN_KEEPALIVE std::uint8_t* duskwire_night_room(std::uint32_t width_px, std::uint32_t height_px) {
  auto& in = duskwire::wasm::intake();
  in.width_px = width_px;
  in.height_px = height_px;
  in.rgba.assign(std::size_t{4} * width_px * height_px, 0);
  return in.rgba.data();
}

EMSCRIPTEN_KEEPALIVE void duskwire_night_take() { duskwire::wasm::take_photograph(); }

// RGBA of the last picture, of the photograph's size; stays until the next call.
EMSCRIPTEN_KEEPALIVE const std::uint8_t* duskwire_night_rgba() { return duskwire::wasm::session().rgba().data(); }
EMSCRIPTEN_KEEPALIVE std::size_t duskwire_night_bytes() { return duskwire::wasm::session().rgba().size(); }
}
