// SPDX-License-Identifier: Apache-2.0
// The commands, one function and one file each: a request in, what to print and how to end out. They read files, never
// write them; app.cpp does. serve alone stays, speaks while it runs, and keeps its workspace file; devices changes
// the list beside it.
#pragma once

#include "cli/invocation.hpp"
#include "cli/parse.hpp"
#include "cli/text_style.hpp"

namespace duskwire::cli {

[[nodiscard]] Outcome check_command(const CheckRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome advise_command(const AdviseRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome materials_command(const MaterialsRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome price_command(const PriceRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome route_command(const RouteRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome night_command(const NightRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome papers_command(const PapersRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome export_command(const ExportRequest& request, const Common& common, const TextStyle& style);
// Writes its files itself where they go into a workspace.
[[nodiscard]] Outcome import_command(const ImportRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome validate_command(const ValidateRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome new_command(const NewRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome ask_command(const AskRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome catalogue_command(const CatalogueRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome levels_command(const LevelsRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome times_command(const TimesRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome choose_command(const ChooseRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome measure_command(const MeasureRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome look_command(const LookRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome trace_command(const TraceRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome locate_command(const LocateRequest& request, const Common& common, const TextStyle& style);
// What levels_command does where an intensity file is named.
[[nodiscard]] Outcome photometry_command(const LevelsRequest& request, const Common& common, const TextStyle& style);
[[nodiscard]] Outcome serve_command(const ServeRequest& request, const TextStyle& style);
[[nodiscard]] Outcome devices_command(const DevicesRequest& request, const TextStyle& style);
// backup, restore, salvage: each writes a new workspace.
[[nodiscard]] Outcome care_command(const CareRequest& request);

}  // namespace duskwire::cli
