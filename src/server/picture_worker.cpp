// SPDX-License-Identifier: Apache-2.0
#include "server/picture_worker.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstddef>
#include <exception>
#include <optional>
#include <utility>
#include <vector>

namespace duskwire::server {
namespace {

using Clock = std::chrono::steady_clock;

constexpr rlim_t most_memory_bytes = rlim_t{1} << 30u;
constexpr rlim_t most_cpu_s = 15;
constexpr std::size_t most_answer_bytes = std::size_t{256} << 20u;
constexpr std::size_t most_message_bytes = 300;

// The sanitizers' own memory and threads fit into none of these bounds.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool bounded = false;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
constexpr bool bounded = false;
#else
constexpr bool bounded = true;
#endif
#else
constexpr bool bounded = true;
#endif

Error undecodable() {
  return {ErrorCode::invalid,
          "The picture could not be decoded: it is broken, or needs more than 15 s of computing or 1 GiB. Save it anew "
          "as JPEG or "
          "PNG, smaller if it is large."};
}

// ---- the worker's side

void bound(int what, rlim_t most) {
  const rlimit limit{most, most};
  ::setrlimit(static_cast<__rlimit_resource_t>(what), &limit);
}

// From here on this process can compute, take memory, read and write what is open already, and end. Any other call of
// the system ends it: no file, no network, no other program.
bool shut_the_doors() {
#if defined(__x86_64__)
  constexpr std::uint32_t machine = AUDIT_ARCH_X86_64;
#elif defined(__aarch64__)
  constexpr std::uint32_t machine = AUDIT_ARCH_AARCH64;
#else
#error "name this machine's AUDIT_ARCH here"
#endif
  constexpr std::array<std::uint32_t, 19> allowed = {
      SYS_read,   SYS_write,  SYS_brk,        SYS_mmap,         SYS_munmap,         SYS_mremap,    SYS_madvise,
      SYS_futex,  SYS_exit,   SYS_exit_group, SYS_rt_sigreturn, SYS_rt_sigprocmask, SYS_getrandom, SYS_clock_gettime,
      SYS_getpid, SYS_gettid, SYS_tgkill,     SYS_sched_yield,  SYS_close};
  std::vector<sock_filter> program = {
      BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, arch)),
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, machine, 1, 0),
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_KILL_PROCESS),
      BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr)),
  };
  for (const std::uint32_t call : allowed) {
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, call, 0, 1));
    program.push_back(BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW));
  }
  program.push_back(BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_KILL_PROCESS));
  const sock_fprog filter{static_cast<unsigned short>(program.size()), program.data()};
  return ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &filter) == 0;
}

bool confine() {
  // Should the server die, nobody would read the answer.
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  ::prctl(PR_SET_DUMPABLE, 0);
  bound(RLIMIT_CORE, 0);
  if (!bounded) return true;
  bound(RLIMIT_CPU, most_cpu_s);
  bound(RLIMIT_AS, most_memory_bytes);
  bound(RLIMIT_FSIZE, 0);
  return shut_the_doors();
}

std::optional<std::string> read_all() {
  std::string bytes;
  std::array<char, 65536> part{};
  while (bytes.size() <= picture_limit_bytes) {
    const ssize_t count = ::read(STDIN_FILENO, part.data(), part.size());
    if (count == 0) return bytes;
    if (count < 0 && errno != EINTR) return std::nullopt;
    if (count > 0) bytes.append(part.data(), static_cast<std::size_t>(count));
  }
  return std::nullopt;
}

