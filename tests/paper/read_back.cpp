// SPDX-License-Identifier: Apache-2.0
#include "read_back.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

namespace duskwire::paper {
namespace {

std::string whole(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

PaperFile::PaperFile(const std::string& bytes) {
  std::string pattern = (std::filesystem::temp_directory_path() / "paper-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder for a paper under test");
  folder_ = pattern;
  path_ = folder_ + "/paper.pdf";
  std::ofstream(path_, std::ios::binary) << bytes;
}

PaperFile::~PaperFile() { std::filesystem::remove_all(folder_); }

std::string PaperFile::told(const std::string& program, const std::string& behind) const {
  const std::string out = folder_ + "/said";
  const std::string line = program + " " + path_ + " " + behind + " >" + out + " 2>&1";
  const int status = std::system(line.c_str());
  return whole(out) + (status == 0 ? "" : "\n[the program failed: " + program + "]");
}

PaperFile::Painted PaperFile::painted(int page, double dots_per_inch) const {
  std::ostringstream program;
  program << "pdftoppm -gray -r " << dots_per_inch << " -singlefile -f " << page;
  const std::string said = told(program.str(), folder_ + "/page");
  std::istringstream file(whole(folder_ + "/page.pgm"));
  std::string kind;
  int most = 0;
  Painted out;
  file >> kind >> out.width_px >> out.height_px >> most;
  file.get();
  if (kind != "P5") throw std::runtime_error("poppler painted nothing: " + said);
  out.grey.resize(static_cast<std::size_t>(out.width_px) * static_cast<std::size_t>(out.height_px));
  file.read(reinterpret_cast<char*>(out.grey.data()), static_cast<std::streamsize>(out.grey.size()));
  return out;
}

std::string on_one_line(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t' || c == '\f';
    if (!blank) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  return out;
}

}  // namespace duskwire::paper
