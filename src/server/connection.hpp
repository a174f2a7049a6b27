// SPDX-License-Identifier: Apache-2.0
// One connection, request after request. Internal to listener.cpp; runs on the one thread of the sockets.
#pragma once

#include <boost/asio/ip/address.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <memory>
#include <optional>

#include "server/http.hpp"
#include "server/listener.hpp"

namespace duskwire::server {

// From where a client came in.
struct Came {
  boost::asio::ip::address peer;
  bool from_lan = false;
};

struct Pools {
  boost::asio::thread_pool answers{2};
  // Ten large pictures at once would need gigabytes; one after the other they need what one needs.
  boost::asio::thread_pool pictures{1};
};

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(boost::asio::ip::tcp::socket socket, Came came, Handler& handler, Pools& pools, const Limits& limits);

  void start();
  void close();
  // Since when it is the client that we wait for; nothing while its answer is being made.
  [[nodiscard]] std::optional<std::chrono::steady_clock::time_point> waiting_since() const { return waiting_since_; }
  [[nodiscard]] const boost::asio::ip::address& peer() const { return came_.peer; }
  [[nodiscard]] bool from_lan() const { return came_.from_lan; }

 private:
  using Fault = boost::beast::error_code;

  void read_head();
  void take_head();
  void on_head(Fault fault);
  void read_body();
  void on_body(Fault fault);
  void hand_over();
  void answer_broken(Fault fault);
  void write(Response response, bool then_close);
  void on_written(bool then_close);
  void drain();
  [[nodiscard]] std::chrono::milliseconds time_for(std::size_t bytes) const;

  boost::beast::tcp_stream stream_;
  Came came_;
  boost::beast::flat_buffer buffer_;
  std::optional<boost::beast::http::request_parser<boost::beast::http::string_body>> parser_;
  Handler& handler_;
  Pools& pools_;
  const Limits& limits_;
  Head head_;
  bool is_picture_ = false;
  bool first_ = true;
  std::optional<std::chrono::steady_clock::time_point> waiting_since_;
};

}  // namespace duskwire::server
