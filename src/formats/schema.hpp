// SPDX-License-Identifier: Apache-2.0
// JSON Schemas (draft 2020-12) of the documents, made from the same shapes that the readers follow. They are published
// in docs/schema; a schema says what can be said of a document's shape, the reader also looks up every reference.
#pragma once

#include <string>

namespace duskwire::formats {

[[nodiscard]] std::string job_schema();
[[nodiscard]] std::string catalogue_schema();
[[nodiscard]] std::string ruleset_schema();

}  // namespace duskwire::formats
