// SPDX-License-Identifier: Apache-2.0
// The shapes against the structs that they describe, as the headers spell them: no field may be forgotten, and a key is
// the field's name.
#include <gtest/gtest.h>

#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "formats/documents.hpp"
#include "formats/result_advice.hpp"
#include "formats/shape_change.hpp"
#include "formats/shape_job.hpp"
#include "formats/shape_ruleset.hpp"

namespace duskwire::formats {
namespace {

using Names = std::set<std::string>;

// Members by struct, from the text of a header.
std::map<std::string, Names> members_in(const std::string& header) {
  static const std::regex begin(R"(struct (\w+) \{)");
  static const std::regex member(R"(  [\w:<>, ]+ (\w+)(?: = [^;]*|\{[^;]*\})?;.*)");
  std::map<std::string, Names> structs;
  std::istringstream in(project_file("src/" + header));
  std::string current;
  for (std::string line; std::getline(in, line);) {
    std::smatch match;
    if (std::regex_match(line, match, begin)) current = match[1];
    if (line == "};") current.clear();
    if (!current.empty() && std::regex_match(line, match, member)) structs[current].insert(match[1]);
  }
  return structs;
}

template <class T>
struct NameVisitor {
  Names names;
  template <class M, class Rule>
  void field(const char* key, M T::*, const Rule&, Need, const char* meaning) {
    EXPECT_TRUE(names.insert(key).second) << key;
    EXPECT_STRNE(meaning, "") << key;
  }
  template <class M>
  void result(const char* key, M T::*, const char* meaning) {
    EXPECT_TRUE(names.insert(key).second) << key;
    EXPECT_STRNE(meaning, "") << key;
  }
};

template <class T>
Names described() {
  NameVisitor<T> visitor;
  if constexpr (requires { describe_result(Of<T>{}, visitor); }) {
    describe_result(Of<T>{}, visitor);
  } else {
    describe(Of<T>{}, visitor);
  }
  if constexpr (requires(T t) { t.extra; }) visitor.names.insert("extra");
  return visitor.names;
}

TEST(Shapes, EveryFieldOfTheCatalogueIsDescribed) {
  const auto structs = members_in("job/catalogue.hpp");
  EXPECT_EQ(structs.at("LuminaireItem").size(), 23u);  // counted by hand: the test itself reads headers rightly
  EXPECT_EQ(described<job::LuminaireItem>(), structs.at("LuminaireItem"));
  EXPECT_EQ(described<job::TransformerItem>(), structs.at("TransformerItem"));
  EXPECT_EQ(described<job::CableItem>(), structs.at("CableItem"));
  EXPECT_EQ(described<job::ConnectorFill>(), structs.at("ConnectorFill"));
  EXPECT_EQ(described<job::ConnectorItem>(), structs.at("ConnectorItem"));
  EXPECT_EQ(described<job::ControlItem>(), structs.at("ControlItem"));
  EXPECT_EQ(described<job::SundryItem>(), structs.at("SundryItem"));
  EXPECT_EQ(described<job::Catalogue>(), structs.at("Catalogue"));
  EXPECT_EQ(structs.size(), 8u);
}

TEST(Shapes, EveryFieldOfTheSiteIsDescribed) {
  const auto structs = members_in("job/site.hpp");
  EXPECT_EQ(described<job::Corners>(), structs.at("Corners"));
  EXPECT_EQ(described<job::Site>(), structs.at("Site"));
  EXPECT_EQ(described<job::Wish>(), structs.at("Wish"));
  EXPECT_EQ(described<job::Client>(), structs.at("Client"));
  EXPECT_EQ(described<job::Practice>(), structs.at("Practice"));
  EXPECT_EQ(structs.size(), 5u);
}

TEST(Shapes, EveryFieldOfThePlanIsDescribed) {
  const auto structs = members_in("job/plan.hpp");
  EXPECT_EQ(described<job::Area>(), structs.at("Area"));
  EXPECT_EQ(described<job::Underlay>(), structs.at("Underlay"));
  EXPECT_EQ(described<job::Sleeve>(), structs.at("Sleeve"));
  EXPECT_EQ(described<job::Receptacle>(), structs.at("Receptacle"));
  EXPECT_EQ(described<job::ViewPoint>(), structs.at("ViewPoint"));
  EXPECT_EQ(described<job::Tree>(), structs.at("Tree"));
  EXPECT_EQ(described<job::FixedPoint>(), structs.at("FixedPoint"));
  EXPECT_EQ(described<job::Plan>(), structs.at("Plan"));
  EXPECT_EQ(structs.size(), 8u);
}

TEST(Shapes, EveryFieldOfTheJobIsDescribed) {
  const auto structs = members_in("job/job.hpp");
  EXPECT_EQ(described<job::Luminaire>(), structs.at("Luminaire"));
  EXPECT_EQ(described<job::Output>(), structs.at("Output"));
  EXPECT_EQ(described<job::Transformer>(), structs.at("Transformer"));
  EXPECT_EQ(described<job::Cable>(), structs.at("Cable"));
  EXPECT_EQ(described<job::AsBuilt>(), structs.at("AsBuilt"));
  EXPECT_EQ(described<job::Joint>(), structs.at("Joint"));
  EXPECT_EQ(described<job::Job>(), structs.at("Job"));
  EXPECT_EQ(structs.size(), 7u);
}

TEST(Shapes, EveryFieldOfAViewIsDescribed) {
  const auto structs = members_in("job/view.hpp");
  EXPECT_EQ(structs.at("View").size(), 16u);  // counted by hand
  EXPECT_EQ(described<job::ViewReference>(), structs.at("ViewReference"));
  EXPECT_EQ(described<job::KnownWall>(), structs.at("KnownWall"));
  EXPECT_EQ(described<job::Calibration>(), structs.at("Calibration"));
  EXPECT_EQ(described<job::PictureSurface>(), structs.at("PictureSurface"));
  EXPECT_EQ(described<job::PictureTree>(), structs.at("PictureTree"));
  EXPECT_EQ(described<job::PictureMask>(), structs.at("PictureMask"));
  EXPECT_EQ(described<job::PictureMeasure>(), structs.at("PictureMeasure"));
  EXPECT_EQ(described<job::NightLook>(), structs.at("NightLook"));
  EXPECT_EQ(described<job::View>(), structs.at("View"));
  EXPECT_EQ(structs.size(), 9u);
}

TEST(Shapes, EveryFieldOfTheOfferIsDescribed) {
  const auto structs = members_in("job/offer.hpp");
  EXPECT_EQ(structs.at("Rates").size(), 15u);  // counted by hand
  EXPECT_EQ(described<job::GroundRate>(), structs.at("GroundRate"));
  EXPECT_EQ(described<job::Rates>(), structs.at("Rates"));
  EXPECT_EQ(described<job::Margins>(), structs.at("Margins"));
  EXPECT_EQ(described<job::Warranty>(), structs.at("Warranty"));
  EXPECT_EQ(described<job::Terms>(), structs.at("Terms"));
  EXPECT_EQ(described<job::ItemSwap>(), structs.at("ItemSwap"));
  EXPECT_EQ(described<job::OfferOption>(), structs.at("OfferOption"));
  EXPECT_EQ(described<job::OfferExtra>(), structs.at("OfferExtra"));
  EXPECT_EQ(described<job::Offer>(), structs.at("Offer"));
  EXPECT_EQ(structs.size(), 9u);
}

TEST(Shapes, EveryFieldOfTheProgrammeIsDescribed) {
  const auto structs = members_in("job/programme.hpp");
  EXPECT_EQ(described<job::SwitchRule>(), structs.at("SwitchRule"));
  EXPECT_EQ(described<job::ProgrammeEntry>(), structs.at("ProgrammeEntry"));
  EXPECT_EQ(structs.size(), 2u);
}

TEST(Shapes, EveryFieldOfAVisitIsDescribed) {
  const auto structs = members_in("job/visit.hpp");
  EXPECT_EQ(described<job::Reading>(), structs.at("Reading"));
  EXPECT_EQ(described<job::Answers>(), structs.at("Answers"));
  EXPECT_EQ(described<job::LogEntry>(), structs.at("LogEntry"));
  EXPECT_EQ(described<job::Visit>(), structs.at("Visit"));
  EXPECT_EQ(structs.size(), 4u);
}

TEST(Shapes, EveryFieldOfRulesAndChangesIsDescribed) {
  const auto rules = members_in("study/rules.hpp");
  EXPECT_EQ(described<study::Rule>(), rules.at("Rule"));
  EXPECT_EQ(described<study::Ruleset>(), rules.at("Ruleset"));
  EXPECT_EQ(described<job::Change>(), members_in("job/change.hpp").at("Change"));
}

TEST(Shapes, EveryFieldOfTheResultsIsDescribed) {
  auto structs = members_in("study/report.hpp");
  structs.merge(members_in("study/finding.hpp"));
  structs.merge(members_in("study/advise.hpp"));
  structs.merge(members_in("study/ask.hpp"));
  EXPECT_EQ(described<study::LampReport>(), structs.at("LampReport"));
  EXPECT_EQ(described<study::CableReport>(), structs.at("CableReport"));
  EXPECT_EQ(described<study::OutputReport>(), structs.at("OutputReport"));
  EXPECT_EQ(described<study::TransformerReport>(), structs.at("TransformerReport"));
  EXPECT_EQ(described<study::CornerReport>(), structs.at("CornerReport"));
  EXPECT_EQ(described<study::MarginReport>(), structs.at("MarginReport"));
  EXPECT_EQ(described<study::ShortReport>(), structs.at("ShortReport"));
  EXPECT_EQ(described<study::Report>(), structs.at("Report"));
  EXPECT_EQ(described<study::Provenance>(), structs.at("Provenance"));
  EXPECT_EQ(described<study::Cure>(), structs.at("Cure"));
  EXPECT_EQ(described<study::Finding>(), structs.at("Finding"));
  EXPECT_EQ(described<study::TapVerdict>(), structs.at("TapVerdict"));
  EXPECT_EQ(described<study::TapAdvice>(), structs.at("TapAdvice"));
  EXPECT_EQ(described<study::TransformerChoice>(), structs.at("TransformerChoice"));
  EXPECT_EQ(described<study::TransformerNeed>(), structs.at("TransformerNeed"));
  EXPECT_EQ(described<study::TransformerAdvice>(), structs.at("TransformerAdvice"));
  EXPECT_EQ(described<study::ProtectionAdvice>(), structs.at("ProtectionAdvice"));
  EXPECT_EQ(described<study::Advice>(), structs.at("Advice"));
  EXPECT_EQ(described<study::Tried>(), structs.at("Tried"));
  EXPECT_EQ(described<study::Answer>(), structs.at("Answer"));
}

// The number of an enumerator is the place of its name; a new one without a name would be written as nothing.
TEST(Shapes, EveryEnumeratorHasItsName) {
  const auto last = [](auto value) { return static_cast<std::size_t>(value) + 1; };
  EXPECT_EQ(names(Of<job::LampKind>{}).size(), last(job::LampKind::constant_current_led));
  EXPECT_EQ(names(Of<job::LuminaireKind>{}).size(), last(job::LuminaireKind::halogen_lamp));
  EXPECT_EQ(names(Of<job::ControlKind>{}).size(), last(job::ControlKind::other));
  EXPECT_EQ(names(Of<job::SundryKind>{}).size(), last(job::SundryKind::other));
  EXPECT_EQ(names(Of<job::GroundKind>{}).size(), last(job::GroundKind::forbidden));
  EXPECT_EQ(names(Of<job::ViewPointKind>{}).size(), last(job::ViewPointKind::other));
  EXPECT_EQ(names(Of<job::DisplayUnits>{}).size(), last(job::DisplayUnits::us));
  EXPECT_EQ(names(Of<job::Mounting>{}).size(), last(job::Mounting::indoors));
  EXPECT_EQ(names(Of<job::JointKind>{}).size(), last(job::JointKind::end_of_run));
  EXPECT_EQ(names(Of<job::CalibrationMethod>{}).size(), last(job::CalibrationMethod::known_points));
  EXPECT_EQ(names(Of<job::SurfaceKind>{}).size(), last(job::SurfaceKind::other));
  EXPECT_EQ(names(Of<job::MaskKind>{}).size(), last(job::MaskKind::other));
  EXPECT_EQ(names(Of<job::Soil>{}).size(), last(job::Soil::rock));
  EXPECT_EQ(names(Of<job::TaxBase>{}).size(), last(job::TaxBase::material));
  EXPECT_EQ(names(Of<job::OptionKind>{}).size(), last(job::OptionKind::variant));
  EXPECT_EQ(names(Of<job::SwitchBase>{}).size(), last(job::SwitchBase::sunrise));
  EXPECT_EQ(names(Of<job::VisitKind>{}).size(), last(job::VisitKind::other));
  EXPECT_EQ(names(Of<job::LogKind>{}).size(), last(job::LogKind::backfill));
  EXPECT_EQ(names(Of<Severity>{}).size(), last(Severity::error));
  EXPECT_EQ(names(Of<electrical::LampState>{}).size(), last(electrical::LampState::over));
  EXPECT_EQ(names(Of<study::Asked>{}).size(), last(study::Asked::cable));
  EXPECT_STREQ(names(Of<job::LampKind>{})[static_cast<std::size_t>(job::LampKind::resistive)], "resistive");
  EXPECT_STREQ(names(Of<job::GroundKind>{})[static_cast<std::size_t>(job::GroundKind::pool)], "pool");
  EXPECT_STREQ(names(Of<job::JointKind>{})[static_cast<std::size_t>(job::JointKind::hub)], "hub");
  EXPECT_STREQ(names(Of<electrical::LampState>{})[static_cast<std::size_t>(electrical::LampState::dim)], "dim");
}

}  // namespace
}  // namespace duskwire::formats
