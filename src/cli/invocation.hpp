// SPDX-License-Identifier: Apache-2.0
// What the user asked for, as plain values: one struct a command, made by parse.hpp from the command line.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cli/check_page.hpp"
#include "cli/terminal.hpp"
#include "job/site.hpp"
#include "study/levels.hpp"
#include "study/night_session.hpp"
#include "study/route.hpp"

namespace duskwire::cli {

// Options that most commands share.
struct Common {
  bool json = false;
  std::optional<job::DisplayUnits> units;  // absent: as the job says
  std::string ruleset;                     // id or file; empty: as the job says
  std::string catalogue;                   // a shop's own file; empty: the stock
  ColourChoice colour = ColourChoice::automatic;
  std::string output;  // file; empty: standard output (route: the planned job goes nowhere; night: asks for it)
  bool force = false;  // may replace `output`
};

struct CheckRequest {
  std::string job;
  Detail detail = Detail::usual;
  bool cures = true;
};

struct AdviseRequest {
  std::string job;
};

struct MaterialsRequest {
  std::string job;
};

struct PriceRequest {
  std::string job;
  std::string against;  // another job's file, to tell why the price moved; empty: none
};

struct RouteRequest {
  std::string job;
  study::RouteRequest asked;      // but for the rates
  std::string labour;             // an hour's cost as typed, in the site's currency; empty: as the job says
  std::optional<double> exact_s;  // so long an exact solver may take to prove how good the plan is
  std::optional<double> limit_s;  // absent: the usual, or no limit where steps are counted
};

struct NightRequest {
  std::string job;
  study::NightWish wish;                  // without trials of lamps
  std::string photo;                      // file; empty: as the view names it
  std::optional<std::uint32_t> width_px;  // of the picture; absent: as the photograph
};

// Texts as typed; "" where left out. --output of the shared options names the folder.
struct PapersRequest {
  std::string job;
  std::string only;  // names of papers with commas between
  std::string size;  // a4 or letter
  std::string shop;
  std::string made_by;
  std::string date;
  std::string revision;
  std::string zip;  // file for one archive of all
};

// The job of a file, or one of a workspace. --output of the shared options names the archive.
struct ExportRequest {
  std::string job;        // file; empty: of the workspace
  std::string workspace;  // file; empty: none
  std::string id;         // of the job in the workspace
  bool without_papers = false;
  std::string shop;
  std::string made_by;
  std::string date;  // of the papers; empty: today
};

// --output of the shared options names the folder that the job goes into.
struct ImportRequest {
  std::string archive;
  std::string workspace;  // file to put the job into; empty: none
};

struct ValidateRequest {
  std::string job;
};

struct NewRequest {
  std::string title;
  std::string lamps;  // CSV file; empty: a small garden to change
};

// Texts as typed, read by ask_command; "" where the part was left out, and that is what is asked for.
struct AskRequest {
  std::string lamps;
  std::string watts;
  std::string power_factor = "1";
  std::string length;
  std::string cable;
  std::string tap;
  std::string spread = "chain";
  std::string source_ohm = "0.03";
  std::string window = "10:15";
  std::string mains_tolerance = "5";
};

struct CatalogueRequest {
  std::string word;
};

struct LevelsRequest {
  std::string job;
  std::string photometry;  // an intensity file to look at instead of a job
  std::string lm63_file;   // where its light is written as LM-63; empty: nowhere
  study::LevelsOptions asked;
  std::string plan_file;  // .png or .svg; empty: no drawing
  bool pools = false;     // the drawing as pools of light, not in false colour
  bool full = false;
};

// Lengths as typed; "" where left out. Without a job the sizes make a garden of one thing.
struct ChooseRequest {
  std::string job;
  std::string tree;
  std::string area;
  std::string face;
  std::string item;
  std::string targets;
  std::string setback;
  std::string spacing;
  std::string pool;
  std::vector<std::string> risers;
  std::string crown;  // without a job: WIDTH:BASE:TOP
  std::string walk;   // LENGTH:WIDTH
  std::string wall;   // LENGTH:HEIGHT
};

struct MeasureRequest {
  std::string job;
  std::string view;   // id or name; empty: the first
  std::string photo;  // the picture file, for its size and its camera's note; empty: as the job says
};

// Texts as typed, read by look_command.
struct LookRequest {
  std::string known;                // NAME:SIZE:PX
  std::vector<std::string> things;  // NAME:PX
  std::string note;
  double depth_error_pct = 15;
};

struct TimesRequest {
  std::string job;
  std::optional<int> year;    // absent: this year
  std::string kwh_price;      // as typed, in the site's currency; empty: none
  std::string calendar_file;  // .ics to write; empty: none
  bool full = false;          // each day
};

struct LocateRequest {
  std::string job;
  std::string readings_file;           // CSV; empty: those of the visit
  std::optional<std::uint32_t> visit;  // counted from 1, as the page does
};

struct TraceRequest {
  std::string job;
  std::string walk_file;  // JSON, as docs/results.md has it
};

struct ServeRequest {
  int port = 7415;  // 0: any that is free
  std::string workspace = "gardens.duskwire";
  std::string page;               // folder; empty: the built page beside the program
  std::vector<std::string> jobs;  // files, put in where the workspace has no job of that id
  bool lan = false;
  std::string address;      // of the door to the local network; empty: all private ones
  double lan_minutes = 30;  // without a paired phone
  std::vector<std::string> names;
};

struct DevicesRequest {
  std::string workspace;
  std::vector<std::string> forget;  // ids; empty: list them
};

// backup, restore or salvage of a workspace's file.
struct CareRequest {
  enum class Act { back_up, restore, salvage };
  Act act = Act::back_up;
  std::string file;    // read, never changed
  std::string output;  // made; must not exist
};

using Request = std::variant<ExportRequest, ImportRequest, PriceRequest, MeasureRequest, LookRequest, CheckRequest,
                             AdviseRequest, MaterialsRequest, RouteRequest, NightRequest, PapersRequest,
                             ValidateRequest, NewRequest, AskRequest, CatalogueRequest, LevelsRequest, ChooseRequest,
                             TimesRequest, LocateRequest, TraceRequest, ServeRequest, DevicesRequest, CareRequest>;

struct Invocation {
  Common common;
  Request request;
};

}  // namespace duskwire::cli
