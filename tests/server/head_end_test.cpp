// SPDX-License-Identifier: Apache-2.0
#include "server/head_end.hpp"

#include <gtest/gtest.h>

#include <string>

namespace duskwire::server {
namespace {

using State = HeadEnd::State;
using namespace std::string_literals;

TEST(HeadEnd, AWholeHeadEndsAtItsEmptyLineHoweverItComes) {
  const std::string head = "GET / HTTP/1.1\r\nHost: a\r\nX: b \t c\r\n\r\n";
  for (std::size_t count = 0; count < head.size(); ++count) {
    EXPECT_EQ(find_head_end(head.substr(0, count)).state, State::more) << count;
  }
  const HeadEnd end = find_head_end(head + "body\nwith a \0 and bare \r and \n"s);
  EXPECT_EQ(end.state, State::whole);
  EXPECT_EQ(end.bytes, head.size());
}

TEST(HeadEnd, WhatTwoReadersCouldReadDifferentlyIsBroken) {
  for (const std::string& head : {"GET / HTTP/1.1\nHost: a\n\n"s, "GET / HTTP/1.1\r\nHost: a\n\r\n"s,
                                  "GET / HTTP/1.1\r\nHost: a\r\n\n"s, "GET / HTTP/1.1\r\nX: a\r\n b\r\n\r\n"s,
                                  "GET / HTTP/1.1\r\nX: a\r\n\tb\r\n\r\n"s, "GET / HTTP/1.1\r\n Host: a\r\n\r\n"s,
                                  "GET / HTTP/1.1\r\nX: a\rb\r\n\r\n"s, "GET / HTTP/1.1\r\nX: a\r\r\n\r\n"s,
                                  "GET / HTTP/1.1\r\nX: a\0b\r\n\r\n"s, "\r\nGET / HTTP/1.1\r\n\r\n"s, "\n"s}) {
    EXPECT_EQ(find_head_end(head).state, State::broken) << head;
  }
}

}  // namespace
}  // namespace duskwire::server
