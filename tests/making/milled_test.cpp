// Orders with a [mill]: programs that keep their limits, or a refusal.
#include "making/milled.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include "making/mill_files.h"
#include "making/milled_orders.h"
#include "making/write.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::making {
namespace {

using test::milled;
using test::milled_block;
using test::milled_once;
using test::milled_pad;

std::string with_key(std::string text, const std::string& key, const std::string& value) {
  return text.append(key).append(" = \"").append(value).append("\"\n");
}

TEST(Milled, NothingWithoutTheTable) {
  const auto made = milled(milled_pad.substr(0, milled_pad.find("[mill]")));
  ASSERT_TRUE(made) << made.fault().line();
  EXPECT_FALSE(*made);
}

// Every key of the table comes to where the stages read it.
TEST(Milled, TheJobIsWhatTheTableSays) {
  std::string text = milled_pad;
  for (const auto& [key, value] :
       std::vector<std::pair<const char*, const char*>>{{"tool", "4 mm ball"},
                                                        {"rough_tool", "10 mm flat"},
                                                        {"drill", "3 mm"},
                                                        {"flute", "21 mm"},
                                                        {"drill_flute", "31 mm"},
                                                        {"stick_out", "41 mm"},
                                                        {"holder", "23 mm"},
                                                        {"stock_size", "200x180 mm"},
                                                        {"setup", "tiers"},
                                                        {"step_down", "2 mm"},
                                                        {"step_over", "3 mm"},
                                                        {"feed", "700 mm/min"},
                                                        {"spindle", "9000 rpm"},
                                                        {"accel", "150 mm/s2"},
                                                        {"travel", "310x320x90 mm"},
                                                        {"spoilboard", "13 mm"}})
    text = with_key(text, key, value);
  const auto job = mill_job(test::read_order(text + "edges = 1\n"), test::own_profiles());
  ASSERT_TRUE(job) << job.fault().line();
  EXPECT_EQ(job->finish.diameter, 4);
  EXPECT_EQ(job->rough.diameter, 10);
  EXPECT_TRUE(job->rough.shape == milling::ToolShape::flat && job->finish.shape == milling::ToolShape::ball);
  ASSERT_TRUE(job->drill);
  EXPECT_EQ(job->drill->diameter, 3);
  EXPECT_EQ(job->drill->flute, 31);
  for (const milling::Tool& tool : {job->finish, job->rough}) {
    EXPECT_EQ(tool.flute, 21);
    EXPECT_EQ(tool.stick_out, 41);
    EXPECT_EQ(tool.holder, 23);
    EXPECT_EQ(tool.edges, 1);
  }
  ASSERT_TRUE(job->stock_size);
  EXPECT_EQ(job->stock_size->x, 200);
  EXPECT_EQ(job->stock_size->y, 180);
  EXPECT_EQ(job->sheet, 15);
  EXPECT_TRUE(job->setup == milling::SetupWish::tiers);
  EXPECT_EQ(job->scallop, 0.05);
  EXPECT_EQ(job->step_down, 2);
  EXPECT_EQ(job->step_over, 3);
  EXPECT_EQ(job->drill->stick_out, 41);
  EXPECT_EQ(job->drill->holder, 23);
  for (const milling::Feeds& feeds : {job->finish_feeds, job->rough_feeds, job->drill_feeds}) {
    EXPECT_EQ(feeds.cut, 700) << "not 900, 600 or 1500, as the material would have it";
    EXPECT_EQ(feeds.spindle, 9000);
    EXPECT_EQ(feeds.plunge, 350) << "xps plunges at half the feed, by its profile";
  }
  EXPECT_EQ(job->leave, 0.5) << "by the profile of xps";
  EXPECT_EQ(job->accel, 150);
  EXPECT_EQ(job->travel.x, 310);
  EXPECT_EQ(job->travel.y, 320);
  EXPECT_EQ(job->travel.z, 90);
  EXPECT_EQ(job->spoilboard, 13);
  EXPECT_EQ(job->material, "xps");
}

TEST(Milled, APadIsCutInOneSetUpWithinItsLimits) {
  const Milled& made = milled_once(milled_pad);
  ASSERT_EQ(made.setups.size(), 1u);
  const MilledSetup& setup = made.setups.front();
  EXPECT_EQ(setup.setup.name, "");
  EXPECT_EQ(setup_name(setup.setup), "one");
  ASSERT_EQ(setup.programs.size(), 2u);
  EXPECT_EQ(setup.programs[0].ending, ".rough.ngc");
  EXPECT_EQ(setup.programs[1].ending, ".finish.ngc");
  EXPECT_LE(made.gouge_max, 0.02);
  EXPECT_LE(made.rest_max, 0.06);
  // A path that left nothing like the ordered cusps would be far longer than need be.
  EXPECT_GE(made.rest_max, 0.04);
  EXPECT_EQ(made.rapids_in_stock, 0);
  EXPECT_EQ(made.plan.stock.layers, 2);
  EXPECT_GT(made.minutes, 1);
}

// A plan that does not let the tool down to the foot: its programs gouge nothing and leave a collar standing,
// which is found once the finishing pass is through.
TEST(Milled, ProgramsThatLeaveStockStandingAreNotGivenOut) {
  const order::Order order = test::read_order(milled_pad);
  const auto solid = plan_solid(order, test::own_profiles());
  ASSERT_TRUE(solid) << solid.fault().line();
  auto plan = plan_mill(order, *solid, test::own_profiles());
  ASSERT_TRUE(plan) << plan.fault().line();
  ASSERT_EQ((*plan)->plan.setups.size(), 1u);
  (*plan)->plan.setups.front().lowest += 8;
  const auto made = mill_of(order, *std::move(plan));
  ASSERT_FALSE(made);
  EXPECT_EQ(made.fault().exit, ExitCode::proof);
  EXPECT_NE(made.fault().what.find("left standing"), std::string::npos) << made.fault().line();
}

// Where each set-up says its holes are, brought back into the form, they are the same three.
TEST(Milled, DowelHolesOfAllTiersMeetInTheForm) {
  const Milled& made = milled_once(milled_block);
  ASSERT_GE(made.setups.size(), 3u);
  ASSERT_EQ(made.plan.stock.dowels.size(), 3u);
  int compared = 0;
  for (const MilledSetup& setup : made.setups) {
    for (const milling::Hole& hole : setup.setup.holes) {
      const double y = setup.setup.flipped ? -hole.y : hole.y;
      double nearest = 1e9;
      for (const milling::Hole& dowel : made.plan.stock.dowels)
        nearest = std::min(nearest, std::hypot(dowel.x - hole.x, dowel.y - y));
      EXPECT_LT(nearest, 1e-9) << setup.setup.name;
      ++compared;
    }
  }
  EXPECT_EQ(compared, 3 * (static_cast<int>(made.setups.size()) - 1));
}

// Each program on the machine, one after another: nothing of the form is cut twice or left out.
TEST(Milled, TiersTogetherAreTheForm) {
  const Milled& made = milled_once(milled_block);
  double top = 90;
  for (const milling::Slab& slab : made.plan.slabs) {
    EXPECT_NEAR(slab.top, top, 1e-9);
    EXPECT_LE(slab.top - slab.bottom, 25 + 1e-9);
    top = slab.bottom;
  }
  EXPECT_NEAR(top, 0, 1e-9);
  for (const MilledSetup& setup : made.setups) {
    EXPECT_LE(setup.findings.gouge_max, 0.02) << setup.setup.name;
    EXPECT_LE(setup.findings.rest_max, 0.06) << setup.setup.name;
  }
}

TEST(Milled, CellsOfAnySizeFindTheSame) {
  std::vector<double> rests;
  for (const char* cell : {"0.5 mm", "0.25 mm", "0.1 mm"}) {
    if (test::light() && std::string(cell) == "0.1 mm") continue;
    rests.push_back(milled_once(with_key(milled_pad, "cell", cell)).rest_max);
  }
  const auto [low, high] = std::minmax_element(rests.begin(), rests.end());
  EXPECT_LE(*high / *low, 1.1) << *low << " to " << *high;
}

TEST(Milled, TheHeadSaysWhatThePersonMustKnow) {
  const Milled& made = milled_once(milled_pad);
  const std::string& text = made.setups.front().programs[1].text;
  for (const char* words : {"order ", "set-up: one", "pass: finish", "tool: 6 mm ball", "stock: X -",
                            "Z0 the stock", "climb milling", "path blending may round corners", "caution: ",
                            "minutes", "spoilboard", "eye protection", "never leave it alone", "Dust"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
}

TEST(Milled, SameOrderSameBytes) {
  const Milled& one = milled_once(milled_pad);
  const auto anew = milled(milled_pad);
  ASSERT_TRUE(anew) << anew.fault().line();
  const Milled& two = **anew;
  for (std::size_t i = 0; i < one.setups.front().programs.size(); ++i)
    EXPECT_EQ(one.setups.front().programs[i].text, two.setups.front().programs[i].text);
  const Milled& other = milled_once(with_key(milled_pad, "step_over", "2 mm"));
  EXPECT_NE(one.setups.front().programs[0].text, other.setups.front().programs[0].text);
}

/// A head's words without the marks of its lines.
std::string words_of_head(const std::string& program) {
  std::string words;
  for (const std::string& line : test::lines_in(program.substr(0, program.find("G21")))) {
    std::string comment = line.substr(1, line.size() - 2);
    if (comment.starts_with(".. ")) comment.erase(0, 3);
    words.append(comment).append(" ");
  }
  return words;
}

TEST(Milled, HeadsSayHowThePieceLiesAndWhatIsFed) {
  const Milled& made = milled_once(milled_block);
  int flipped = 0;
  for (const MilledSetup& setup : made.setups) {
    flipped += setup.setup.flipped ? 1 : 0;
    const std::string lies = setup.setup.flipped ? "lies upside down" : "lies foot side down";
    for (const MilledProgram& program : setup.programs) {
      const std::string head = words_of_head(program.text);
      EXPECT_NE(head.find(lies), std::string::npos) << program.ending << head;
      const double feed = program.pass == Pass::rough    ? made.job.rough_feeds.cut
                          : program.pass == Pass::finish ? made.job.finish_feeds.cut
                                                         : made.job.drill_feeds.plunge;
      EXPECT_NE(head.find("feed " + number_text(feed, 0) + " mm/min"), std::string::npos) << head;
    }
  }
  EXPECT_EQ(flipped, 2) << "between the widest place and the head line";
}

// The rule of "plain": NISTIR 6556 with fewer words (section 3.3 for lines, table 4 for groups).
TEST(Milled, PlainProgramsUseFewWords) {
  const auto climbs = [](const std::string& line) {
    return line[0] == 'G' && line.find('I') != std::string::npos && line.find('Z') != std::string::npos;
  };
  const auto lines = test::lines_in(milled_once(milled_pad).setups.front().programs.front().text);
  EXPECT_TRUE(std::any_of(lines.begin(), lines.end(), climbs));
  const Milled& made = milled_once(with_key(milled_pad, "dialect", "plain"));
  for (const MilledProgram& program : made.setups.front().programs) {
    for (const std::string& line : test::lines_in(program.text)) {
      ASSERT_LE(line.size(), 70u) << line;
      if (line.empty() || line[0] == '(') continue;
      ASSERT_EQ(line.find_first_not_of("GMFSXYZIJ0123456789.- "), std::string::npos) << line;
      if (line.find_first_of("XYZ") != std::string::npos) {
        ASSERT_EQ(line[0], 'G') << line;
      }
      // No arc that climbs; the other dialect has them.
      ASSERT_FALSE(climbs(line)) << line;
    }
  }
}

TEST(Milled, WritesProgramsPicturesAndSheets) {
  const order::Order order = test::read_order(milled_block);
  const auto solid = plan_solid(order, test::own_profiles()).value();
  const Milled& made = milled_once(milled_block);
  std::vector<std::string> endings;
  for (const ExtraFile& file : mill_files(order, solid, made)) {
    EXPECT_NE(file.bytes.find(order_mark(order)), std::string::npos) << file.ending;
    endings.push_back(file.ending);
  }
  for (const char* ending :
       {".tier-1.rough.ngc", ".tier-1.finish.ngc", ".tier-2.drill.ngc", ".tier-1.mill.png", ".glue-up.a4.pdf",
        ".glue-up.letter.pdf", ".glue-up.svg", ".drilling.a4.pdf"})
    EXPECT_NE(std::find(endings.begin(), endings.end(), ending), endings.end()) << ending;
}

std::set<std::string> endings_of(const std::string& text) {
  const order::Order order = test::read_order(text);
  const auto solid = plan_solid(order, test::own_profiles()).value();
  std::set<std::string> endings;
  for (const ExtraFile& file : mill_files(order, solid, milled_once(text))) endings.insert(file.ending);
  return endings;
}

// Upright vents of the drill's own size are drilled by the machine; all others need the template.
TEST(Milled, TemplateForWhatTheDrillLeaves) {
  const std::string vents = "[vents]\ndiameter = \"3 mm\"\nspacing = \"30 mm\"\n";
  const std::string vented = std::string(milled_pad).insert(milled_pad.find("[mill]"), vents);
  const std::string drilled = with_key(with_key(vented, "drill", "3 mm"), "drill_flute", "30 mm");
  const auto by_machine = endings_of(drilled), by_hand = endings_of(vented);
  EXPECT_FALSE(by_machine.contains(".drilling.a4.pdf"));
  EXPECT_TRUE(by_machine.contains(".drill.ngc"));
  EXPECT_TRUE(by_hand.contains(".drilling.a4.pdf"));
  EXPECT_FALSE(by_hand.contains(".drill.ngc"));
  const Milled& made = milled_once(drilled);
  EXPECT_GT(made.plan.vents.drilled, 5);
  EXPECT_EQ(made.plan.vents.by_hand, 0);
  EXPECT_EQ(milled_once(vented).plan.vents.by_hand, made.plan.vents.drilled);
}

TEST(Milled, RefusesWhatTheToolsCannotDo) {
  struct Case {
    const char *text, *words;
  };
  const std::string short_tool = with_key(with_key(milled_pad, "flute", "15 mm"), "stick_out", "16 mm");
  const std::string thick_tool = with_key(milled_pad, "tool", "300 mm ball");
  const std::string small_stock = with_key(milled_pad, "stock_size", "110x110 mm");
  const std::string small_machine = with_key(milled_pad, "travel", "100x100x80 mm");
  const std::string whole_block = with_key(milled_block, "setup", "one");
  for (const Case& c : {Case{short_tool.c_str(), "mm"}, Case{small_stock.c_str(), "mm"},
                        Case{small_machine.c_str(), "mm"}, Case{whole_block.c_str(), "tiers"}}) {
    const auto made = milled(c.text);
    ASSERT_FALSE(made) << c.text;
    EXPECT_EQ(made.fault().exit, ExitCode::impossible) << made.fault().line();
    EXPECT_NE(made.fault().line().find(c.words), std::string::npos) << made.fault().line();
    EXPECT_FALSE(made.fault().allowed.empty());
  }
}

// Plastic in the spool's profile says nothing about milling.
TEST(Milled, RefusesAMaterialWithoutFigures) {
  const auto made = milled(std::string(milled_pad).replace(milled_pad.find("xps"), 3, "petg"));
  ASSERT_FALSE(made);
  EXPECT_EQ(made.fault().exit, ExitCode::order);
  EXPECT_NE(made.fault().line().find("xps"), std::string::npos) << made.fault().line();
}

// ---- any pad, any tool -----------------------------------------------------------------------

class PadMaker {
 public:
  explicit PadMaker(std::uint64_t seed) : random_(seed) {}
  std::string make() {
    const double crown = between(80, 260), rise = between(8, 60);
    std::string text = "[measure]\ntaken_at = \"form\"\n" + key("crown_diameter", crown) + key("rise", rise);
    text += "[shape]\n" + key("dome", between(0, std::min(rise * 0.4, 15.0)));
    text += key("edge_radius", between(0, std::min(rise * 0.5, 25.0)));
    text += "[form]\nkind = \"pad\"\n[mill]\nmaterial = \"" + any({"xps", "pu-board-200", "mdf", "beech"}) +
            "\"\n";
    const double tool = any_of({3.0, 4.0, 6.0, 8.0, 12.0});
    text += "tool = \"" + number_text(tool) + " mm ball\"\n";
    if (chance(0.5))
      text += "rough_tool = \"" + number_text(any_of({4.0, 6.0, 8.0, 10.0})) + any({" mm flat", " mm ball"}) +
              "\"\n";
    text += key("stock_sheets", any_of({8.0, 12.0, 18.0, 25.0, 50.0})) + key("scallop", between(0.03, 0.3));
    text += key("flute", between(8, 40)) + key("stick_out", between(40, 90)) + "cell = \"0.5 mm\"\n";
    text += "dialect = \"" + any({"rs274", "plain"}) + "\"\n";
    return text;
  }

 protected:
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  bool chance(double p) { return between(0, 1) < p; }
  double any_of(const std::vector<double>& values) {
    return values[std::uniform_int_distribution<std::size_t>(0, values.size() - 1)(random_)];
  }
  std::string any(const std::vector<std::string>& words) {
    return words[std::uniform_int_distribution<std::size_t>(0, words.size() - 1)(random_)];
  }
  std::string key(const char* name, double mm) {
    return std::string(name) + " = \"" + number_text(mm, 2) + " mm\"\n";
  }
  std::mt19937_64 random_;
};

/// Blocks in tiers, drilled for their dowels.
class BlockMaker : public PadMaker {
 public:
  using PadMaker::PadMaker;
  std::string make() {
    const double head = between(480, 640), wider = between(1.15, 1.7);
    std::string text = "[measure]\ntaken_at = \"form\"\n" + key("head_girth", head);
    text += key("crown_diameter", head / std::numbers::pi * wider) + key("rise", between(45, 90));
    text += "[shape]\n" + key("dome", between(0, 12)) + key("edge_radius", between(4, 24));
    text += "[form]\nwall = \"solid\"\n" + key("collar", between(0, 40)) + "[mill]\n";
    text += "tool = \"" + any({"6", "8", "10"}) + " mm ball\"\ndrill = \"6 mm\"\ndrill_flute = \"60 mm\"\n";
    text += key("stock_sheets", any_of({15.0, 20.0, 25.0, 40.0})) + key("scallop", between(0.04, 0.2));
    return text +
           "flute = \"30 mm\"\nstick_out = \"60 mm\"\ncell = \"0.5 mm\"\ntravel = \"500x500x120 mm\"\n";
  }
};

int pads_to_try() {
  if (const char* told = std::getenv("CW_PADS")) return std::atoi(told);
  return test::light() ? 12 : 200;
}

TEST(RandomPads, KeepTheirLimitsOrAreRefused) {
  const auto seed = test::seed();
  int cut = 0, refused = 0;
  double worst_rest = 0;
  for (int i = 0; i < pads_to_try(); ++i) {
    const std::string text = PadMaker(seed * 7919 + static_cast<std::uint64_t>(i)).make();
    SCOPED_TRACE(text);
    const auto made = milled(text);
    if (!made) {
      ++refused;
      EXPECT_TRUE(made.fault().exit == ExitCode::impossible) << made.fault().line();
      EXPECT_FALSE(made.fault().allowed.empty()) << made.fault().line();
      continue;
    }
    ++cut;
    const double scallop = test::read_order(text).mill->scallop.mm();
    EXPECT_LE((*made)->gouge_max, 0.02);
    EXPECT_LE((*made)->rest_max, scallop + 0.01);
    worst_rest = std::max(worst_rest, (*made)->rest_max / scallop);
  }
  std::cout << cut << " cut, " << refused << " refused, greatest rest " << worst_rest
            << " of the scallop, seed " << seed << "\n";
  EXPECT_GT(cut, pads_to_try() / 4);
}

TEST(RandomPads, BlocksInTiersToo) {
  const auto seed = test::seed();
  int cut = 0, refused = 0;
  const int tries = std::max(4, pads_to_try() / 10);
  for (int i = 0; i < tries; ++i) {
    const std::string text = BlockMaker(seed * 104729 + static_cast<std::uint64_t>(i)).make();
    SCOPED_TRACE(text);
    const auto made = milled(text);
    if (!made) {
      ++refused;
      EXPECT_TRUE(made.fault().exit == ExitCode::impossible) << made.fault().line();
      continue;
    }
    ++cut;
    EXPECT_LE((*made)->gouge_max, 0.02);
    EXPECT_LE((*made)->rest_max, test::read_order(text).mill->scallop.mm() + 0.01);
  }
  std::cout << cut << " blocks cut, " << refused << " refused\n";
  EXPECT_GT(cut, tries / 3);
}

}  // namespace
}  // namespace crownwright::making
