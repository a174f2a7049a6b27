// SPDX-License-Identifier: Apache-2.0
#include "formats/catalogue_file.hpp"

#include "formats/document_head.hpp"
#include "formats/parts.hpp"
#include "formats/read_value.hpp"
#include "formats/shape_catalogue.hpp"
#include "formats/write_shape.hpp"

namespace duskwire::formats {
namespace {

constexpr Texts removals{{longest_id, Form::name}, 10'000};

}  // namespace

ReadCatalogue read_catalogue(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadCatalogue read;
  if (parsed.tree && read_head(context, *parsed.tree, "duskwire-catalogue", "catalogue")) {
    job::Catalogue catalogue;
    read_catalogue_body(context, *parsed.tree, catalogue);
    if (const auto remove = parsed.tree->find("remove"); remove != parsed.tree->end()) {
      const Context::Scope scope(context, "remove");
      read_value(context, *remove, read.remove, removals, {"remove", optional, "ids of stock items not carried"});
    }
    read.catalogue = std::move(catalogue);
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.catalogue.reset();
  return read;
}

std::string write_catalogue(const job::Catalogue& catalogue, const std::vector<std::string>& remove) {
  Json document = {{"format", "duskwire-catalogue"}, {"version", job::format_version}};
  write_shape(catalogue, document);
  if (!remove.empty()) document["remove"] = remove;
  return indented_text(document) + "\n";
}

}  // namespace duskwire::formats
