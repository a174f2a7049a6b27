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
#include "server/head_end.hpp"
#include "server/head_of.hpp"
#include "server/service.hpp"

namespace duskwire::server {

namespace beast = boost::beast;
namespace http = boost::beast::http;
namespace asio = boost::asio;

namespace {

constexpr std::chrono::seconds drain_time{2};
constexpr std::size_t head_part_bytes = 4096;

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

Connection::Connection(asio::ip::tcp::socket socket, Came came, Handler& handler, Pools& pools, const Limits& limits)
    : stream_(std::move(socket)), came_(std::move(came)), handler_(handler), pools_(pools), limits_(limits) {}

void Connection::start() { read_head(); }

void Connection::close() {
  beast::error_code ignored;
  stream_.socket().close(ignored);
}

std::chrono::milliseconds Connection::time_for(std::size_t bytes) const {
  return limits_.transfer + std::chrono::milliseconds(1000 * bytes / limits_.transfer_bytes_per_s);
}

void Connection::read_head() {
  waiting_since_ = std::chrono::steady_clock::now();
  parser_.emplace();
  head_ = {};
  parser_->header_limit(static_cast<std::uint32_t>(limits_.head_bytes));
  // admit() judges the length, with a message that names the route's own limit. (Not boost::none: Boost 1.74 then
  // refuses every length.)
  parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
  stream_.expires_after(first_ ? limits_.head : limits_.idle);
  first_ = false;
  take_head();
}

void Connection::take_head() {
  const auto held = buffer_.data();
  const std::string_view bytes(static_cast<const char*>(held.data()), held.size());
  const HeadEnd end = find_head_end(bytes.substr(0, limits_.head_bytes));
  if (end.state == HeadEnd::State::broken) return on_head(http::error::bad_line_ending);
  if (end.state == HeadEnd::State::whole) {
    Fault fault;
    parser_->put(asio::buffer(bytes.data(), end.bytes), fault);
    buffer_.consume(end.bytes);
    if (!fault && !parser_->is_header_done()) fault = http::error::bad_line_ending;
    return on_head(fault);
  }
  if (bytes.size() >= limits_.head_bytes) return on_head(http::error::header_limit);
  stream_.async_read_some(buffer_.prepare(head_part_bytes),
                          [self = shared_from_this()](Fault fault, std::size_t count) {
                            if (fault == asio::error::eof && self->buffer_.size() == 0) return self->drain();
                            if (fault) return self->on_head(fault);
                            self->buffer_.commit(count);
                            self->take_head();
                          });
}

void Connection::on_head(Fault fault) {
  if (fault) return answer_broken(fault);
  head_ = head_of(parser_->get());
  head_.from_lan = came_.from_lan;
  Handler::Admission admission = handler_.admit(head_);
  // A body that is refused stays unread, so nothing that follows on this connection could be understood; whether there
  // is a body may be read in more than one way.
  const bool body_may_follow = head_.count("transfer-encoding") + head_.count("content-length") > 0;
  if (!admission.admitted) return write(std::move(admission.refusal), body_may_follow || !parser_->is_done());
  parser_->body_limit(admission.body_limit_bytes);
  is_picture_ = admission.picture;
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
  waiting_since_.reset();
  const bool then_close = !parser_->get().keep_alive();
  auto body = std::make_shared<std::string>(std::move(parser_->get().body()));
  asio::post(is_picture_ ? pools_.pictures : pools_.answers, [self = shared_from_this(), body, then_close] {
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
  waiting_since_ = std::chrono::steady_clock::now();
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
