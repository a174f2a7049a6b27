// SPDX-License-Identifier: Apache-2.0
#include "paper/text_sections.hpp"

namespace duskwire::paper {

Section text_section(PageSize size) {
  Section section;
  section.setup.size = size;
  section.setup.margin_mm = 13;
  return section;
}

List cautions_for_owners() {
  return {
      {"Low voltage does not mean safe from fire. A circuit can carry up to 25 A, and a short far out may not trip "
       "anything. If a cable or a terminal is warm, switch off and call.",
       "Switch off and unplug before anything is opened. Work on the mains side, the receptacle or its breaker "
       "belongs to a licensed electrician.",
       "Never fit a larger breaker or fuse, and never join two outputs or two taps.",
       "Keep cable, joints and transformers away from pools, spas and fountains: 3 m (10 ft) at least, unless all of "
       "it is listed for the place.",
       "Before anybody digs: look at the map, have public lines marked, and dig by hand near marks. Private lines "
       "such as irrigation or gas to a grill are not marked by a public service.",
       "A residual-current (GFCI) receptacle that keeps tripping has found something. It must not be replaced by a "
       "plain one.",
       "Lights high in a tree are for people who are trained for it. Keep away from power lines.",
       "Another lamp, or one more, changes volts and amps for all lamps on that run. Have the tap looked at again.",
       "Local rules for outdoor light, and those of the neighbourhood, come before this paper."},
      Mark::bullet};
}

}  // namespace duskwire::paper
