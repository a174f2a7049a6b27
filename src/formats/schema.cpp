// SPDX-License-Identifier: Apache-2.0
// The three published schemas.
#include "formats/schema.hpp"

#include "formats/schema_builder.hpp"
#include "formats/shape_job.hpp"
#include "formats/shape_ruleset.hpp"

namespace duskwire::formats {
namespace {

// A document is a shape with a head that says which document it is.
template <class T>
Json document(const char* format, const char* title, SchemaBuilder& builder) {
  builder.add<T>();
  Json body = builder.defs()[type_name(Of<T>{})];
  builder.defs().erase(type_name(Of<T>{}));
  Json properties = {{"format", {{"const", format}, {"description", "What the document is"}}},
                     {"version", {{"const", job::format_version}, {"description", "Version of its format"}}}};
  for (const auto& [key, value] : body["properties"].items()) properties[key] = value;
  Json names = {"format", "version"};
  for (const Json& name : body.value("required", Json::array())) names.push_back(name);
  return {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
          {"$id", std::string("urn:duskwire:") + format + ":1"},
          {"title", title},
          {"type", "object"},
          {"properties", properties},
          {"required", names},
          {"$defs", builder.defs()}};
}

}  // namespace

std::string job_schema() {
  SchemaBuilder builder;
  return indented_text(
             document<job::Job>("duskwire-job", "A job: one garden's low-voltage lighting over its life", builder)) +
         "\n";
}

std::string catalogue_schema() {
  SchemaBuilder builder;
  Json schema = document<job::Catalogue>("duskwire-catalogue", "A catalogue: stock, or a shop's own over it", builder);
  schema["properties"]["remove"] = {{"type", "array"},
                                    {"items", text_schema({longest_id, Form::name}, false)},
                                    {"maxItems", 10'000},
                                    {"description", "A shop's file: ids of stock items that the shop does not carry"}};
  return indented_text(schema) + "\n";
}

std::string ruleset_schema() {
  SchemaBuilder builder;
  return indented_text(document<study::Ruleset>("duskwire-ruleset",
                                                "A ruleset: limits of one region and where each comes from", builder)) +
         "\n";
}

}  // namespace duskwire::formats
