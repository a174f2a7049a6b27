// SPDX-License-Identifier: Apache-2.0
#include "server/backup_door.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <sys/un.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <exception>
#include <filesystem>
#include <string_view>
#include <thread>
#include <utility>

namespace duskwire::server {

class DoorDescriptor {
 public:
  explicit DoorDescriptor(int number) : number_(number) {}
  ~DoorDescriptor() {
    if (number_ >= 0) ::close(number_);
  }
  DoorDescriptor(DoorDescriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  DoorDescriptor(const DoorDescriptor&) = delete;
  DoorDescriptor& operator=(const DoorDescriptor&) = delete;
  DoorDescriptor& operator=(DoorDescriptor&&) = delete;
  [[nodiscard]] int get() const { return number_; }
  [[nodiscard]] bool is_open() const { return number_ >= 0; }

 private:
  int number_;
};

// An address holds some hundred bytes, a path any number: it goes by the folder's descriptor, which must stay open.
struct DoorAddress {
  DoorDescriptor folder;
  sockaddr_un name{};
  bool fits = false;
};

namespace {

namespace fs = std::filesystem;

constexpr const char* door_ending = "-backup-door";
constexpr std::size_t most_request_bytes = 4096;  // a path
constexpr std::size_t most_answer_bytes = 4096;
constexpr timeval time_for_request{5, 0};
constexpr int callers_waiting = 4;

DoorAddress address_of(const std::string& workspace_file) {
  const fs::path file(workspace_file + door_ending);
  const std::string folder = file.has_parent_path() ? file.parent_path().string() : ".";
  DoorAddress address{DoorDescriptor(::open(folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC))};
  address.name.sun_family = AF_UNIX;
  const std::string path = fmt::format("/proc/self/fd/{}/{}", address.folder.get(), file.filename().string());
  address.fits = address.folder.is_open() && path.size() < sizeof address.name.sun_path;
  if (address.fits) std::memcpy(address.name.sun_path, path.c_str(), path.size() + 1);
  return address;
}

const sockaddr* pointer_to(const DoorAddress& address) { return reinterpret_cast<const sockaddr*>(&address.name); }

DoorDescriptor make_socket() { return DoorDescriptor(::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)); }

// All until the other side has said everything; nothing where it takes too long or says too much.
std::optional<std::string> read_all(int link, std::size_t most_bytes) {
  std::string text;
  std::array<char, 1024> part{};
  while (text.size() <= most_bytes) {
    const ssize_t count = ::recv(link, part.data(), part.size(), 0);
    if (count == 0) return text;
    if (count < 0 && errno != EINTR) return std::nullopt;
    if (count > 0) text.append(part.data(), static_cast<std::size_t>(count));
  }
  return std::nullopt;
}

bool write_all(int link, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::send(link, text.data(), text.size(), MSG_NOSIGNAL);
    if (count < 0 && errno != EINTR) return false;
    if (count > 0) text.remove_prefix(static_cast<std::size_t>(count));
  }
  return ::shutdown(link, SHUT_WR) == 0;
}

// The socket's own permissions keep others out already; a file system that knows none is not relied on.
bool is_owner(int link) {
  ucred caller{};
  socklen_t size = sizeof caller;
  return ::getsockopt(link, SOL_SOCKET, SO_PEERCRED, &caller, &size) == 0 &&
         (caller.uid == ::geteuid() || caller.uid == 0);
}

// What passes by the socket: "done", or a number for the kind of error and its message.
std::string words_of(const Result<bool>& made) {
  return made ? "done" : fmt::format("{} {}", static_cast<int>(made.error().code), made.error().message);
}

Result<bool> read_words(const std::string& words) {
  if (words == "done") return true;
  const bool is_error = words.size() > 2 && words[1] == ' ' && words[0] >= '1' && words[0] <= '6';
  if (!is_error) {
    return Error{ErrorCode::unavailable,
                 "The server that has the workspace open broke off. Look at its terminal, then try again."};
  }
  return Error{static_cast<ErrorCode>(words[0] - '0'), words.substr(2)};
}

}  // namespace

