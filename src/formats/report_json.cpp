// SPDX-License-Identifier: Apache-2.0
#include "formats/report_json.hpp"

#include "formats/result_shape.hpp"
#include "formats/result_text.hpp"
#include "formats/shape_change.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json report_json(const study::Report& report) { return result_json(report); }

void append_report(std::string& out, const study::Report& report) { append_result(out, report); }

}  // namespace duskwire::formats
