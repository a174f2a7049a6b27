// SPDX-License-Identifier: Apache-2.0
#include "study/finding_text.hpp"

#include <fmt/format.h>

#include "study/cure_text.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

constexpr const char* computed = "computed";
constexpr const char* habit = "common practice, no source";

class Words {
 public:
  Words(const Built& built, const Numbers& numbers, const Trouble& trouble)
      : built_(built), job_(*built.job), numbers_(numbers), trouble_(trouble), id_(id_of(job_, trouble.spot)) {}

  Finding run() {
    finding_.id = finding_id(trouble_.kind);
    finding_.severity = severity_of(trouble_.kind);
    finding_.subject = id_;
    finding_.pointer = pointer_of(trouble_.spot);
    finding_.provenance.status = computed;
    if (trouble_.kind <= TroubleKind::lamp_fed_twice) {
      say_description();
    } else if (trouble_.kind <= TroubleKind::unsolved) {
      say_shape();
    } else if (trouble_.kind <= TroubleKind::lamp_high) {
      say_lamp();
    } else {
      say_load();
    }
    return std::move(finding_);
  }

 private:
  void measure(const char* unit) {
    finding_.measured = trouble_.measured;
    finding_.limit = trouble_.limit;
    finding_.unit = unit;
  }

  [[nodiscard]] std::string name() const {
    switch (trouble_.spot.kind) {
      case SpotKind::luminaire:
        return called(id_, job_.luminaires[trouble_.spot.index].name);
      case SpotKind::transformer:
        return called(id_, job_.transformers[trouble_.spot.index].name);
      case SpotKind::joint:
        return called(id_, job_.joints[trouble_.spot.index].name);
      default:
        return id_;
    }
  }

  void say_description() {
    std::string& message = finding_.message;
    switch (trouble_.kind) {
      case TroubleKind::duplicate_id:
        message = fmt::format("The id {} is used more than once: cables find only the first. Rename the others.", id_);
        break;
      case TroubleKind::bad_value:
        message = fmt::format("{} of {} is {:g}, which no real part has. The numbers are computed without it.",
                              trouble_.detail, id_, trouble_.measured);
        break;
      case TroubleKind::unknown_item:
        message = trouble_.detail.empty()
                      ? fmt::format("{} names no item of the catalogue.", name())
                      : fmt::format("{} is of item {}, which is not in the job's catalogue.", name(), trouble_.detail);
        message += " It is left out of the numbers.";
        break;
      case TroubleKind::unknown_joint:
        message = fmt::format("The lead of {} goes to {}, which is no joint of the job.", name(), trouble_.detail);
        break;
      case TroubleKind::dangling_cable:
        message = trouble_.detail.empty()
                      ? fmt::format("Cable {} has a loose end.", id_)
                      : fmt::format("Cable {} goes to {}, which is no output, joint or luminaire of the job.", id_,
                                    trouble_.detail);
        message += " It is left out of the numbers.";
        break;
      case TroubleKind::cable_on_itself:
        message = fmt::format("Cable {} begins and ends at {}. It is left out of the numbers.", id_, trouble_.detail);
        break;
      case TroubleKind::length_missing:
        message = trouble_.measured < 0
                      ? fmt::format("Cable {} is {:g} m long. It is left out of the numbers.", id_, trouble_.measured)
                      : fmt::format(
                            "Cable {} has no length and no route to take it from. It is left out of the "
                            "numbers.",
                            id_);
        break;
      default:
        say_rest_of_description();
    }
  }

  void say_rest_of_description() {
    std::string& message = finding_.message;
    switch (trouble_.kind) {
      case TroubleKind::length_zero:
        message = fmt::format("Cable {} is of no length: only its slack counts. Measure the route.", id_);
        break;
      case TroubleKind::lead_size_missing:
        message = fmt::format("The lead of {} has no conductor size in item {}: it is taken to have no resistance.",
                              name(), trouble_.detail);
        break;
      case TroubleKind::tap_not_offered:
        message = fmt::format("Output {} is on a tap of {}, which a {} does not have.", id_,
                              worded(trouble_.measured, volt_unit), trouble_.detail);
        break;
      case TroubleKind::too_many_outputs:
        message = fmt::format("Transformer {} is drawn with {:g} outputs, a {} has {:g}.", name(), trouble_.measured,
                              trouble_.detail, trouble_.limit);
        measure("");
        break;
      case TroubleKind::no_lamps:
        message = "The job has no luminaires yet.";
        break;
      case TroubleKind::output_unused:
        message = fmt::format("Nothing is connected to output {}.", id_);
        break;
      case TroubleKind::cables_at_lamp:
        message = fmt::format(
            "Two or more cables meet at {} without a joint. Their splice is neither counted nor on the list of "
            "materials: draw a joint there.",
            trouble_.detail);
        break;
      case TroubleKind::lamp_fed_twice:
        message = fmt::format("{} hangs on joint {} by its lead and has a cable of its own as well: keep one.", name(),
                              job_.luminaires[trouble_.spot.index].joint);
        break;
      default:
        break;
    }
  }

