// SPDX-License-Identifier: Apache-2.0
// The socket side by its clock and its counts, with times short enough for a test.
#include "server/listener.hpp"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <memory>
#include <thread>

#include "server/answers.hpp"

namespace duskwire::server {
namespace {

using Clock = std::chrono::steady_clock;
using namespace std::chrono_literals;

// Takes a body of up to 100 kB, and answers with so many bytes.
class Echo : public Handler {
 public:
  explicit Echo(std::size_t bytes = 10) : bytes_(bytes) {}
  Admission admit(const Head& head) override {
    if (head.from_lan) ++from_lan;
    return {true, 100'000, false, {}};
  }
  Response answer(const Head&, const std::string&) override {
    Response response;
    response.media_type = "text/plain";
    response.body = std::string(bytes_, 'x');
    return response;
  }
  std::atomic<int> from_lan{0};

 private:
  std::size_t bytes_;
};

class Server {
 public:
  explicit Server(Limits limits, std::size_t answer_bytes = 10, std::function<bool()> lan = nullptr)
      : handler(answer_bytes), listener_(Listener::open(0, limits).value()) {
    if (lan) {
      EXPECT_TRUE(listener_->open_lan({"127.0.0.2"}, std::move(lan)).ok());
    }
    thread_ = std::thread([this] { listener_->run(handler); });
  }
  ~Server() {
    listener_->stop();
    thread_.join();
  }
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  [[nodiscard]] std::uint16_t port() const { return listener_->port(); }
  [[nodiscard]] bool only_ipv4() const { return listener_->only_ipv4(); }
  Echo handler;

 private:
  std::unique_ptr<Listener> listener_;
  std::thread thread_;
};

class Client {
 public:
  explicit Client(std::uint16_t port, const char* from = "127.0.0.1", const char* to = "127.0.0.1")
      : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in own = address(from, 0);
    ::bind(socket_, reinterpret_cast<const sockaddr*>(&own), sizeof own);
    sockaddr_in there = address(to, port);
    connected_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&there), sizeof there) == 0;
  }
  ~Client() { ::close(socket_); }
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  [[nodiscard]] bool connected() const { return connected_; }
  void send(const std::string& bytes) const { ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL); }
  // Whether the server has closed, within this time.
  [[nodiscard]] bool closed_within(std::chrono::milliseconds time) const {
    const auto end = Clock::now() + time;
    char byte = 0;
    while (Clock::now() < end) {
      pollfd wait{socket_, POLLIN, 0};
      ::poll(&wait, 1, 10);
      if (wait.revents == 0) continue;
      if (::recv(socket_, &byte, 1, 0) <= 0) return true;
    }
    return false;
  }
  [[nodiscard]] std::string receive(std::chrono::milliseconds time) const {
    std::string all;
    char part[4096];
    pollfd wait{socket_, POLLIN, 0};
    while (::poll(&wait, 1, static_cast<int>(time.count())) > 0) {
      const ssize_t count = ::recv(socket_, part, sizeof part, 0);
      if (count <= 0) break;
      all.append(part, static_cast<std::size_t>(count));
    }
    return all;
  }

 private:
  static sockaddr_in address(const char* text, std::uint16_t port) {
    sockaddr_in made{};
    made.sin_family = AF_INET;
    made.sin_port = htons(port);
    ::inet_pton(AF_INET, text, &made.sin_addr);
    return made;
  }
  int socket_;
  bool connected_ = false;
};

Limits quick() {
  Limits limits;
  limits.head = 300ms;
  limits.idle = 300ms;
  limits.transfer = 300ms;
  limits.transfer_bytes_per_s = 1000;
  return limits;
}

TEST(Listener, AHeadThatDribblesIsCutOff) {
  const Server run(quick());
  const Client client(run.port());
  const auto begin = Clock::now();
  client.send("GET / HTTP/1.1\r\n");
  bool closed = false;
  while (!closed && Clock::now() - begin < 5s) {
    client.send("X");
    closed = client.closed_within(50ms);
  }
  EXPECT_TRUE(closed);
  EXPECT_GT(Clock::now() - begin, 250ms);
  EXPECT_LT(Clock::now() - begin, 2s);
}

// The time grows with the size, so that an honest slow upload ends and one that dribbles for ever does not.
TEST(Listener, ABodyHasItsTimeAndItsPaceAndNoMore) {
  const Server run(quick());
  const Client client(run.port());
  const auto begin = Clock::now();
  client.send("POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 700\r\n\r\n");
  bool closed = false;
  while (!closed && Clock::now() - begin < 8s) {
    client.send("x");
    closed = client.closed_within(50ms);
  }
  EXPECT_TRUE(closed);
  EXPECT_GT(Clock::now() - begin, 900ms) << "0.3 s, and 700 bytes at 1,000 a second";
  EXPECT_LT(Clock::now() - begin, 4s);
}

TEST(Listener, AnAnswerThatNobodyTakesIsGivenUp) {
  Limits limits = quick();
  limits.transfer_bytes_per_s = 100'000'000;
  const Server run(limits, 60'000'000);
  const Client client(run.port());
  client.send("GET / HTTP/1.1\r\nHost: a\r\n\r\n");
  std::this_thread::sleep_for(2500ms);
  EXPECT_LT(client.receive(200ms).size(), 60'000'000u);
}