bool write_all(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
    if (count < 0 && errno != EINTR) return false;
    if (count > 0) bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

// ---- the server's side

class Child {
 public:
  Child(const std::string& program, std::vector<std::string> arguments) {
    std::array<int, 2> ends{};
    if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) return;
    link_ = ends[0];
    posix_spawn_file_actions_t files;
    posix_spawnattr_t attributes;
    ::posix_spawn_file_actions_init(&files);
    ::posix_spawnattr_init(&attributes);
    ::posix_spawn_file_actions_adddup2(&files, ends[1], STDIN_FILENO);
    ::posix_spawn_file_actions_adddup2(&files, ends[1], STDOUT_FILENO);
    ::posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    // The sockets of the server's clients are open in this process: none of them goes along.
    ::posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
    sigset_t none;
    sigemptyset(&none);
    ::posix_spawnattr_setsigmask(&attributes, &none);
    ::posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
    std::string name = program.empty() ? "/proc/self/exe" : program;
    std::vector<char*> line = {name.data()};
    for (std::string& argument : arguments) line.push_back(argument.data());
    line.push_back(nullptr);
    std::array<char*, 1> environment = {nullptr};
    if (::posix_spawn(&process_, name.c_str(), &files, &attributes, line.data(), environment.data()) != 0) {
      process_ = 0;
    }
    ::posix_spawn_file_actions_destroy(&files);
    ::posix_spawnattr_destroy(&attributes);
    ::close(ends[1]);
  }
  ~Child() {
    if (link_ >= 0) ::close(link_);
    if (process_ == 0) return;
    ::kill(process_, SIGKILL);
    int status = 0;
    while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) continue;
  }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;

  [[nodiscard]] bool started() const { return process_ != 0; }

  // Sends the bytes and reads the answer, both as they come. Nothing where it takes too long or says too much.
  std::optional<std::string> answer_to(std::string_view bytes, Clock::time_point deadline) const {
    std::string answer;
    bool sending = true;
    while (true) {
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
      if (left <= 0 || answer.size() > most_answer_bytes) return std::nullopt;
      pollfd wait{link_, static_cast<short>(POLLIN | (sending ? POLLOUT : 0)), 0};
      if (::poll(&wait, 1, static_cast<int>(left)) < 0 && errno != EINTR) return std::nullopt;
      if (sending && (wait.revents & POLLOUT) != 0) sending = send_more(bytes);
      if ((wait.revents & (POLLIN | POLLHUP | POLLERR)) != 0 && !receive(answer)) return answer;
    }
  }

  // True where it ended by itself and says that all went well.
  bool ended_well() {
    int status = 0;
    while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) continue;
    process_ = 0;
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
  }

 private:
  // False once there is nothing more to send.
  bool send_more(std::string_view& bytes) const {
    const ssize_t count = ::send(link_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (count < 0) return errno == EAGAIN || errno == EINTR;
    bytes.remove_prefix(static_cast<std::size_t>(count));
    if (!bytes.empty()) return true;
    ::shutdown(link_, SHUT_WR);
    return false;
  }

  // False at the end.
  bool receive(std::string& answer) const {
    std::array<char, 65536> part{};
    const ssize_t count = ::recv(link_, part.data(), part.size(), MSG_DONTWAIT);
    if (count > 0) answer.append(part.data(), static_cast<std::size_t>(count));
    return count > 0 || (count < 0 && (errno == EAGAIN || errno == EINTR));
  }

  int link_ = -1;
  pid_t process_ = 0;
};

std::string words_of(const Error& error) {
  return (error.code == ErrorCode::no_room ? "large\n" : "broken\n") + error.message;
}

std::string words_of(const Result<CleanPicture>& clean) {
  if (!clean) return words_of(clean.error());
  const CleanPicture& picture = clean.value();
  return fmt::format("{} {} {}\n", picture.media_type, picture.width_px, picture.height_px) + picture.bytes;
}

std::string words_of(const Result<OpenedPicture>& opened) {
  if (!opened) return words_of(opened.error());
  const OpenedPicture& file = opened.value();
  std::string words = fmt::format("{} {} {} {} {}\n", file.media_type, file.width_px, file.height_px,
                                  file.picture.width_px, file.picture.height_px);
  words.append(reinterpret_cast<const char*>(file.picture.elements.data()), file.picture.elements.size());
  return words;
}

