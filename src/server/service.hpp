// SPDX-License-Identifier: Apache-2.0
// The whole of what the server answers: gate first, then session, routes and the page's files. Knows no socket.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "server/gate.hpp"
#include "server/http.hpp"
#include "server/lan_desk.hpp"
#include "server/night_desk.hpp"
#include "server/page_files.hpp"
#include "server/paper_desk.hpp"
#include "server/picture_codec.hpp"
#include "server/routes.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

class Service : public Handler {
 public:
  // `workspace_name`: what the page calls the workspace. The workspace outlives the service.
  Service(store::Workspace& workspace, std::string workspace_name, Gate gate, PageFiles page,
          PictureTools pictures = {}, std::shared_ptr<LanDesk> lan = nullptr);

  Admission admit(const Head& head) override;
  Response answer(const Head& head, const std::string& body) override;

 private:
  [[nodiscard]] Response answer_api(const Head& head, const std::string& body) const;
  [[nodiscard]] bool knows(const Head& head) const;
  [[nodiscard]] Response answer_session(const Head& head, const std::string& body) const;
  [[nodiscard]] Admission admit_api(const Head& head) const;

  store::Workspace& workspace_;
  mutable NightDesk nights_;
  mutable PaperDesk papers_;
  std::string workspace_name_;
  Gate gate_;
  PageFiles page_;
  PictureTools pictures_;
  std::shared_ptr<LanDesk> lan_;  // none: the door to the local network stays shut
};

// What every answer carries, errors too.
void add_standing_fields(Response& response);

}  // namespace duskwire::server