struct BackupDoor::State {
  store::Workspace& workspace;
  DoorAddress address;
  DoorDescriptor socket;
  DoorDescriptor shutting;  // readable once the door is to be shut
  std::thread porter = {};

  void serve() const {
    while (true) {
      std::array<pollfd, 2> waits = {pollfd{socket.get(), POLLIN, 0}, pollfd{shutting.get(), POLLIN, 0}};
      if (::poll(waits.data(), waits.size(), -1) < 0 && errno != EINTR) return;
      if (waits[1].revents != 0) return;
      if ((waits[0].revents & POLLIN) == 0) continue;
      const DoorDescriptor link(::accept4(socket.get(), nullptr, nullptr, SOCK_CLOEXEC));
      if (link.is_open() && is_owner(link.get())) answer(link.get());
    }
  }

  void answer(int link) const {
    ::setsockopt(link, SOL_SOCKET, SO_RCVTIMEO, &time_for_request, sizeof time_for_request);
    ::setsockopt(link, SOL_SOCKET, SO_SNDTIMEO, &time_for_request, sizeof time_for_request);
    const auto output = read_all(link, most_request_bytes);
    if (!output || !fs::path(*output).is_absolute()) return;
    try {
      write_all(link, words_of(workspace.back_up(*output)));
    } catch (const std::exception&) {
      // The caller is told that it broke off; the server goes on.
    }
  }
};

BackupDoor::BackupDoor(std::unique_ptr<State> state) : state_(std::move(state)) {
  state_->porter = std::thread([at = state_.get()] { at->serve(); });
}

BackupDoor::~BackupDoor() {
  const std::uint64_t one = 1;
  if (::write(state_->shutting.get(), &one, sizeof one) == sizeof one) state_->porter.join();
  ::unlink(state_->address.name.sun_path);
}

Result<std::unique_ptr<BackupDoor>> BackupDoor::open(store::Workspace& workspace, const std::string& workspace_file) {
  const Error no_door{ErrorCode::unavailable,
                      fmt::format("There is no socket \"{}{}\" to be had: duskwire backup works only while no server "
                                  "has the workspace open.",
                                  fs::path(workspace_file).filename().string(), door_ending)};
  DoorAddress address = address_of(workspace_file);
  if (!address.fits) return no_door;
  struct stat left {};
  if (::lstat(address.name.sun_path, &left) == 0 && S_ISSOCK(left.st_mode)) ::unlink(address.name.sun_path);
  DoorDescriptor socket = make_socket();
  DoorDescriptor wake(::eventfd(0, EFD_CLOEXEC));
  // Set before it has a name, so that it never has one with more permissions.
  if (!socket.is_open() || !wake.is_open() || ::fchmod(socket.get(), S_IRUSR | S_IWUSR) != 0 ||
      ::bind(socket.get(), pointer_to(address), sizeof address.name) != 0 ||
      ::listen(socket.get(), callers_waiting) != 0) {
    return no_door;
  }
  auto state = std::unique_ptr<State>(new State{workspace, std::move(address), std::move(socket), std::move(wake)});
  return std::unique_ptr<BackupDoor>(new BackupDoor(std::move(state)));
}

std::optional<Result<bool>> back_up_by_server(const std::string& workspace_file, const std::string& output) {
  const DoorAddress address = address_of(workspace_file);
  if (!address.fits) return std::nullopt;
  const DoorDescriptor link = make_socket();
  // Nobody there, or a socket that a server left when it was killed.
  if (!link.is_open() || ::connect(link.get(), pointer_to(address), sizeof address.name) != 0) return std::nullopt;
  std::error_code fault;
  const fs::path there = fs::absolute(output, fault);
  if (fault || !write_all(link.get(), there.string())) return read_words("");
  return read_words(read_all(link.get(), most_answer_bytes).value_or(""));
}

}  // namespace duskwire::server
