// SPDX-License-Identifier: Apache-2.0
#include "cli/serve_options.hpp"

#include "server/lan_addresses.hpp"

namespace duskwire::cli {
namespace {

CLI::Option* list_option(CLI::App& app, const std::string& name, std::vector<std::string>& values,
                         const std::string& type, const std::string& help, const std::string& group) {
  return app.add_option(name, values, help)
      ->type_name(type)
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
      ->group(group);
}

CLI::Validator host_name() {
  return CLI::Validator(
      [](std::string& met) -> std::string {
        if (server::is_host_name(met)) return "";
        return "\"" + met + "\" is no name of a computer: letters, digits, dots and dashes, and a port behind a colon";
      },
      "");
}

}  // namespace

void add_serve(CLI::App& app, ServeRequest& request, const std::string& group) {
  app.add_option("--port", request.port, "0 for any that is free; 7415 where left out")
      ->type_name("N")
      ->check(CLI::Range(0, 65535))
      ->group(group);
  app.add_option("--workspace", request.workspace, "made where it is missing; gardens.duskwire where left out")
      ->type_name("FILE")
      ->group(group);
  app.add_option("--page", request.page, "the built page; found by itself where left out")
      ->type_name("FOLDER")
      ->group(group);
  list_option(app, "--add", request.jobs, "JOB", "a job file to put in, unless the workspace has that job", group);
  app.add_flag("--lan", request.lan, "opens a door to the local network, for phones that are paired with a code")
      ->group(group);
  app.add_option("--address", request.address, "open that door at this address alone; all private ones where left out")
      ->type_name("ADDRESS")
      ->group(group);
  app.add_option("--lan-minutes", request.lan_minutes,
                 "the door closes after so long without a paired phone; 30 where left out")
      ->type_name("N")
      ->check(CLI::Range(0.01, 1440.0))
      ->group(group);
  list_option(app, "--name", request.names, "NAME", "a further name of this server that a browser may ask for", group)
      ->check(host_name());
  app.get_help_ptr()->group(group);
}

void add_devices(CLI::App& app, DevicesRequest& request, const std::string& group) {
  app.add_option("WORKSPACE", request.workspace, "the workspace file")->required()->type_name("");
  list_option(app, "--forget", request.forget, "ID", "lets this phone in no more, a running server's too", group);
  app.get_help_ptr()->group(group);
}

void add_care(CLI::App& app, CareRequest& request, CareRequest::Act act, const std::string& file,
              const std::string& help, const std::string& group) {
  request.act = act;
  app.add_option(file, request.file, help)->required()->type_name("");
  app.add_option("--output", request.output, "the file to make; must not exist")
      ->type_name("FILE")
      ->required()
      ->group(group);
  app.get_help_ptr()->group(group);
}

}  // namespace duskwire::cli
