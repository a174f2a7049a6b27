// SPDX-License-Identifier: Apache-2.0
#include "store/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace duskwire::store {
namespace {

bool sync(const std::string& path, int flags) {
  const int handle = ::open(path.c_str(), flags | O_CLOEXEC);
  if (handle < 0) return false;
  const bool synced = ::fsync(handle) == 0;
  return ::close(handle) == 0 && synced;
}

// From the file to the disk and its entry to the folder: SQLite does so for its logs, not for the file itself.
bool sync_folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return sync(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY);
}

}  // namespace

bool make_private(const std::string& path) {
  const bool is_new = ::access(path.c_str(), F_OK) != 0;
  const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, S_IRUSR | S_IWUSR);
  return file >= 0 && ::close(file) == 0 && (!is_new || sync_folder_of(path));
}

std::string read_bytes(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

bool write_bytes(const std::string& path, const std::string& bytes) {
  if (!make_private(path)) return false;
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  return (file << bytes) && file.flush();
}

bool sync_file(const std::string& path) { return sync(path, O_RDWR); }

bool put_in_place(const std::string& path, const std::string& name) {
  return ::access(name.c_str(), F_OK) != 0 && ::rename(path.c_str(), name.c_str()) == 0 && sync_folder_of(name);
}

void remove_workspace(const std::string& path) {
  std::error_code ignored;
  for (const char* ending : {"", "-wal", "-shm", "-journal"}) std::filesystem::remove(path + ending, ignored);
}

}  // namespace duskwire::store
