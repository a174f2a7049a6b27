// SPDX-License-Identifier: Apache-2.0
// Figures as a crew reads them: metres or feet with one decimal, tapes in feet and inches, covers in millimetres or
// inches. Used by the crew's papers and their drawings alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::paper {

// "12.4" with the unit in the table's head.
[[nodiscard]] std::string length_figure(double length_m, job::DisplayUnits units);
[[nodiscard]] const char* length_unit_name(job::DisplayUnits units);  // "m", "ft"
// "12.4 m", "40.7 ft".
[[nodiscard]] std::string length_words(double length_m, job::DisplayUnits units);
// "3.42 m", "11 ft 3 in", "8 in".
[[nodiscard]] std::string tape_words(double length_m, job::DisplayUnits units);
// "150 mm", "6 in"; a dash where it is not known.
[[nodiscard]] std::string cover_words(const std::optional<double>& cover_m, job::DisplayUnits units);

[[nodiscard]] std::string volts_figure(double volts);  // "11.52"
[[nodiscard]] std::string amps_figure(double amps);    // "3.59"
[[nodiscard]] std::string va_figure(double va);        // "42", "4.5"

// "In line", "Branch", "Hub", "End of run"; "Nothing joined".
[[nodiscard]] const char* joint_kind_words(const std::optional<job::JointKind>& kind);

// All of them, none left out: "C1, C2, C3".
[[nodiscard]] std::string joined(const std::vector<std::string>& names, const char* between = ", ");

// "J4 Hub, west bed" where there is a name.
[[nodiscard]] std::string id_and_name(const std::string& id, const std::string& name);

}  // namespace duskwire::paper
