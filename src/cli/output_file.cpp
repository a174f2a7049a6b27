// SPDX-License-Identifier: Apache-2.0
#include "cli/output_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string_view>

namespace duskwire::cli {
namespace {

Error refused(const std::string& what, const std::string& path, int reason) {
  return {ErrorCode::unavailable, fmt::format("{} \"{}\": {}.", what, path, std::strerror(reason))};
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ > 2) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int number() const { return number_; }

 private:
  int number_;
};

bool write_all(int number, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(number, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return ::fsync(number) == 0;
}

bool is_taken(const std::string& path) {
  struct stat existing {};
  return ::lstat(path.c_str(), &existing) == 0;
}

Error taken(const std::string& path) {
  return {ErrorCode::conflict,
          fmt::format("\"{}\" exists already and was left alone. Choose another name, or add --force.", path)};
}

// Puts the finished file under its name. A hard link fails if the name is taken, which no check beforehand can promise.
int settle(const std::string& temporary, const std::string& path, bool replace) {
  if (replace) return ::rename(temporary.c_str(), path.c_str()) == 0 ? 0 : errno;
  if (::link(temporary.c_str(), path.c_str()) == 0) {
    ::unlink(temporary.c_str());
    return 0;
  }
  const bool no_links = errno == EPERM || errno == EOPNOTSUPP;  // some memory cards and network disks
  if (!no_links) return errno;
  return ::rename(temporary.c_str(), path.c_str()) == 0 ? 0 : errno;
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t most_bytes) {
  const Descriptor file(path == "-" ? 0 : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.number() < 0) return refused("Cannot read", path, errno);
  std::string text;
  std::array<char, 65536> block{};
  while (true) {
    const ssize_t got = ::read(file.number(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return refused("Cannot read", path, errno);
    if (got == 0) return text;
    text.append(block.data(), static_cast<std::size_t>(got));
    if (text.size() > most_bytes) {
      return Error{ErrorCode::unsupported,
                   fmt::format("\"{}\" is larger than {} MB: not a job file of duskwire.", path, most_bytes >> 20u)};
    }
  }
}

Result<bool> may_write(const std::string& path, bool replace) {
  if (!replace && is_taken(path)) return taken(path);
  const std::size_t slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
  if (::access(folder.c_str(), W_OK | X_OK) != 0) return refused("Cannot write", path, errno);
  return true;
}

Result<bool> write_files(const std::vector<WrittenFile>& files, bool replace) {
  std::vector<std::string> temporary;
  const auto clear = [&](Error error) {
    for (const std::string& path : temporary) ::unlink(path.c_str());
    return error;
  };
  for (const WrittenFile& file : files) {
    if (!replace && is_taken(file.path)) return clear(taken(file.path));
    const std::size_t slash = file.path.rfind('/');
    if (slash != std::string::npos && slash > 0) {
      const std::string folder = file.path.substr(0, slash);
      if (::mkdir(folder.c_str(), 0777) != 0 && errno != EEXIST) return clear(refused("Cannot make", folder, errno));
    }
    temporary.push_back(fmt::format("{}.{}.part", file.path, ::getpid()));
    const Descriptor open_file(::open(temporary.back().c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (open_file.number() < 0) {
      const int reason = errno;
      temporary.pop_back();
      return clear(refused("Cannot write", file.path, reason));
    }
    if (!write_all(open_file.number(), file.bytes)) return clear(refused("Cannot write", file.path, errno));
  }
  std::vector<std::string> settled;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const int reason = settle(temporary[i], files[i].path, replace);
    if (reason == 0) {
      settled.push_back(files[i].path);
      continue;
    }
    // Only those that were new are taken back: what was replaced is gone either way.
    if (!replace) {
      for (const std::string& path : settled) ::unlink(path.c_str());
    }
    return clear(reason == EEXIST ? taken(files[i].path) : refused("Cannot write", files[i].path, reason));
  }
  return true;
}

Result<bool> write_file(const std::string& path, const std::string& text, bool replace) {
  if (!replace && is_taken(path)) return taken(path);
  const std::string temporary = fmt::format("{}.{}.part", path, ::getpid());
  const Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (file.number() < 0) return refused("Cannot write", path, errno);
  int reason = write_all(file.number(), text) ? 0 : errno;
  if (reason == 0) reason = settle(temporary, path, replace);
  if (reason != 0) {
    ::unlink(temporary.c_str());
    return refused("Cannot write", path, reason);
  }
  return true;
}

}  // namespace duskwire::cli
