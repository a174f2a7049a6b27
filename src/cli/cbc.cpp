// SPDX-License-Identifier: Apache-2.0
#include "cli/cbc.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace duskwire::cli {
namespace {

// Files of one solve, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "duskwire-exact-XXXXXX").string();
    if (mkdtemp(pattern.data()) != nullptr) path_ = pattern;
  }
  ~Folder() {
    std::error_code ignored;
    if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] bool exists() const { return !path_.empty(); }
  [[nodiscard]] std::string file(const char* name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

std::string content_of(const std::string& path) {
  std::ifstream in(path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// Whether it ran and ended well; what it prints goes to a file.
bool runs(std::vector<std::string> words, const std::string& printed_to) {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  const pid_t child = fork();
  if (child < 0) return false;
  if (child == 0) {
    const int out = open(printed_to.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (out < 0 || dup2(out, STDOUT_FILENO) < 0 || dup2(out, STDERR_FILENO) < 0) _exit(127);
    execvp(arguments.front(), arguments.data());
    _exit(127);
  }
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
    if (errno != EINTR) return false;
  }
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace

std::optional<wiring::ProgramAnswer> solve_with_cbc(const wiring::LinearProgram& program,
                                                    const wiring::SolveOptions& options) {
  const Folder folder;
  if (!folder.exists()) return std::nullopt;
  std::ofstream(folder.file("model.lp")) << program.text();
  std::vector<std::string> words{"cbc",      folder.file("model.lp"),
                                 "ratioGap", fmt::format("{}", options.tolerance),
                                 "seconds",  fmt::format("{}", options.seconds)};
  if (options.by_the_clock) words.insert(words.end(), {"timeMode", "elapsed"});
  // Where an answer is known, looking for others by rules of thumb takes longer than the proof.
  if (options.known_answer)
    words.insert(words.end(), {"heuristicsOnOff", "off", "cutoff", fmt::format("{}", *options.known_answer)});
  words.insert(words.end(), {"solve", "solution", folder.file("solution.txt")});
  if (!runs(words, folder.file("printed.txt"))) return std::nullopt;
  return wiring::read_program_answer(content_of(folder.file("solution.txt")), content_of(folder.file("printed.txt")),
                                     options);
}

}  // namespace duskwire::cli
