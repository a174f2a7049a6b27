// SPDX-License-Identifier: Apache-2.0
// One connection, request after request. Internal to listener.cpp; runs on the one thread of the sockets.
#pragma once

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

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(boost::asio::ip::tcp::socket socket, Handler& handler, boost::asio::thread_pool& pool,
             const Limits& limits);

  void start();
  void close();
  // Nothing of a request is here yet but, at most, a part of its head.
  [[nodiscard]] bool waiting_for_head() const { return waiting_for_head_; }

 private:
  using Fault = boost::beast::error_code;

  void read_head();
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
  boost::beast::flat_buffer buffer_;
  std::optional<boost::beast::http::request_parser<boost::beast::http::string_body>> parser_;
  Handler& handler_;
  boost::asio::thread_pool& pool_;
  const Limits& limits_;
  Head head_;
  bool first_ = true;
  bool waiting_for_head_ = true;
};

}  // namespace duskwire::server
