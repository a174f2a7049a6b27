// SPDX-License-Identifier: Apache-2.0
#include "server/listener.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <csignal>
#include <list>
#include <utility>

#include "server/connection.hpp"

namespace duskwire::server {

namespace asio = boost::asio;
using asio::ip::tcp;

namespace {

// When the system has no descriptor left, accepting again at once would only spin.
constexpr std::chrono::milliseconds pause_without_descriptors{100};
constexpr int tries_for_a_free_port = 20;  // at both addresses
constexpr std::chrono::milliseconds between_looks_at_the_door{500};

boost::system::error_code bind_at(tcp::acceptor& acceptor, const tcp::endpoint& here) {
  boost::system::error_code fault;
  acceptor.open(here.protocol(), fault);
  if (!fault) acceptor.set_option(tcp::acceptor::reuse_address(true), fault);
  if (!fault) acceptor.bind(here, fault);
  if (!fault) acceptor.listen(asio::socket_base::max_listen_connections, fault);
  return fault;
}

}  // namespace

struct Listener::State {
  struct Door {
    Door(asio::io_context& io, bool to_lan) : acceptor(io), pause(io), lan(to_lan) {}
    tcp::acceptor acceptor;
    asio::steady_timer pause;
    bool lan;
  };

  explicit State(Limits given) : limits(given) {}

  boost::system::error_code open_own(std::uint16_t port);

  void accept(Door& door, Handler& handler);
  bool make_room(const asio::ip::address& peer);
  void watch_lan();
  void shut_lan();

