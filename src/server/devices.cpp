// SPDX-License-Identifier: Apache-2.0
#include "server/devices.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "formats/json_text.hpp"
#include "server/body.hpp"
#include "server/secrets.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

constexpr const char* file_format = "duskwire-devices";

Error unwritable() {
  const bool full = errno == ENOSPC || errno == EDQUOT;
  return {full ? ErrorCode::no_room : ErrorCode::unavailable,
          "The list of paired devices beside the workspace cannot be written; nothing was changed. Look whether its "
          "folder may be written and has room."};
}

// An open file, closed at the end of its block.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int get() const { return number_; }

 private:
  int number_;
};

int folder_of(const std::string& file) {
  const std::string folder = std::filesystem::path(file).parent_path().string();
  return ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

// Whole or not at all, and for nobody but the owner.
Result<bool> write_whole(const std::string& file, const std::string& text, int folder) {
  const std::string fresh = file + "-new";
  ::unlink(fresh.c_str());
  {
    const Descriptor out(::open(fresh.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600));
    if (out.get() < 0 || ::write(out.get(), text.data(), text.size()) != static_cast<ssize_t>(text.size()) ||
        ::fsync(out.get()) != 0) {
      return unwritable();
    }
  }
  if (::rename(fresh.c_str(), file.c_str()) != 0 || ::fsync(folder) != 0) return unwritable();
  return true;
}

}  // namespace

Devices::Devices(Devices&& other) noexcept
    : file_(std::move(other.file_)), seen_(other.seen_), listed_(std::move(other.listed_)) {}

Result<Devices> Devices::open(const std::string& workspace_file) {
  Devices devices(workspace_file + "-devices");
  const Result<bool> read = devices.refresh();
  if (!read) return read.error();
  return devices;
}

Devices::Stamp Devices::stamp() const {
  struct stat found {};
  if (::stat(file_.c_str(), &found) != 0) return {};
  return {static_cast<std::int64_t>(found.st_ino), found.st_size,
          found.st_mtim.tv_sec * 1'000'000'000 + found.st_mtim.tv_nsec};
}

Result<bool> Devices::refresh() {
  const Stamp now = stamp();
  if (now == seen_) return true;
  listed_ = {};
  seen_ = {};
  if (now.inode == 0) return true;
  std::ifstream in(file_, std::ios::binary);
  if (!in) {
    return Error{ErrorCode::unavailable, "The list of paired devices beside the workspace cannot be read."};
  }
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const formats::ParsedText parsed = formats::parse_text(text);
  if (!parsed.tree || text_at(*parsed.tree, {"format"}) != file_format || !parsed.tree->contains("devices") ||
      !(*parsed.tree)["devices"].is_array()) {
    return Error{
        ErrorCode::invalid,
        "The file of paired devices beside the workspace is damaged: no phone is let in. Take it away and pair "
        "the phones anew."};
  }
  listed_.server = text_at(*parsed.tree, {"server"});
  for (const Json& row : (*parsed.tree)["devices"]) {
    listed_.devices.push_back(
        {text_at(row, {"id"}), text_at(row, {"name"}), text_at(row, {"paired"}), text_at(row, {"secret_sha256"})});
  }
  seen_ = now;
  return true;
}

Result<bool> Devices::write() {
  Json tree;
  tree["format"] = file_format;
  tree["version"] = 1;
  tree["server"] = listed_.server;
  tree["devices"] = Json::array();
  for (const Device& device : listed_.devices) {
    Json row;
    row["id"] = device.id;
    row["name"] = device.name;
    row["paired"] = device.paired;
    row["secret_sha256"] = device.secret_sha256;
    tree["devices"].push_back(std::move(row));
  }
  const Descriptor folder(folder_of(file_));
  const Result<bool> written = write_whole(file_, formats::compact_text(tree) + "\n", folder.get());
  seen_ = {};  // whatever is there now is read anew
  return written;
}

// Two programs may change the list at once: one after the other, each on what the other left. The folder is what both
// can lock, as the file itself is replaced.
template <class Change>
auto Devices::change(Change&& make) -> decltype(make()) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const Descriptor folder(folder_of(file_));
  if (folder.get() < 0 || ::flock(folder.get(), LOCK_EX) != 0) return unwritable();
  const Result<bool> read = refresh();
  if (!read) return read.error();
  return make();
}

Result<std::string> Devices::fingerprint() {
  return change([this]() -> Result<std::string> {
    if (listed_.server.empty()) {
      listed_.server = random_secret();
      const std::string server = listed_.server;
      const Result<bool> written = write();
      if (!written) return written.error();
      return store::sha256_hex(server).substr(0, 32);
    }
    return store::sha256_hex(listed_.server).substr(0, 32);
  });
}

Result<std::vector<Device>> Devices::all() {
  const std::lock_guard<std::mutex> lock(mutex_);
  const Result<bool> read = refresh();
  if (!read) return read.error();
  return listed_.devices;
}

Result<std::string> Devices::add(const std::string& name, const std::string& now_utc) {
  return change([&]() -> Result<std::string> {
    if (listed_.devices.size() >= most_devices) {
      return Error{ErrorCode::conflict, fmt::format("{} devices are paired already, and no more are taken. Forget one "
                                                    "first: duskwire devices WORKSPACE --forget ID.",
                                                    most_devices)};
    }
    const std::string id = fmt::format("phone-{:08x}", random_number());
    const std::string secret = random_secret();
    if (listed_.server.empty()) listed_.server = random_secret();
    listed_.devices.push_back({id, name, now_utc, store::sha256_hex(secret)});
    const Result<bool> written = write();
    if (!written) return written.error();
    return id + "." + secret;
  });
}

Result<bool> Devices::forget(const std::string& id) {
  return change([&]() -> Result<bool> {
    const auto gone = std::erase_if(listed_.devices, [&](const Device& device) { return device.id == id; });
    if (gone == 0) return false;
    return write();
  });
}

bool Devices::knows(std::string_view id_and_secret) {
  const auto dot = id_and_secret.find('.');
  if (dot == std::string_view::npos) return false;
  const std::string_view id = id_and_secret.substr(0, dot);
  const std::string hash = store::sha256_hex(id_and_secret.substr(dot + 1));
  const std::lock_guard<std::mutex> lock(mutex_);
  if (!refresh()) return false;
  return std::any_of(listed_.devices.begin(), listed_.devices.end(), [&](const Device& device) {
    return device.id == id && equal_in_constant_time(device.secret_sha256, hash);
  });
}

}  // namespace duskwire::server