bool answers_at_ipv6_loopback(std::uint16_t port) {
  const int link = ::socket(AF_INET6, SOCK_STREAM, 0);
  sockaddr_in6 there{};
  there.sin6_family = AF_INET6;
  there.sin6_port = htons(port);
  there.sin6_addr = in6addr_loopback;
  const std::string ask = "GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n";
  char begin[12] = {};
  const bool answered = ::connect(link, reinterpret_cast<const sockaddr*>(&there), sizeof there) == 0 &&
                        ::send(link, ask.data(), ask.size(), MSG_NOSIGNAL) > 0 &&
                        ::recv(link, begin, sizeof begin, MSG_WAITALL) == sizeof begin;
  ::close(link);
  return answered && std::string(begin, sizeof begin) == "HTTP/1.1 200";
}

// A computer without ::1 is served at the other one, and says so.
TEST(Listener, BothLoopbacksAnswerAndTheNetworkDoesNot) {
  const Server run(quick());
  const Client client(run.port());
  client.send("GET / HTTP/1.1\r\nHost: a\r\n\r\n");
  EXPECT_EQ(client.receive(300ms).rfind("HTTP/1.1 200 OK", 0), 0u);
  EXPECT_EQ(answers_at_ipv6_loopback(run.port()), !run.only_ipv4());
  EXPECT_FALSE(Client(run.port(), "127.0.0.1", "127.0.0.2").connected());
}

// What is meant for localhost would reach whoever has taken the other address.
TEST(Listener, APortThatIsTakenAtOneLoopbackIsNotServedAtTheOther) {
  const int other = ::socket(AF_INET6, SOCK_STREAM, 0);
  sockaddr_in6 there{};
  there.sin6_family = AF_INET6;
  there.sin6_addr = in6addr_loopback;
  if (::bind(other, reinterpret_cast<const sockaddr*>(&there), sizeof there) != 0) {
    ::close(other);
    GTEST_SKIP() << "this computer has no ::1";
  }
  ::listen(other, 1);
  socklen_t size = sizeof there;
  ::getsockname(other, reinterpret_cast<sockaddr*>(&there), &size);
  const auto refused = Listener::open(ntohs(there.sin6_port));
  ::close(other);
  ASSERT_FALSE(refused.ok());
  EXPECT_NE(refused.error().message.find("in use by another program"), std::string::npos) << refused.error().message;
}

TEST(Listener, OnePeerHoldsSixteenConnectionsAndTheSlowestGoesFirst) {
  Limits limits;
  limits.head = 30s;
  const Server run(limits);
  std::vector<std::unique_ptr<Client>> held;
  for (int i = 0; i < 20; ++i) {
    held.push_back(std::make_unique<Client>(run.port()));
    held.back()->send("GET /");
    std::this_thread::sleep_for(5ms);
  }
  int open = 0;
  for (int i = 0; i < 20; ++i) {
    const bool closed = held[static_cast<std::size_t>(i)]->closed_within(i < 4 ? 500ms : 20ms);
    EXPECT_EQ(closed, i < 4) << i;
    open += closed ? 0 : 1;
  }
  EXPECT_EQ(open, 16);
  const Client other(run.port(), "127.0.0.9");
  other.send("GET / HTTP/1.1\r\nHost: a\r\n\r\n");
  EXPECT_EQ(other.receive(500ms).rfind("HTTP/1.1 200 OK", 0), 0u);
  EXPECT_FALSE(held[4]->closed_within(50ms)) << "another peer's connection costs this one none";
}

TEST(Listener, TheDoorToTheNetworkShutsForGoodAndCutsOffWhoCameInByIt) {
  std::atomic<bool> open{true};
  Server run(Limits{}, 10, [&open] { return open.load(); });
  const std::string ask = "GET / HTTP/1.1\r\nHost: a\r\n\r\n";
  const Client desk(run.port());
  const Client phone(run.port(), "127.0.0.1", "127.0.0.2");
  ASSERT_TRUE(phone.connected());
  phone.send(ask);
  EXPECT_EQ(phone.receive(300ms).rfind("HTTP/1.1 200 OK", 0), 0u);
  desk.send(ask);
  EXPECT_EQ(desk.receive(300ms).rfind("HTTP/1.1 200 OK", 0), 0u);
  EXPECT_EQ(run.handler.from_lan, 1) << "the one by that door, and no other";
  open = false;
  EXPECT_TRUE(phone.closed_within(2s));
  EXPECT_FALSE(Client(run.port(), "127.0.0.1", "127.0.0.2").connected());
  open = true;
  std::this_thread::sleep_for(1200ms);
  EXPECT_FALSE(Client(run.port(), "127.0.0.1", "127.0.0.2").connected());
  desk.send(ask);
  EXPECT_EQ(desk.receive(300ms).rfind("HTTP/1.1 200 OK", 0), 0u);
}

}  // namespace
}  // namespace duskwire::server
