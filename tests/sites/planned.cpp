// SPDX-License-Identifier: Apache-2.0
#include "sites/planned.hpp"

#include "sites/stock.hpp"

namespace duskwire::sites {

study::RouteAnswer planned(const job::Job& site, const study::RouteRequest& request) {
  study::Router router(site, us_rules(), stock(), request);
  router.improve([] { return true; });
  return router.answer();
}

}  // namespace duskwire::sites
