// SPDX-License-Identifier: Apache-2.0
#include "server/lan_desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "server/answers.hpp"
#include "server/body.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

constexpr std::size_t name_limit_bytes = 60;
// A season of work; after that the phone is paired anew.
constexpr std::chrono::seconds cookie_life = std::chrono::hours(24 * 180);

// The name is shown in a terminal: no control characters.
bool printable(const std::string& name) {
  return std::all_of(name.begin(), name.end(), [](unsigned char c) { return c >= 0x20 && c != 0x7f; }) &&
         name.find("\xc2\x9b") == std::string::npos;
}

}  // namespace

LanDesk::LanDesk(Devices devices, std::string fingerprint, std::uint16_t port, std::chrono::milliseconds idle,
                 Surroundings around)
    : devices_(std::move(devices)),
      fingerprint_(std::move(fingerprint)),
      cookie_name_(fmt::format("duskwire-phone-{}", port)),
      idle_(idle),
      around_(std::move(around)),
      pairing_(around_.now, around_.new_code),
      last_seen_(around_.now()) {}

void LanDesk::tell_code() {
  const std::lock_guard<std::mutex> lock(mutex_);
  const std::string code = pairing_.code();
  if (code == told_code_) return;
  told_code_ = code;
  if (code.empty()) return around_.tell({LanNews::Kind::pairing_over, ""});
  around_.tell({LanNews::Kind::code, code});
}

bool LanDesk::stays_open() {
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (around_.now() - last_seen_ > idle_) {
      around_.tell({LanNews::Kind::closed, ""});
      return false;
    }
  }
  tell_code();
  return true;
}

bool LanDesk::knows(const Head& head) {
  if (!head.from_lan || !devices_.knows(head.cookie(cookie_name_))) return false;
  const std::lock_guard<std::mutex> lock(mutex_);
  last_seen_ = around_.now();
  return true;
}

Response LanDesk::standing() {
  Json tree;
  tree["server"] = "duskwire";
  tree["fingerprint"] = fingerprint_;
  tree["open"] = !pairing_.code().empty();
  return json_answer(200, tree);
}

Response LanDesk::pair(const std::string& body) {
  const formats::ParsedText parsed = formats::parse_text(body);
  if (!parsed.tree) return refuse_body("The body is no JSON that can be read.", parsed.problems);
  Body given(*parsed.tree);
  const std::string code = given.required_text("code", 20);
  const std::string name = given.required_text("name", name_limit_bytes);
  if (!given.problems().empty()) return refuse_body("Pairing takes a code and a name.", given.problems());
  if (name.empty() || !printable(name)) return refuse_body("Name this phone in 1 to 60 plain characters.", {});
  const Pairing::Verdict verdict = pairing_.judge(code);
  if (verdict == Pairing::Verdict::right) {
    const Result<std::string> secret = devices_.add(name, around_.now_utc());
    tell_code();
    if (!secret) return refuse(secret.error());
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      last_seen_ = around_.now();
    }
    around_.tell({LanNews::Kind::paired, name});
    Json tree;
    tree["device"] = secret.value().substr(0, secret.value().find('.'));
    Response response = json_answer(201, tree);
    response.fields.push_back({"Set-Cookie", fmt::format("{}={}; Max-Age={}; HttpOnly; SameSite=Strict; Path=/api",
                                                         cookie_name_, secret.value(), cookie_life.count())});
    return response;
  }
  if (verdict == Pairing::Verdict::wrong) around_.tell({LanNews::Kind::wrong_code, ""});
  tell_code();
  if (verdict == Pairing::Verdict::over) {
    return refuse(403, "forbidden",
                  "Too many wrong codes: nobody is paired any more. Start the server anew to pair a phone.");
  }
  return refuse(401, "unauthorised",
                "This is not the code of this moment. Type the one that stands on the server's screen now; it changes "
                "every two minutes, and after five wrong tries.");
}

}  // namespace duskwire::server
