// Heat against figures worked outside the program, and the verdicts that must come out of the own profiles.

#include "press/heat.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

using namespace crownwright;
using namespace crownwright::press;
using workshop::Certainty;
using workshop::Graded;
using workshop::MaterialKind;
using workshop::MaterialProfile;

namespace {

const workshop::ProfileFolder heat_profiles{CW_SOURCE_DIR "/profiles"};

std::vector<MaterialProfile> own_heat_materials() {
  const auto all = workshop::list_materials(heat_profiles);
  EXPECT_TRUE(all.ok());
  return *all;
}

HeatVerdict own_verdict(const std::string& name, const HeatJob& job) {
  const auto material = workshop::find_material(heat_profiles, name);
  EXPECT_TRUE(material.ok()) << name;
  return judge_heat(*material, job);
}

HeatJob dry_job(double iron, double cloth, double press_cloth = 0) {
  return {HeatKind::dry, iron, cloth, press_cloth};
}

MaterialProfile plastic(MaterialKind kind, std::optional<double> tg, std::optional<double> hdt,
                        std::optional<double> vicat = {}) {
  const auto graded = [](std::optional<double> value) {
    return value ? std::optional<Graded>(Graded{*value, "sheet", Certainty::published}) : std::nullopt;
  };
  MaterialProfile material;
  material.name = "stuff";
  material.kind = kind;
  material.tg = graded(tg);
  material.hdt = graded(hdt);
  material.vicat = graded(vicat);
  return material;
}

double lowest_of(const MaterialProfile& material) { return heat_limits(material).lowest.value().celsius; }

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

// ---- the job -----------------------------------------------------------------------------------

// Saturated steam at 1.01325 bar: 100.0 C (IAPWS-IF97 tables).
TEST(HeatJobs, SteamAndColdAreWhatTheyAre) {
  EXPECT_EQ(heat_of({HeatKind::steam}).celsius, 100);
  EXPECT_EQ(heat_of({HeatKind::steam}).standing, 100);
  EXPECT_EQ(heat_of({HeatKind::cold}).celsius, 30);
}

// Worked by hand from the rule. 4 mm of cloth lie 2.4 mm under the iron: 0.0024/0.05 = 0.048, rest =
// 0.12/0.172 = 0.697674; iron 150: standing 20 + 0.697674 x 130 = 110.6977, moving 20 + 0.67 x 90.6977
// = 80.7674. 2 mm lie 1.2 mm, under 1.5: rest = 0.12/0.148 = 0.810811, iron 200: 20 + 0.75 x 145.9459 =
// 129.4595. No cloth: rest = 0.12/0.124 = 0.967742, iron 110: standing 107.0968.
TEST(HeatJobs, DryIronsAreWorkedByHand) {
  EXPECT_NEAR(heat_of(dry_job(150, 4)).standing, 110.6977, 1e-4);
  EXPECT_NEAR(heat_of(dry_job(150, 4)).celsius, 80.7674, 1e-4);
  EXPECT_NEAR(heat_of(dry_job(150, 1, 3)).celsius, 80.7674, 1e-4);
  EXPECT_NEAR(heat_of(dry_job(200, 2)).celsius, 129.4595, 1e-4);
  EXPECT_NEAR(heat_of(dry_job(110, 0)).standing, 107.0968, 1e-4);
  EXPECT_THROW(heat_of(dry_job(110, -1)), std::logic_error);
}

// The iron's heat passes cloth, then the form's resistance: independent of the formula, standing heat must
// lie between room and iron, fall with cloth and rise with the iron (care label sole plates 110, 150, 200 C,
// ISO 3758).
TEST(HeatJobs, MoreClothCoolsAndHotterIronsHeat) {
  for (const double iron : {110.0, 150.0, 200.0}) {
    double before = iron;
    for (double cloth = 0; cloth <= 10; cloth += 0.5) {
      const JobHeat heat = heat_of(dry_job(iron, cloth));
      EXPECT_LT(heat.standing, before);
      EXPECT_GT(heat.celsius, 20);
      EXPECT_LT(heat.celsius, heat.standing);
      before = heat.standing;
    }
  }
  EXPECT_LT(heat_of(dry_job(110, 3)).celsius, heat_of(dry_job(150, 3)).celsius);
  EXPECT_LT(heat_of(dry_job(150, 3)).celsius, heat_of(dry_job(200, 3)).celsius);
}

TEST(HeatJobs, AreSaidInWords) {
  EXPECT_EQ(in_words(HeatJob{}), "open steam, 100 C");
  EXPECT_EQ(in_words(dry_job(150, 2)), "a dry iron at 150 C through 1.2 mm of pressed cloth");
  EXPECT_EQ(in_words(HeatJob{HeatKind::cold}), "drying cold, 30 C");
}

// ---- the limit ---------------------------------------------------------------------------------

TEST(HeatLimits, DependOnTheKindOfPlastic) {
  EXPECT_EQ(lowest_of(plastic(MaterialKind::amorphous, 105, 90)), 90);
  EXPECT_EQ(lowest_of(plastic(MaterialKind::amorphous, 60, 70)), 60);
  EXPECT_EQ(lowest_of(plastic(MaterialKind::semi_crystalline, -10, 85, 60)), 85)
      << "Tg and Vicat do not count";
  EXPECT_EQ(lowest_of(plastic(MaterialKind::semi_crystalline, 45, {}, 150)), 150) << "Vicat without an HDT";
  EXPECT_EQ(lowest_of(plastic(MaterialKind::amorphous, 80, {}, 75)), 75);
  EXPECT_EQ(lowest_of(plastic(MaterialKind::elastomer, -20, {}, 115)), 115);
  EXPECT_FALSE(heat_limits(plastic(MaterialKind::semi_crystalline, 45, {})).lowest.has_value());
  EXPECT_FALSE(heat_limits(plastic(MaterialKind::foam, 45, 140)).lowest.has_value());
}

TEST(HeatLimits, FoamsBoardsAndWoodHaveTheirOwn) {
  for (const auto kind : {MaterialKind::foam, MaterialKind::board, MaterialKind::wood}) {
    MaterialProfile material = plastic(kind, 45, 140);
    material.heat_limit = Graded{80, "association", Certainty::published};
    EXPECT_EQ(lowest_of(material), 80);
  }
}

// ---- the verdict -------------------------------------------------------------------------------

TEST(HeatVerdicts, TurnAtTheJobAndTenKelvinAboveIt) {
  const auto verdict = [](double hdt) {
    return judge_heat(plastic(MaterialKind::semi_crystalline, {}, hdt), HeatJob{}).verdict;
  };
  EXPECT_EQ(verdict(99.9), Verdict::no);
  EXPECT_EQ(verdict(100), Verdict::risk);
  EXPECT_EQ(verdict(109.9), Verdict::risk);
  EXPECT_EQ(verdict(110), Verdict::fit);
}

TEST(HeatVerdicts, MemoryAndPracticeNeitherPassNorRefuse) {
  for (const auto certainty : {Certainty::memory, Certainty::common_practice}) {
    for (const double hdt : {40.0, 105.0, 300.0}) {
      MaterialProfile material = plastic(MaterialKind::semi_crystalline, {}, hdt);
      material.hdt->certainty = certainty;
      EXPECT_EQ(judge_heat(material, HeatJob{}).verdict, Verdict::risk) << hdt;
    }
  }
  MaterialProfile mixed = plastic(MaterialKind::amorphous, 150, 140);
  mixed.hdt->certainty = Certainty::memory;
  EXPECT_EQ(judge_heat(mixed, HeatJob{}).verdict, Verdict::risk) << "its lower limit is not published";
  mixed.tg->value = 90;
  EXPECT_EQ(judge_heat(mixed, HeatJob{}).verdict, Verdict::no) << "a published limit refuses already";
  mixed.tg->value = 99;
  mixed.hdt->value = 80;
  const HeatVerdict refused = judge_heat(mixed, HeatJob{});
  EXPECT_EQ(refused.verdict, Verdict::no);
  EXPECT_EQ(refused.limit->celsius, 99) << "the limit shown is the one that refuses";
  MaterialProfile unknown;
  unknown.name = "mystery";
  EXPECT_EQ(judge_heat(unknown, HeatJob{}).verdict, Verdict::risk);
  EXPECT_FALSE(judge_heat(unknown, HeatJob{}).limit.has_value());
}

// Known outcome in every workshop: PLA, PETG, ABS and ASA sag in steam; polycarbonate, polyamide 12 and
// glass-filled polypropylene do not. Polystyrene foams shrink above 80 to 85 C (ACEPE). Beech blocks are
// steamed daily.
TEST(HeatVerdicts, UnderSteamOfTheOwnMaterials) {
  for (const char* name : {"pla", "petg", "abs", "asa", "pp", "eps", "xps"}) {
    EXPECT_EQ(own_verdict(name, {}).verdict, Verdict::no) << name;
  }
  for (const char* name : {"pc", "pa12", "pp-gf", "beech"}) {
    EXPECT_EQ(own_verdict(name, {}).verdict, Verdict::fit) << name;
  }
  for (const char* name : {"cork", "pu-board", "mdf", "eva-foam", "pe-foam"}) {
    EXPECT_EQ(own_verdict(name, {}).verdict, Verdict::risk) << name;
  }
}

TEST(HeatVerdicts, EveryPublishedMaterialBearsDryingCold) {
  for (const MaterialProfile& material : own_heat_materials()) {
    const Verdict verdict = judge_heat(material, {HeatKind::cold}).verdict;
    EXPECT_NE(verdict, Verdict::no) << material.name;
    EXPECT_EQ(verdict == Verdict::fit, heat_limits(material).published.has_value()) << material.name;
  }
}

TEST(HeatVerdicts, ProposeWhatServes) {
  const auto all = own_heat_materials();
  const auto petg = workshop::find_material(heat_profiles, "petg");
  const auto rigid = instead_of(*petg, all, HeatJob{});
  for (const char* name : {"pc", "pa12", "pp-gf", "beech"}) EXPECT_TRUE(holds(rigid, name)) << name;
  for (const char* name : {"petg", "pla", "cork", "tpu"}) EXPECT_FALSE(holds(rigid, name)) << name;
  EXPECT_TRUE(std::is_sorted(rigid.begin(), rigid.end()));
  const auto foam = workshop::find_material(heat_profiles, "eps");
  const auto soft = instead_of(*foam, all, {HeatKind::dry, 110, 3, 3});
  EXPECT_TRUE(holds(soft, "pe-foam"));
  EXPECT_FALSE(holds(soft, "pc")) << "a pad is not pinned into polycarbonate";
}

TEST(HeatVerdicts, SayWhyAndWhatToTakeCareOf) {
  const HeatVerdict petg = own_verdict("petg", {});
  EXPECT_EQ(
      petg.reason,
      "PETG keeps its shape up to 70 C (HDT at 0.45 MPa), and open steam, 100 C brings the form to 100 C");
  EXPECT_FALSE(petg.limit->source.empty());
  const HeatVerdict mdf = own_verdict("mdf", {});
  EXPECT_NE(mdf.reason.find("known only from practice"), std::string::npos) << mdf.reason;
  EXPECT_EQ(mdf.cautions.size(), 3u) << "fume, crush, burn";
  // ABS (68 C) through 6 mm of felt under an iron of 110 C: rest 0.12/0.196 = 0.61224, 56.9, standing 75.1.
  const HeatVerdict abs = own_verdict("abs", dry_job(110, 6));
  EXPECT_EQ(abs.verdict, Verdict::fit);
  ASSERT_FALSE(abs.cautions.empty());
  EXPECT_NE(abs.cautions[0].find("left standing it brings the form to 75 C"), std::string::npos)
      << abs.cautions[0];
  EXPECT_EQ(own_verdict("pc", dry_job(110, 6)).cautions.size(), 2u) << "no warning where it bears that too";
  EXPECT_EQ(to_text(Verdict::fit) + to_text(Verdict::risk) + to_text(Verdict::no), "fitriskno");
}
