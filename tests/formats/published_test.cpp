// SPDX-License-Identifier: Apache-2.0
// What is published in docs/ is what the program follows. Where this fails, run the program write_shapes
// (tests/schema).
#include <gtest/gtest.h>

#include "formats/documents.hpp"
#include "formats/schema.hpp"
#include "formats/shape_tables.hpp"

namespace duskwire::formats {
namespace {

TEST(Published, SchemasAreUpToDate) {
  EXPECT_EQ(project_file("docs/schema/job-v1.schema.json"), job_schema());
  EXPECT_EQ(project_file("docs/schema/catalogue-v1.schema.json"), catalogue_schema());
  EXPECT_EQ(project_file("docs/schema/ruleset-v1.schema.json"), ruleset_schema());
}

TEST(Published, TablesAreUpToDate) {
  for (const char* page : {"docs/job-format.md", "docs/results.md"}) {
    const std::string text = project_file(page);
    EXPECT_EQ(with_tables(text), text) << page;
  }
}

TEST(Published, EveryShapeOfAJobHasItsTable) {
  const std::string page = project_file("docs/job-format.md");
  const Json schema = Json::parse(job_schema());
  for (const auto& [name, shape] : schema["$defs"].items()) {
    const std::size_t at = page.find("<!-- table " + name + " -->\n| name | type |");
    EXPECT_NE(at, std::string::npos) << name;
    const std::string table = page.substr(at, page.find("<!-- end -->", at) - at);
    for (const auto& [key, property] : shape["properties"].items()) {
      EXPECT_NE(table.find("| `" + key + "` |"), std::string::npos) << name << " " << key;
    }
  }
}

TEST(Published, AnUnknownTableLeavesItsPlaceEmpty) {
  EXPECT_EQ(with_tables("a <!-- table nothing -->\nold\n<!-- end --> b"), "a <!-- table nothing -->\n<!-- end --> b");
  EXPECT_EQ(with_tables("no table"), "no table");
}

}  // namespace
}  // namespace duskwire::formats
