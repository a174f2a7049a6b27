// SPDX-License-Identifier: Apache-2.0
// Makes the published schemas and tables anew from the shapes: write_shapes PROJECT_FOLDER. test_formats says when that
// is due.
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "formats/schema.hpp"
#include "formats/shape_tables.hpp"

namespace {

std::string read(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

bool write(const std::string& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  if (!out.flush()) std::cerr << file << " cannot be written\n";
  return static_cast<bool>(out);
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "write_shapes PROJECT_FOLDER\n";
    return 2;
  }
  const std::string docs = std::string(words[1]) + "/docs/";
  bool good = write(docs + "schema/job-v1.schema.json", duskwire::formats::job_schema());
  good &= write(docs + "schema/catalogue-v1.schema.json", duskwire::formats::catalogue_schema());
  good &= write(docs + "schema/ruleset-v1.schema.json", duskwire::formats::ruleset_schema());
  for (const char* page : {"job-format.md", "results.md"}) {
    good &= write(docs + page, duskwire::formats::with_tables(read(docs + page)));
  }
  return good ? 0 : 1;
}
