// SPDX-License-Identifier: Apache-2.0
#include "program.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace duskwire::cli {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("no such file: " + path.string());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string new_folder() {
  static std::atomic<int> count = 0;
  const fs::path folder =
      fs::temp_directory_path() / ("duskwire_test_" + std::to_string(::getpid()) + "_" + std::to_string(count++));
  fs::remove_all(folder);
  fs::create_directories(folder / "place");
  fs::create_directory_symlink(fs::path(DUSKWIRE_SOURCE_DIR) / "examples", folder / "place" / "examples");
  return folder.string();
}

}  // namespace

Workplace::Workplace() : folder_(new_folder()) {}
Workplace::~Workplace() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

Ended Workplace::run(const std::string& line, const std::string& input) const {
  const fs::path folder = folder_;
  std::ofstream(folder / "input", std::ios::binary) << input;
  const std::string program_folder = fs::path(DUSKWIRE_PROGRAM).parent_path().string();
  std::ofstream(folder / "line.sh") << "cd '" << (folder / "place").string() << "' || exit 99\n"
                                    << "unset NO_COLOR COLUMNS LC_ALL LC_CTYPE; export LANG=C.UTF-8\n"
                                    << "PATH='" << program_folder << "':$PATH\n"
                                    << line << "\n";
  const std::string base = "'" + folder.string();
  const std::string shell = "sh " + base + "/line.sh' <" + base + "/input' >" + base + "/out' 2>" + base + "/err'";
  const int status = std::system(shell.c_str());
  Ended run;
  run.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  run.text = text_of(folder / "out");
  run.complaint = text_of(folder / "err");
  return run;
}

void Workplace::write(const std::string& name, const std::string& text) const {
  std::ofstream(fs::path(folder_) / "place" / name, std::ios::binary) << text;
}

std::string Workplace::read(const std::string& name) const { return text_of(fs::path(folder_) / "place" / name); }

std::vector<std::string> Workplace::files() const {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(fs::path(folder_) / "place")) {
    if (entry.path().filename() != "examples") names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string project_file(const std::string& path) { return text_of(fs::path(DUSKWIRE_SOURCE_DIR) / path); }

std::vector<std::string> example_jobs() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(fs::path(DUSKWIRE_SOURCE_DIR) / "examples")) {
    if (entry.path().extension() == ".json") names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace duskwire::cli
