// SPDX-License-Identifier: Apache-2.0
// Says of each file whether the program's own reader takes it: judge_documents FILE... One line a file, "taken" or
// "refused" and, as JSON, the problems. Which reader is told by the document's "format".
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "formats/catalogue_file.hpp"
#include "formats/job_reader.hpp"
#include "formats/problems_json.hpp"
#include "formats/ruleset_file.hpp"

namespace {

std::string read(const char* file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

duskwire::Problems problems_of(const std::string& text) {
  if (text.find("duskwire-catalogue") != std::string::npos) return duskwire::formats::read_catalogue(text).problems;
  if (text.find("duskwire-ruleset") != std::string::npos) return duskwire::formats::read_ruleset(text).problems;
  return duskwire::formats::read_job(text).problems;
}

}  // namespace

int main(int count, char** words) {
  for (int i = 1; i < count; ++i) {
    const duskwire::Problems problems = problems_of(read(words[i]));
    std::cout << (duskwire::has_errors(problems) ? "refused " : "taken ")
              << duskwire::formats::compact_text(duskwire::formats::problems_json(problems)) << "\n";
  }
}
