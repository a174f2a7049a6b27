// SPDX-License-Identifier: Apache-2.0
#include "formats/shape_tables.hpp"

#include "formats/result_advice.hpp"
#include "formats/result_choice.hpp"
#include "formats/result_levels.hpp"
#include "formats/result_locate.hpp"
#include "formats/result_photometry.hpp"
#include "formats/result_price.hpp"
#include "formats/result_route.hpp"
#include "formats/result_times.hpp"
#include "formats/result_trace.hpp"
#include "formats/shape_change.hpp"
#include "formats/shape_job.hpp"
#include "formats/shape_ruleset.hpp"
#include "formats/table_visitor.hpp"

namespace duskwire::formats {
namespace {

template <class T>
void add_shape(std::map<std::string, std::string>& tables) {
  TableVisitor<T> visitor;
  describe(Of<T>{}, visitor);
  tables[type_name(Of<T>{})] = visitor.table();
}

template <class T>
void add_result(std::map<std::string, std::string>& tables, const char* name) {
  ResultTable<T> visitor;
  describe_result(Of<T>{}, visitor);
  tables[name] = visitor.table();
}

template <class... T>
void add_shapes(std::map<std::string, std::string>& tables) {
  (add_shape<T>(tables), ...);
}

std::map<std::string, std::string> all_tables() {
  std::map<std::string, std::string> tables;
  add_shapes<job::Job, job::Site, job::Corners, job::Client, job::Wish, job::Practice, job::Catalogue,
             job::LuminaireItem, job::TransformerItem, job::CableItem, job::ConnectorItem, job::ConnectorFill,
             job::ControlItem, job::SundryItem, job::Plan, job::Underlay, job::Area, job::Sleeve, job::Receptacle,
             job::ViewPoint, job::Tree, job::FixedPoint, job::LightPlan, job::AcceptedSight, job::Luminaire,
             job::Transformer, job::Output, job::Cable, job::Joint, job::AsBuilt, job::Change>(tables);
  add_shapes<job::View, job::Calibration, job::KnownWall, job::ViewReference, job::PictureSurface, job::PictureTree,
             job::PictureMask, job::PictureMeasure, job::NightLook>(tables);
  add_shapes<job::ProgrammeEntry, job::SwitchRule>(tables);
  add_shapes<job::Offer, job::Rates, job::GroundRate, job::Margins, job::Terms, job::Warranty, job::OfferOption,
             job::ItemSwap, job::OfferExtra>(tables);
  add_shapes<job::Visit, job::Answers, job::Reading, job::LogEntry>(tables);
  add_shapes<study::Ruleset, study::Rule, study::Provenance>(tables);
  add_result<study::Report>(tables, "result: report");
  add_result<study::LampReport>(tables, "result: lamp");
  add_result<study::CableReport>(tables, "result: cable");
  add_result<study::OutputReport>(tables, "result: output");
  add_result<study::TransformerReport>(tables, "result: transformer");
  add_result<study::CornerReport>(tables, "result: corner");
  add_result<study::ShortReport>(tables, "result: short");
  add_result<study::MarginReport>(tables, "result: margin");
  add_result<study::Finding>(tables, "result: finding");
  add_result<study::Provenance>(tables, "result: provenance");
  add_result<study::Cure>(tables, "result: cure");
  add_result<study::Advice>(tables, "result: advice");
  add_result<study::TapAdvice>(tables, "result: tap advice");
  add_result<study::TapVerdict>(tables, "result: tap verdict");
  add_result<study::TransformerAdvice>(tables, "result: transformer advice");
  add_result<study::TransformerNeed>(tables, "result: transformer need");
  add_result<study::TransformerChoice>(tables, "result: transformer choice");
  add_result<study::ProtectionAdvice>(tables, "result: protection advice");
  add_result<study::Answer>(tables, "result: answer");
  add_result<study::Tried>(tables, "result: tried");
  add_result<study::RouteAnswer>(tables, "result: route");
  add_result<study::RouteFigures>(tables, "result: route figures");
  add_result<estimate::InstalledCost>(tables, "result: installed cost");
  add_result<estimate::Price>(tables, "result: price");
  add_result<estimate::PriceLine>(tables, "result: price line");
  add_result<estimate::WorkHours>(tables, "result: work hours");
  add_result<estimate::Deposit>(tables, "result: deposit");
  add_result<estimate::PricedOption>(tables, "result: priced option");
  add_result<estimate::Assumption>(tables, "result: assumption");
  add_result<estimate::PriceDifference>(tables, "result: price difference");
  add_result<estimate::LineDifference>(tables, "result: line difference");
  add_result<study::PriceBand>(tables, "result: price band");
  add_result<study::BandPart>(tables, "result: band part");
  add_result<study::RouteRun>(tables, "result: route run");
  add_result<study::RouteObstacle>(tables, "result: route obstacle");
  add_result<study::RouteProgress>(tables, "result: route progress");
  add_shapes<study::LevelSet, study::LevelTarget>(tables);
  add_result<study::Levels>(tables, "result: levels");
  add_result<study::LampLevels>(tables, "result: lamp levels");
  add_result<study::BounceLevels>(tables, "result: bounce levels");
  add_result<study::PlaceLevels>(tables, "result: place levels");
  add_result<study::LuxFigures>(tables, "result: lux figures");
  add_result<study::TreadLevels>(tables, "result: tread levels");
  add_result<study::LevelVerdict>(tables, "result: level verdict");
  add_result<study::SpillEdge>(tables, "result: spill edge");
  add_result<study::WindowSpill>(tables, "result: window spill");
  add_result<study::SightLine>(tables, "result: sight line");
  add_result<study::BrightnessRow>(tables, "result: brightness");
  add_result<study::UpwardLight>(tables, "result: upward light");
  add_result<study::NightPlan>(tables, "result: night plan");
  add_result<study::LightContour>(tables, "result: light contour");
  add_result<study::Times>(tables, "result: times");
  add_result<study::DayRow>(tables, "result: day");
  add_result<study::SunTimes>(tables, "result: sun times");
  add_result<study::EntryTimes>(tables, "result: entry times");
  add_result<study::MonthTimes>(tables, "result: month");
  add_result<study::ClockChangeDay>(tables, "result: clock change");
  add_result<study::EntryYear>(tables, "result: entry year");
  add_result<study::LampBurn>(tables, "result: lamp burn");
  add_result<study::SupplyEnergy>(tables, "result: supply energy");
  add_result<study::Retrofit>(tables, "result: retrofit");
  add_result<study::RetrofitSide>(tables, "result: retrofit side");
  add_result<study::Choice>(tables, "result: choice");
  add_result<study::ChoiceNeed>(tables, "result: choice need");
  add_result<study::ChoiceOption>(tables, "result: choice option");
  add_result<study::ChosenLamp>(tables, "result: chosen lamp");
  add_result<study::Located>(tables, "result: located");
  add_result<study::LocatedCause>(tables, "result: located cause");
  add_result<study::LocatedFault>(tables, "result: located fault");
  add_result<study::LocatedBracket>(tables, "result: located bracket");
  add_result<study::LocatedPlace>(tables, "result: located place");
  add_result<study::DigSpot>(tables, "result: dig spot");
  add_result<study::TapeOffsets>(tables, "result: tape offsets");
  add_result<study::TapeOffset>(tables, "result: tape offset");
  add_result<study::NextToRead>(tables, "result: next to read");
  add_result<study::ForetoldOutcome>(tables, "result: foretold outcome");
  add_result<study::ComparedReading>(tables, "result: compared reading");
  add_result<study::UnusedReading>(tables, "result: unused reading");
  add_result<study::Unseen>(tables, "result: unseen");
  add_result<study::Drift>(tables, "result: drift");
  add_result<study::RunRoom>(tables, "result: run room");
  add_shapes<study::TraceRequest, study::WalkedRun, study::WalkedWay, study::WalkedClamp>(tables);
  add_result<study::Traced>(tables, "result: traced");
  add_result<study::LampFound>(tables, "result: lamp found");
  add_result<study::PlaceFound>(tables, "result: place found");
  add_result<study::RunFound>(tables, "result: run found");
  add_result<study::CableFound>(tables, "result: cable found");
  add_result<study::PartFound>(tables, "result: part found");
  add_result<study::TraceStep>(tables, "result: trace step");
  add_result<study::PhotometryReport>(tables, "result: photometry");
  add_result<light::Keyword>(tables, "result: photometry label");
  add_result<light::Opening>(tables, "result: luminous opening");
  add_result<light::Photometry>(tables, "result: photometry light");
  add_result<light::BeamAngles>(tables, "result: beam angles");
  add_result<light::ZonalRow>(tables, "result: zonal row");
  add_result<light::BugRating>(tables, "result: bug rating");
  add_result<light::LcsFlux>(tables, "result: lcs flux");
  add_result<light::BugLimit>(tables, "result: bug limit");
  add_result<light::PolarCurve>(tables, "result: polar curve");
  add_result<light::PolarPoint>(tables, "result: polar point");
  return tables;
}

}  // namespace

std::string with_tables(std::string_view page) {
  constexpr std::string_view begin_mark = "<!-- table ";
  constexpr std::string_view mark_end = " -->\n";
  constexpr std::string_view end_mark = "<!-- end -->";
  const std::map<std::string, std::string> tables = all_tables();
  std::string out;
  for (;;) {
    const std::size_t begin = page.find(begin_mark);
    const std::size_t name_end = page.find(mark_end, begin);
    const std::size_t end = page.find(end_mark, begin);
    if (begin == std::string_view::npos || name_end == std::string_view::npos || end == std::string_view::npos) break;
    const std::string name(page.substr(begin + begin_mark.size(), name_end - begin - begin_mark.size()));
    out += page.substr(0, name_end + mark_end.size());
    const auto table = tables.find(name);
    if (table != tables.end()) out += table->second;
    out += end_mark;
    page.remove_prefix(end + end_mark.size());
  }
  return out + std::string(page);
}

}  // namespace duskwire::formats