  Limits limits;
  asio::io_context io{1};
  std::list<Door> doors;  // the first is this computer's own: 127.0.0.1, then ::1 where there is one
  asio::signal_set signals{io, SIGINT, SIGTERM};
  std::function<bool()> lan_stays_open;
  asio::steady_timer lan_watch{io};
  Pools pools;
  std::list<std::weak_ptr<Connection>> connections;  // oldest first
};

Listener::Listener(std::unique_ptr<State> state) : state_(std::move(state)), only_ipv4_(state_->doors.size() == 1) {}

Listener::~Listener() {
  state_->io.stop();
  state_->pools.answers.join();
  state_->pools.pictures.join();
}

// Both loopbacks: whoever asks for localhost may come by either, and one that is left free could be taken by another
// program on this computer, which would then get what is meant for us.
boost::system::error_code Listener::State::open_own(std::uint16_t port) {
  doors.clear();
  Door& four = doors.emplace_back(io, false);
  boost::system::error_code fault = bind_at(four.acceptor, tcp::endpoint(asio::ip::address_v4::loopback(), port));
  if (fault) return fault;
  port = four.acceptor.local_endpoint().port();
  Door& six = doors.emplace_back(io, false);
  fault = bind_at(six.acceptor, tcp::endpoint(asio::ip::address_v6::loopback(), port));
  const bool has_none =
      fault == boost::system::errc::address_not_available || fault == asio::error::address_family_not_supported;
  if (!has_none) return fault;
  doors.pop_back();
  return {};
}

Result<std::unique_ptr<Listener>> Listener::open(std::uint16_t port, Limits limits) {
  auto state = std::make_unique<State>(limits);
  boost::system::error_code fault = state->open_own(port);
  for (int more = 0; port == 0 && fault == asio::error::address_in_use && more < tries_for_a_free_port; ++more) {
    fault = state->open_own(port);
  }
  if (fault) {
    const char* why = fault == asio::error::address_in_use ? "is in use by another program" : "cannot be opened";
    return Error{ErrorCode::unavailable,
                 fmt::format("Port {} {}. Choose another with --port, or 0 for any that is free.", port, why)};
  }
  return std::unique_ptr<Listener>(new Listener(std::move(state)));
}

std::uint16_t Listener::port() const { return state_->doors.front().acceptor.local_endpoint().port(); }

Result<bool> Listener::open_lan(const std::vector<std::string>& addresses, std::function<bool()> stays_open) {
  for (const std::string& address : addresses) {
    boost::system::error_code fault;
    const auto here = asio::ip::make_address_v4(address, fault);
    State::Door& door = state_->doors.emplace_back(state_->io, true);
    if (!fault) fault = bind_at(door.acceptor, tcp::endpoint(here, port()));
    if (fault) {
      const bool foreign = fault == boost::system::errc::address_not_available;
      return Error{ErrorCode::unavailable,
                   fmt::format("Port {} of {} cannot be opened to the local network: {}.", port(), address,
                               foreign ? "this computer has no such address"
                                       : "another program uses it, or it is forbidden; choose another with --port")};
    }
  }
  state_->lan_stays_open = std::move(stays_open);
  return true;
}

// False where all of them are at work: the new one is turned away, and its client tries again.
bool Listener::State::make_room(const asio::ip::address& peer) {
  connections.remove_if([](const auto& weak) { return weak.expired(); });
  const auto same_peer = [&](const auto& weak) {
    const auto held = weak.lock();
    return held && held->peer() == peer;
  };
  const auto of_peer = static_cast<std::size_t>(std::count_if(connections.begin(), connections.end(), same_peer));
  const bool peer_full = of_peer >= limits.connections_per_peer;
  if (!peer_full && connections.size() < limits.connections) return true;
  auto slowest = connections.end();
  for (auto at = connections.begin(); at != connections.end(); ++at) {
    const auto held = at->lock();
    if (!held || !held->waiting_since() || (peer_full && held->peer() != peer)) continue;
    if (slowest == connections.end() || *held->waiting_since() < *slowest->lock()->waiting_since()) slowest = at;
  }
  if (slowest == connections.end()) return false;
  slowest->lock()->close();
  connections.erase(slowest);
  return true;
}

void Listener::State::accept(Door& door, Handler& handler) {
  door.acceptor.async_accept([this, &door, &handler](boost::system::error_code fault, tcp::socket socket) {
    if (fault == asio::error::operation_aborted || !door.acceptor.is_open()) return;
    if (fault) {
      door.pause.expires_after(pause_without_descriptors);
      return door.pause.async_wait([this, &door, &handler](boost::system::error_code stopped) {
        if (!stopped) accept(door, handler);
      });
    }
    boost::system::error_code gone;
    const auto peer = socket.remote_endpoint(gone).address();
    if (!gone && make_room(peer)) {
      boost::system::error_code ignored;
      socket.set_option(tcp::no_delay(true), ignored);
      const auto connection =
          std::make_shared<Connection>(std::move(socket), Came{peer, door.lan}, handler, pools, limits);
      connections.push_back(connection);
      connection->start();
    }
    accept(door, handler);
  });
}

void Listener::State::shut_lan() {
  boost::system::error_code ignored;
  for (Door& door : doors) {
    if (door.lan) door.acceptor.close(ignored);
  }
  for (const auto& weak : connections) {
    const auto held = weak.lock();
    if (held && held->from_lan()) held->close();
  }
}

void Listener::State::watch_lan() {
  lan_watch.expires_after(between_looks_at_the_door);
  lan_watch.async_wait([this](boost::system::error_code stopped) {
    if (stopped) return;
    if (lan_stays_open()) return watch_lan();
    shut_lan();
  });
}

void Listener::run(Handler& handler) {
  state_->signals.async_wait([this](boost::system::error_code fault, int) {
    if (!fault) state_->io.stop();
  });
  for (State::Door& door : state_->doors) state_->accept(door, handler);
  if (state_->lan_stays_open) state_->watch_lan();
  state_->io.run();
  state_->pools.answers.join();
  state_->pools.pictures.join();
}

void Listener::stop() {
  asio::post(state_->io, [this] { state_->io.stop(); });
}

}  // namespace duskwire::server
