// SPDX-License-Identifier: Apache-2.0
// The exact solver of the command: CBC runs on a program with a known answer, small plans get a bound that holds, and
// what is too large is told so.
#include "cli/exact_proof.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/cbc.hpp"
#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/ruleset_file.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

// A knapsack by hand: 3 a + 4 b + 5 c >= 8 at prices 2, 3, 4 is cheapest with a and c, 6.
wiring::LinearProgram knapsack() {
  wiring::LinearProgram program;
  program.add_cost(2, "a");
  program.add_cost(3, "b");
  program.add_cost(4, "c");
  program.at_least({{3, "a"}, {4, "b"}, {5, "c"}}, 8);
  for (const char* variable : {"a", "b", "c"}) program.binary(variable);
  return program;
}

TEST(Cbc, FindsTheKnapsackThatAHandFinds) {
  const auto answer = solve_with_cbc(knapsack(), {});
  ASSERT_TRUE(answer.has_value()) << "Is CBC installed (Debian: coinor-cbc)?";
  EXPECT_TRUE(answer->proven);
  ASSERT_TRUE(answer->cost.has_value());
  EXPECT_NEAR(*answer->cost, 6, 1e-6);
  EXPECT_NEAR(answer->values.count("b") > 0 ? answer->values.at("b") : 0, 0, 1e-6);
}

TEST(Cbc, SaysThatNothingIsCheaperThanWhatIsKnown) {
  wiring::SolveOptions options;
  options.known_answer = 5.5;
  const auto answer = solve_with_cbc(knapsack(), options);
  ASSERT_TRUE(answer.has_value());
  EXPECT_TRUE(answer->proven);
  EXPECT_FALSE(answer->cost.has_value());
  EXPECT_NEAR(answer->bound, 5.5, 0.01);
}

// So many lamps of 4 VA in a row, five metres apart, the first five metres from the transformer.
job::Job row_of_lamps(std::uint32_t count, const job::Catalogue& stock) {
  job::Job job;
  job.title = "row";
  job.site.currency = "USD";
  job.catalogue.luminaires.push_back(*job::find_luminaire(stock, "bullet-4w-36"));
  job.catalogue.transformers.push_back(stock.transformers.front());
  job::Transformer transformer;
  transformer.id = "T1";
  transformer.item = stock.transformers.front().id;
  transformer.position = geometry::Point2{0, 0};
  job.transformers.push_back(transformer);
  for (std::uint32_t i = 0; i < count; ++i) {
    job::Luminaire lamp;
    lamp.id = "L" + std::to_string(i + 1);
    lamp.item = "bullet-4w-36";
    lamp.position = geometry::Point3{5.0 * (i + 1), 0, 0};
    job.luminaires.push_back(lamp);
  }
  return job;
}

study::Router planned(std::uint32_t lamps) {
  const job::Catalogue stock = formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue.value();
  const study::Ruleset rules = formats::read_ruleset(formats::embedded_ruleset("us")).ruleset.value();
  study::RouteRequest request;
  request.most_steps = 300;
  study::Router router(row_of_lamps(lamps, stock), rules, stock, request);
  router.improve([] { return true; });
  EXPECT_TRUE(router.answer().job.has_value());
  return router;
}

// One lamp and one cable leave no choice: planner and program mean the same wiring and must reckon the same cost.
TEST(ExactProof, PlannerAndProgramReckonOneLampAlike) {
  const study::Router router = planned(1);
  const auto proof = router.proof(solve_with_cbc);
  ASSERT_TRUE(proof.ok()) << proof.error().message;
  EXPECT_TRUE(proof.value().proven);
  EXPECT_NEAR(proof.value().bound_minor, proof.value().cost_minor, 0.0016 * proof.value().cost_minor);
}

// In a row there is a trench along it, nothing else; no bound may lie above what is known to be possible.
TEST(ExactProof, TheBoundOfARowHolds) {
  const study::Router router = planned(4);
  const auto proof = router.proof(solve_with_cbc);
  ASSERT_TRUE(proof.ok()) << proof.error().message;
  EXPECT_LE(proof.value().bound_minor, proof.value().cost_minor);
  EXPECT_GE(proof.value().bound_minor, 0.95 * proof.value().cost_minor);
  EXPECT_THAT(exact_proof(router, 30), AllOf(HasSubstr("At most"), HasSubstr("dearer than the cheapest wiring")));
}

TEST(ExactProof, MoreThanTwelveLampsAreToldSo) {
  EXPECT_THAT(exact_proof(planned(13), 30), HasSubstr("the job has 13 lamps, and the exact solver takes up to 12"));
}

TEST(ExactProof, WithoutTimeItSaysSo) { EXPECT_THAT(exact_proof(planned(2), 0), HasSubstr("had too little time")); }

TEST(ExactProof, WhatIsClaimedIsRoundedUp) {
  const std::string text = proof_text({10101, 10000, true, 5, 9}, 2);
  EXPECT_THAT(text, AllOf(HasSubstr("At most 1.1 % dearer"), HasSubstr("5 points and 9 ways"), HasSubstr("proved it")));
  EXPECT_THAT(proof_text({10101, 10000, false, 5, 9}, 2), Not(HasSubstr("proved it in")));
}

// A build with the solver says how good the plan is, one without what to do about that: one of the two, never neither.
TEST(ExactProof, TheCommandProvesOrSaysThatThisBuildCannot) {
  const Workplace place;
  const Ended run = place.run("duskwire route examples/ostrey-garden.json --steps 20 --exact 1");
  if (has_exact_solver()) {
    EXPECT_EQ(run.code, 0);
    EXPECT_THAT(run.text, AllOf(HasSubstr("How good it is\n"), HasSubstr("the job has 40 lamps")));
  } else {
    EXPECT_EQ(run.code, 2);
    EXPECT_THAT(run.complaint, HasSubstr("-DDUSKWIRE_EXACT=ON"));
  }
}

}  // namespace
}  // namespace duskwire::cli