  void say_shape() {
    std::string& message = finding_.message;
    switch (trouble_.kind) {
      case TroubleKind::island:
        message = trouble_.detail.empty()
                      ? fmt::format("{} is connected to no output.", name())
                      : fmt::format("{} and what hangs on it are connected to no output: {} dark ({}).", name(),
                                    counted(static_cast<std::size_t>(trouble_.measured), "lamp"), trouble_.detail);
        break;
      case TroubleKind::lamp_no_supply:
        message = fmt::format("{} has no supply: no cable ends at it and it hangs on no joint.", name());
        break;
      case TroubleKind::outputs_joined:
        message = fmt::format(
            "{} joins outputs {}. Outputs must never be connected with each other: each then feeds the other's "
            "faults, and opening one leaves the run live.",
            name(), trouble_.detail);
        finding_.provenance = {"", "", habit, "never parallel outputs or taps"};
        break;
      case TroubleKind::crossed_loop:
        message = fmt::format(
            "A loop is closed with its conductors crossed, at {}: that is a dead short. Swap the two conductors at "
            "one end, and before closing a loop read 0 V between the conductors that are to meet.",
            name());
        break;
      default:
        message = trouble_.detail.empty()
                      ? "No steady state was found in every corner: the volts shown may be wrong there."
                      : trouble_.detail;
    }
  }

  [[nodiscard]] const Lamp& lamp() const { return built_.lamps[trouble_.spot.index]; }

  [[nodiscard]] std::string corner(std::uint32_t index) const {
    return corner_words(built_.corners[index], built_.corners.front());
  }

  void say_lamp() {
    measure("V");
    finding_.provenance = {"window of the item", "", computed, "go by the marking of the article"};
    const LampNumbers& numbers = numbers_.lamps[trouble_.spot.index];
    const std::string nominal = worded(numbers.nominal_v, volt_unit);
    const WordedPair volts = worded_apart(trouble_.measured, trouble_.limit, volt_unit);
    std::string& message = finding_.message;
    switch (trouble_.kind) {
      case TroubleKind::lamp_off:
        message = fmt::format("{} stays dark: it sees {}, its window is {}.", name(), nominal, window_words(lamp()));
        break;
      case TroubleKind::lamp_not_regulated:
        message =
            fmt::format("{} is dim: it sees {} and holds its light from {} up ({} at worst, {}).", name(),
                        volts.measured, volts.limit, worded(numbers.low_v, volt_unit), corner(numbers.low_corner));
        break;
      case TroubleKind::lamp_low:
        message = fmt::format("{} sees {} nominally and {} at worst ({}): below {}.", name(), nominal, volts.measured,
                              corner(trouble_.other), low_limit(volts.limit));
        break;
      default:
        message = fmt::format("{} sees {} nominally and {} at worst ({}): above its window of {}.", name(), nominal,
                              volts.measured, corner(trouble_.other), window_words(lamp(), {}, volts.limit));
    }
  }

  [[nodiscard]] std::string low_limit(const std::string& limit) const {
    if (trouble_.limit > lamp().window_min_v) return fmt::format("the {} from which it holds its light", limit);
    return fmt::format("its window of {}", window_words(lamp(), limit));
  }

  void say_load() {
    std::string& message = finding_.message;
    switch (trouble_.kind) {
      case TroubleKind::output_overload:
      case TroubleKind::output_headroom:
        say_output();
        break;
      case TroubleKind::transformer_overload:
      case TroubleKind::transformer_headroom:
        say_transformer();
        break;
      case TroubleKind::far_short: {
        measure("A");
        const WordedPair amps = worded_apart(trouble_.measured, trouble_.limit, ampere_unit);
        message = fmt::format(
            "A short at {} draws only {} from output {}, below its {} protection: the breaker may never trip while "
            "the cable heats. Shorten, thicken, or fit a smaller breaker.",
            id_of(job_, built_.spot_of_node(trouble_.other)), amps.measured, id_, amps.limit);
        finding_.provenance.note =
            "bolted short, lamps ignored; corner: " + corner_words(built_.weakest, built_.corners.front());
        break;
      }
      default:
        say_margin();
    }
  }

  void say_output() {
    measure("A");
    const WordedPair amps = worded_apart(trouble_.measured, trouble_.limit, ampere_unit);
    const bool over = trouble_.kind == TroubleKind::output_overload;
    finding_.message =
        over ? fmt::format("Output {} carries {} at worst, its protection opens at {}: it goes dark.", id_,
                           amps.measured, amps.limit)
             : fmt::format("Output {} carries {} at worst; {} are to be used.", id_, amps.measured, amps.limit);
    if (!over) finding_.provenance = {"", "", habit, "share of the limit that the shop uses"};
  }

  void say_transformer() {
    measure("VA");
    const WordedPair va = worded_apart(trouble_.measured, trouble_.limit, volt_ampere_unit);
    const double lamp_w = numbers_.transformers[trouble_.spot.index].lamp_w;
    const std::string load = fmt::format("Transformer {} has to deliver {} at worst (its lamps are {})", name(),
                                         va.measured, worded(lamp_w, {1, "W", 0}));
    const bool over = trouble_.kind == TroubleKind::transformer_overload;
    finding_.message = over ? fmt::format("{}: over its rating of {}. VA count, not watts.", load, va.limit)
                            : fmt::format("{}; {} of its rating are to be used.", load, va.limit);
    if (!over) finding_.provenance = {"", "", habit, "share of the rating that the shop uses"};
  }

  void say_margin() {
    measure("");
    const bool load = trouble_.kind == TroubleKind::load_margin;
    finding_.message =
        fmt::format("Close to collapse: {:.0f} % more {} and {} leaves regulation. A reserve of {:.0f} % is wanted.",
                    100 * (trouble_.measured - 1), load ? "load" : "cable length", name(), 100 * (trouble_.limit - 1));
    finding_.provenance.note = "the reserve is a choice of this tool, not a rule";
  }

  const Built& built_;
  const job::Job& job_;
  const Numbers& numbers_;
  const Trouble& trouble_;
  std::string id_;
  Finding finding_;
};

}  // namespace

Finding to_finding(const Built& built, const Numbers& numbers, const Trouble& trouble) {
  return Words(built, numbers, trouble).run();
}

}  // namespace duskwire::study