bool harmless(std::string_view message) {
  return !message.empty() && message.size() <= most_message_bytes &&
         std::all_of(message.begin(), message.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

// What a worker says is not believed: a picture that breaks a decoder may speak through it.
struct Heard {
  std::string media_type;
  std::vector<std::int64_t> sizes_px;  // widths and heights, each within the limits
  std::string_view rest;
};

Result<Heard> heard(std::string_view answer, std::size_t sizes) {
  const auto line_end = answer.find('\n');
  if (line_end == std::string_view::npos) return undecodable();
  std::string_view line = answer.substr(0, line_end);
  Heard said{"", std::vector<std::int64_t>(2 * sizes), answer.substr(line_end + 1)};
  if (line == "large" || line == "broken") {
    if (!harmless(said.rest)) return undecodable();
    return Error{line == "large" ? ErrorCode::no_room : ErrorCode::invalid, std::string(said.rest)};
  }
  for (const pictures::Kind kind : {pictures::Kind::jpeg, pictures::Kind::png, pictures::Kind::webp}) {
    const std::string_view type = pictures::media_type(kind);
    if (line.substr(0, type.size()) == type) said.media_type = type;
  }
  line.remove_prefix(std::min(line.size(), said.media_type.size()));
  for (std::int64_t& number : said.sizes_px) {
    if (line.empty() || line.front() != ' ') return undecodable();
    line.remove_prefix(1);
    const auto [end, fault] = std::from_chars(line.data(), line.data() + line.size(), number);
    if (fault != std::errc{}) return undecodable();
    line.remove_prefix(static_cast<std::size_t>(end - line.data()));
  }
  if (said.media_type.empty() || !line.empty() || said.rest.empty()) return undecodable();
  for (std::size_t at = 0; at < said.sizes_px.size(); at += 2) {
    if (!pictures::size_allowed(said.sizes_px[at], said.sizes_px[at + 1], picture_limits)) return undecodable();
  }
  return said;
}

}  // namespace

std::optional<int> run_as_picture_worker(int argc, const char* const* argv) {
  const std::string_view work = argc < 2 ? "" : argv[1];
  const bool cleans = work == clean_picture_argument && argc == 2;
  if (!cleans && (work != open_picture_argument || argc != 3)) return std::nullopt;
  std::uint32_t most_width_px = 0;
  if (!cleans) {
    const std::string_view width = argv[2];
    const auto [end, fault] = std::from_chars(width.data(), width.data() + width.size(), most_width_px);
    if (fault != std::errc{} || end != width.data() + width.size()) return 1;
  }
  if (!confine()) return 1;
  try {
    const std::optional<std::string> bytes = read_all();
    if (!bytes) return 1;
    return write_all(cleans ? words_of(clean_picture(*bytes)) : words_of(open_picture(*bytes, most_width_px))) ? 0 : 1;
  } catch (const std::exception&) {
    return 1;  // no memory left, most likely
  }
}

PictureTools PictureWorker::tools() const {
  return {[worker = *this](std::string_view bytes) { return worker.clean(bytes); },
          [worker = *this](std::string_view bytes, std::uint32_t most_width_px) {
            return worker.open(bytes, most_width_px);
          }};
}

Result<CleanPicture> PictureWorker::clean(std::string_view bytes) const {
  const Result<std::string> answer = ask({std::string(clean_picture_argument)}, bytes);
  if (!answer) return answer.error();
  const Result<Heard> said = heard(answer.value(), 1);
  if (!said) return said.error();
  return CleanPicture{said.value().media_type, said.value().sizes_px[0], said.value().sizes_px[1],
                      std::string(said.value().rest)};
}

Result<OpenedPicture> PictureWorker::open(std::string_view bytes, std::uint32_t most_width_px) const {
  const Result<std::string> answer = ask({std::string(open_picture_argument), std::to_string(most_width_px)}, bytes);
  if (!answer) return answer.error();
  const Result<Heard> said = heard(answer.value(), 2);
  if (!said) return said.error();
  const auto& [media_type, sizes_px, elements] = said.value();
  OpenedPicture opened{media_type, sizes_px[0], sizes_px[1], {}};
  opened.picture.width_px = static_cast<std::uint32_t>(sizes_px[2]);
  opened.picture.height_px = static_cast<std::uint32_t>(sizes_px[3]);
  const std::size_t expected = pictures::bytes_of(opened.picture.width_px, opened.picture.height_px, 3);
  if (elements.size() != expected || (most_width_px != 0 && opened.picture.width_px > most_width_px)) {
    return undecodable();
  }
  opened.picture.elements.assign(elements.begin(), elements.end());
  return opened;
}

Result<std::string> PictureWorker::ask(const std::vector<std::string>& arguments, std::string_view bytes) const {
  const Clock::time_point deadline = Clock::now() + most_time_;
  Child child(program_, arguments);
  if (!child.started()) {
    return Error{ErrorCode::unavailable,
                 "The picture was not taken: the system starts no process to decode it in. Try again in a while."};
  }
  std::optional<std::string> answer = child.answer_to(bytes, deadline);
  if (!answer || !child.ended_well()) return undecodable();
  return *std::move(answer);
}

}  // namespace duskwire::server
