// SPDX-License-Identifier: Apache-2.0
// Hands bytes to another program by a file and takes what it prints.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace duskwire::office::testing {

// `command` with {} for the file's name. An empty answer where the program fails.
inline std::string told_by(const std::string& command, const std::string& bytes, const std::string& ending) {
  std::string pattern = (std::filesystem::temp_directory_path() / "duskwire-read-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) return "";
  const std::string file = pattern + "/file" + ending;
  std::ofstream(file, std::ios::binary) << bytes;
  std::string line = command;
  line.replace(line.find("{}"), 2, "'" + file + "'");
  std::string text;
  FILE* pipe = popen(line.c_str(), "r");
  if (pipe == nullptr) return "";
  for (char block[4096]; const std::size_t got = std::fread(block, 1, sizeof block, pipe);) text.append(block, got);
  const int status = pclose(pipe);
  std::filesystem::remove_all(pattern);
  return status == 0 ? text : "";
}

}  // namespace duskwire::office::testing
