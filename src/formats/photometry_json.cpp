// SPDX-License-Identifier: Apache-2.0
#include "formats/photometry_json.hpp"

#include "formats/problems_json.hpp"
#include "formats/result_photometry.hpp"
#include "formats/shape_catalogue.hpp"
#include "formats/write_result.hpp"
// After the shapes that it reads.
#include "formats/read_shape.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<PhotometryRequest>) { return "photometry request"; }

template <class Visitor>
void describe(Of<PhotometryRequest>, Visitor& v) {
  using T = PhotometryRequest;
  v.field("file", &T::file, Text{longest_intensity_file}, optional, "Text of an LM-63 or EULUMDAT file");
  v.field("lm63", &T::lm63, Flag{}, optional, "Also the light as an LM-63 file");
}

ReadRequest<PhotometryRequest> read_photometry_request(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadRequest<PhotometryRequest> read;
  if (parsed.tree) {
    PhotometryRequest& request = read.request.emplace();
    read_shape(context, *parsed.tree, request, {"item"});
    if (parsed.tree->is_object() && parsed.tree->contains("item")) {
      const Context::Scope scope(context, "item");
      read_part(context, (*parsed.tree)["item"], request.item.emplace());
    }
    if (request.file.empty() && !request.item) {
      context.report(Severity::error, "", "\"file\" or \"item\"",
                     "There is nothing to look at: give a file or an item.");
    }
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.request.reset();
  return read;
}

study::PhotometryAnswer answer_photometry(const PhotometryRequest& request) {
  if (!request.item) return study::photometry_of_file(request.file, request.lm63);
  job::LuminaireItem item = *request.item;
  if (!request.file.empty()) item.intensity_file = request.file;
  return study::photometry_of_item(item, request.lm63);
}

Json photometry_json(const study::PhotometryAnswer& answer) {
  Json out = {{"findings", problems_json(answer.findings)}};
  if (answer.report) out["report"] = result_json(*answer.report);
  if (!answer.lm63.empty()) out["lm63"] = answer.lm63;
  return out;
}

}  // namespace duskwire::formats
