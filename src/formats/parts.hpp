// SPDX-License-Identifier: Apache-2.0
// The parts of documents, each read in a file of its own. What is wrong goes into the context.
#pragma once

#include "formats/context.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

void read_part(Context& context, const Json& value, job::Site& out);
void read_part(Context& context, const Json& value, job::Client& out);
void read_part(Context& context, const Json& value, job::Practice& out);
void read_part(Context& context, const Json& value, job::Catalogue& out);
void read_part(Context& context, const Json& value, job::Plan& out);
void read_part(Context& context, const Json& value, job::Luminaire& out);
void read_part(Context& context, const Json& value, job::Transformer& out);
void read_part(Context& context, const Json& value, job::Cable& out);
void read_part(Context& context, const Json& value, job::Joint& out);

// A catalogue as a file of its own, with a head.
void read_catalogue_body(Context& context, const Json& value, job::Catalogue& out);

void read_part(Context& context, const Json& value, job::View& out);
void read_part(Context& context, const Json& value, job::ProgrammeEntry& out);
void read_part(Context& context, const Json& value, job::Offer& out);
void read_part(Context& context, const Json& value, job::LogEntry& out);
void read_part(Context& context, const Json& value, job::Visit& out);

// What several fields of one object must be together.
void check_whole(Context& context, const job::LuminaireItem& item);
void check_whole(Context& context, const job::ConnectorFill& fill);
void check_whole(Context& context, const job::Corners& corners);
void check_whole(Context& context, const job::Tree& tree);
void check_whole(Context& context, const job::PictureSurface& surface);
void check_whole(Context& context, const job::SwitchRule& rule);

}  // namespace duskwire::formats
