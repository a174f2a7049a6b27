// SPDX-License-Identifier: Apache-2.0
// Jobs made by hand for the tests of this room: an ideal world without slack, contacts or corners unless a test adds
// them, so that expected numbers can be worked out on paper.
#pragma once

#include <string>

#include "job/job.hpp"

namespace duskwire::study::tests {

// Luminaires "uplight-6va", "path-3va", "wash-9va" (window 10 to 15 V, regulated from 9 V), cables "16awg-2" ...
// "8awg-2", transformers "ideal" (1 output), "tr-300", "tr-600" (2 outputs), "tr-900" (3 outputs), connector "gel".
[[nodiscard]] job::Catalogue stock();

// No slack, corners of mains only at +-5 %, all lamps on.
[[nodiscard]] job::Job plain_job();

job::Transformer& add_transformer(job::Job& job, const std::string& id, const std::string& item,
                                  const std::string& output, double tap_v);
void add_output(job::Job& job, const std::string& id, double tap_v);  // to the last transformer
job::Joint& add_joint(job::Job& job, const std::string& id);
job::Cable& add_cable(job::Job& job, const std::string& id, const std::string& item, const std::string& from,
                      const std::string& to, double length_m);
job::Luminaire& add_lamp(job::Job& job, const std::string& id, const std::string& item);

// Acceptance site: transformer T, 30 m of 12 AWG to splice S1, 15 m more to S2; F1 to F4 of 6 VA on 8 m leads at S1,
// F5 to F7 of 3 VA on 5 m leads and F8 of 9 VA on a 10 m lead at S2; leads of 14 AWG. Tap 13, ideal source.
[[nodiscard]] job::Job two_splice_site();
void set_window(job::Job& job, double min_v, double max_v);  // of every luminaire item

// A run of `length_m` of 12 AWG with one small lamp at its end, 13 V behind 0.03 ohm, 25 A protection.
[[nodiscard]] job::Job single_run(double length_m);

// `chains` runs of `lamps` each, 4 m apart, spliced at a joint beside each lamp, 12 AWG.
[[nodiscard]] job::Job chained_garden(int chains, int lamps, double tap_v);

}  // namespace duskwire::study::tests
