// SPDX-License-Identifier: Apache-2.0
// The shop's own catalogue, with its revisions.
#include "server/answers.hpp"
#include "server/body.hpp"
#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

Response open_shop_catalogue(const Call& call) {
  const auto shop = call.workspace.shop_catalogue();
  if (!shop) return refuse(shop.error());
  if (shop.value().revision == 0) return json_text_answer(200, R"({"revision":0,"changed":null,"document":null})");
  Json head;
  head["revision"] = shop.value().revision;
  head["changed"] = shop.value().changed;
  head["checksum"] = shop.value().checksum;
  std::string text = formats::compact_text(head);
  text.back() = ',';
  return json_text_answer(200, text + "\"document\":" + shop.value().document + "}");
}

Response save_shop_catalogue(const Call& call) {
  Body body(call.body);
  store::ShopCatalogueSave save;
  save.base_revision = body.whole_number("base_revision");
  save.base_checksum = body.text("base_checksum", checksum_digits);
  save.save_id = body.id("save_id");
  save.document = body.document("duskwire-catalogue", "");
  if (!body.problems().empty())
    return refuse_body("The catalogue cannot be read; nothing was stored.", body.problems());
  const store::SaveOutcome outcome = call.workspace.save_shop_catalogue(save);
  if (const auto* error = std::get_if<Error>(&outcome)) return refuse(*error);
  if (const auto* conflict = std::get_if<store::Conflict>(&outcome))
    return refuse_conflict(*conflict, "The shop catalogue");
  return json_answer(200, saved_json(std::get<store::Saved>(outcome)));
}

}  // namespace duskwire::server
