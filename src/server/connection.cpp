// SPDX-License-Identifier: Apache-2.0
#include "server/connection.hpp"

#include <algorithm>
#include <array>
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <cctype>
#include <limits>
#include <utility>

#include "server/answers.hpp"
#include "server/service.hpp"

namespace duskwire::server {

namespace beast = boost::beast;
namespace http = boost::beast::http;
namespace asio = boost::asio;

namespace {

constexpr std::chrono::seconds drain_time{2};

Head head_of(const http::request<http::string_body>& request) {
  Head head;
  head.method = std::string(request.method_string());
  head.target = std::string(request.target());
  for (const auto& field : request) {
    std::string name(field.name_string());
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return std::tolower(c); });
    head.fields.push_back({std::move(name), std::string(field.value())});
  }
  return head;
}

template <class Body>
void set_head(http::response<Body>& made, const Response& response, bool then_close) {
  made.version(11);
  made.result(response.status);
  if (!response.media_type.empty()) made.set(http::field::content_type, response.media_type);
  for (const Field& field : response.fields) made.insert(field.name, field.value);
  made.keep_alive(!then_close);
}

Response broken_request(const beast::error_code& fault) {
  if (fault == http::error::header_limit)
    return refuse(431, "too_large", "The head of the request is longer than 16 KiB.");
  if (fault == http::error::body_limit) return refuse(413, "too_large", "The body is longer than this address takes.");
  return refuse(400, "invalid", "The request is no HTTP that can be read.");
}

}  // namespace

Connection::Connection(asio::ip::tcp::socket socket, Handler& handler, asio::thread_pool& pool, const Limits& limits)
    : stream_(std::move(socket)), handler_(handler), pool_(pool), limits_(limits) {}

void Connection::start() { read_head(); }

void Connection::close() {
  beast::error_code ignored;
  stream_.socket().close(ignored);
}

std::chrono::milliseconds Connection::time_for(std::size_t bytes) const {
  return limits_.transfer + std::chrono::milliseconds(1000 * bytes / limits_.transfer_bytes_per_s);
}

void Connection::read_head() {
  waiting_for_head_ = true;
  parser_.emplace();
  parser_->header_limit(static_cast<std::uint32_t>(limits_.head_bytes));
  // admit() judges the length, with a message that names the route's own limit. (Not boost::none: Boost 1.74 then
  // refuses every length.)
  parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
  stream_.expires_after(first_ ? limits_.head : limits_.idle);
  first_ = false;
  http::async_read_header(stream_, buffer_, *parser_,
                          [self = shared_from_this()](Fault fault, std::size_t) { self->on_head(fault); });
}

void Connection::on_head(Fault fault) {
  waiting_for_head_ = false;
  if (fault == http::error::end_of_stream) return drain();
  if (fault) return answer_broken(fault);
  head_ = head_of(parser_->get());
  Handler::Admission admission = handler_.admit(head_);
  // A body that is refused stays unread, so nothing that follows on this connection could be understood.
  if (!admission.admitted) return write(std::move(admission.refusal), !parser_->is_done());
  parser_->body_limit(admission.body_limit_bytes);
  const std::string* expects = head_.field("expect");
  if (expects == nullptr) return read_body();
  static constexpr std::string_view go_on = "HTTP/1.1 100 Continue\r\n\r\n";
  asio::async_write(stream_, asio::buffer(go_on.data(), go_on.size()),
                    [self = shared_from_this()](Fault failed, std::size_t) {
                      if (!failed) self->read_body();
                    });
}

void Connection::read_body() {
  stream_.expires_after(time_for(parser_->content_length().value_or(0)));
  http::async_read(stream_, buffer_, *parser_,
                   [self = shared_from_this()](Fault fault, std::size_t) { self->on_body(fault); });
}

void Connection::on_body(Fault fault) {
  if (fault) return answer_broken(fault);
  hand_over();
}

void Connection::hand_over() {
  stream_.expires_never();
  const bool then_close = !parser_->get().keep_alive();
  auto body = std::make_shared<std::string>(std::move(parser_->get().body()));
  asio::post(pool_, [self = shared_from_this(), body, then_close] {
    auto response = std::make_shared<Response>(self->handler_.answer(self->head_, *body));
    asio::post(self->stream_.get_executor(),
               [self, response, then_close] { self->write(std::move(*response), then_close); });
  });
}

void Connection::answer_broken(Fault fault) {
  const bool gone = fault == beast::error::timeout || fault == asio::error::eof ||
                    fault == asio::error::connection_reset || fault == asio::error::operation_aborted ||
                    fault == http::error::partial_message;
  if (gone) return close();
  Response response = broken_request(fault);
  add_standing_fields(response);
  write(std::move(response), true);
}

void Connection::write(Response response, bool then_close) {
  stream_.expires_after(time_for(response.body.size()));
  const bool bodiless = head_.method == "HEAD" || response.status == 304;
  if (bodiless) {
    auto made = std::make_shared<http::response<http::empty_body>>();
    set_head(*made, response, then_close);
    if (response.status != 304) made->content_length(response.body.size());
    return http::async_write(stream_, *made, [self = shared_from_this(), made, then_close](Fault fault, std::size_t) {
      if (!fault) self->on_written(then_close);
    });
  }
  auto made = std::make_shared<http::response<http::string_body>>();
  set_head(*made, response, then_close);
  made->body() = std::move(response.body);
  made->prepare_payload();
  http::async_write(stream_, *made, [self = shared_from_this(), made, then_close](Fault fault, std::size_t) {
    if (!fault) self->on_written(then_close);
  });
}

void Connection::on_written(bool then_close) {
  if (then_close) return drain();
  read_head();
}

// Closing with unread bytes would reset the connection, and the client might never see why it was refused.
void Connection::drain() {
  Fault ignored;
  stream_.socket().shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
  stream_.expires_after(drain_time);
  auto sink = std::make_shared<std::array<char, 16384>>();
  // Calls itself until the client has closed or the time is over.
  auto more = std::make_shared<std::function<void()>>();
  *more = [self = shared_from_this(), sink, weak = std::weak_ptr<std::function<void()>>(more)] {
    const auto again = weak.lock();
    self->stream_.async_read_some(asio::buffer(*sink), [self, again](Fault fault, std::size_t) {
      if (fault || !again) return self->close();
      (*again)();
    });
  };
  (*more)();
}

}  // namespace duskwire::server
