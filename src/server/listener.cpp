// SPDX-License-Identifier: Apache-2.0
#include "server/listener.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <csignal>
#include <list>
#include <utility>

#include "server/connection.hpp"

namespace duskwire::server {

namespace asio = boost::asio;
using asio::ip::tcp;

namespace {
constexpr std::size_t answering_threads = 2;
// When the system has no descriptor left, accepting again at once would only spin.
constexpr std::chrono::milliseconds pause_without_descriptors{100};
}  // namespace

struct Listener::State {
  explicit State(Limits given) : limits(given) {}

  void accept(Handler& handler);
  void make_room();

  Limits limits;
  asio::io_context io{1};
  tcp::acceptor acceptor{io};
  asio::signal_set signals{io, SIGINT, SIGTERM};
  asio::steady_timer pause{io};
  asio::thread_pool pool{answering_threads};
  std::list<std::weak_ptr<Connection>> connections;  // oldest first
};

Listener::Listener(std::unique_ptr<State> state) : state_(std::move(state)) {}

Listener::~Listener() {
  state_->io.stop();
  state_->pool.join();
}

Result<std::unique_ptr<Listener>> Listener::open(std::uint16_t port, Limits limits) {
  auto state = std::make_unique<State>(limits);
  const tcp::endpoint here(asio::ip::address_v4::loopback(), port);
  boost::system::error_code fault;
  state->acceptor.open(here.protocol(), fault);
  if (!fault) state->acceptor.set_option(tcp::acceptor::reuse_address(true), fault);
  if (!fault) state->acceptor.bind(here, fault);
  if (!fault) state->acceptor.listen(asio::socket_base::max_listen_connections, fault);
  if (fault) {
    const char* why = fault == asio::error::address_in_use ? "is in use by another program" : "cannot be opened";
    return Error{ErrorCode::unavailable,
                 fmt::format("Port {} {}. Choose another with --port, or 0 for any that is free.", port, why)};
  }
  return std::unique_ptr<Listener>(new Listener(std::move(state)));
}

std::uint16_t Listener::port() const { return state_->acceptor.local_endpoint().port(); }

void Listener::State::make_room() {
  connections.remove_if([](const auto& weak) { return weak.expired(); });
  if (connections.size() < limits.connections) return;
  const auto slow = std::find_if(connections.begin(), connections.end(), [](const auto& weak) {
    const auto held = weak.lock();
    return held && held->waiting_for_head();
  });
  if (slow == connections.end()) return;
  if (const auto held = slow->lock()) held->close();
  connections.erase(slow);
}

void Listener::State::accept(Handler& handler) {
  acceptor.async_accept([this, &handler](boost::system::error_code fault, tcp::socket socket) {
    if (fault == asio::error::operation_aborted) return;
    if (fault) {
      pause.expires_after(pause_without_descriptors);
      return pause.async_wait([this, &handler](boost::system::error_code stopped) {
        if (!stopped) accept(handler);
      });
    }
    make_room();
    // All of them are at work: this one is turned away, and its client tries again.
    if (connections.size() < limits.connections) {
      boost::system::error_code ignored;
      socket.set_option(tcp::no_delay(true), ignored);
      const auto connection = std::make_shared<Connection>(std::move(socket), handler, pool, limits);
      connections.push_back(connection);
      connection->start();
    }
    accept(handler);
  });
}

void Listener::run(Handler& handler) {
  state_->signals.async_wait([this](boost::system::error_code fault, int) {
    if (!fault) state_->io.stop();
  });
  state_->accept(handler);
  state_->io.run();
  state_->pool.join();
}

void Listener::stop() {
  asio::post(state_->io, [this] { state_->io.stop(); });
}

}  // namespace duskwire::server
