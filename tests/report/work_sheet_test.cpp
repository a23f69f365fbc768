// The work sheet of whole forms: as poppler, an XML parser and cairo read it, against the orders' own values.

#include "report/work_sheet.h"

#include <gtest/gtest.h>

#include <pugixml.hpp>

#include "drawings/milling_pages.h"
#include "making/write.h"
#include "order/saver.h"
#include "report/made_form.h"
#include "report/work_sheet_words.h"
#include "support/grey_picture.h"
#include "support/light.h"
#include "support/random_order.h"
#include "support/seed.h"

namespace crownwright::report {
namespace {

using drawings::printed::expect_legible;
using drawings::printed::PrintedSheet;
using test::made;
using test::worked_case;

constexpr char coarse_mesh[] = "[mesh]\nchord_tolerance = \"0.3 mm\"\n";

const std::string& sheet_file(const std::vector<making::ExtraFile>& files, const std::string& ending) {
  for (const making::ExtraFile& file : files)
    if (file.ending == ending) return file.bytes;
  throw std::runtime_error("no file " + ending);
}

std::string one_line(const std::string& text) {
  std::istringstream words(text);
  std::string line;
  for (std::string word; words >> word;) line += (line.empty() ? "" : " ") + word;
  return line;
}

/// What each chapter, the steps and the verdicts say, one after the other.
std::string all_words(const drawings::WorkSheet& sheet) {
  std::string text = sheet.title + " " + sheet.subtitle;
  for (const auto& figure : sheet.figures)
    text += " " + figure.name + " " + figure.value + " " + figure.beside;
  for (const auto& verdict : sheet.verdicts)
    text += " " + verdict.name + ": " + verdict.verdict + " " + verdict.reason;
  for (const auto& step : sheet.steps) text += " " + step.label + " " + step.words;
  for (const auto& chapter : sheet.chapters) {
    text += " " + chapter.heading;
    for (const auto& line : chapter.lines) text += " " + line.label + " " + line.words;
  }
  for (const std::string& caution : sheet.cautions) text += " " + caution;
  return text;
}

std::string words_of_order(const std::string& order) {
  return all_words(work_sheet(made(order + coarse_mesh), "worked", false, ""));
}

bool holds(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

const std::string inch_case =
    "name = \"Inches\"\n[measure]\nhead_girth = \"22 3/4 in\"\ncrown_diameter = \"11 in\"\nrise = \"3 in\"\n"
    "taken_at = \"form\"\n";

order::Order order_of(const std::string& text) {
  auto order = order::read_order_text(text, "worked.toml");
  if (!order) throw std::runtime_error(order.fault().line());
  return *std::move(order);
}

// ---- units and paper -------------------------------------------------------------------------

TEST(WorkSheetUnits, FollowHowTheOrderIsWritten) {
  EXPECT_TRUE(is_written_in_inches(order_of(inch_case)));
  EXPECT_FALSE(is_written_in_inches(order_of(worked_case())));
  // Saved and read again, and a hat size in inches beside centimetres.
  EXPECT_TRUE(is_written_in_inches(order_of(order::order_text(order_of(inch_case)))));
  EXPECT_FALSE(is_written_in_inches(
      order_of("[measure]\nhat_size = \"US 7 1/8\"\ncrown_diameter = \"28 cm\"\nrise = \"7.5 cm\"\n")));
  EXPECT_TRUE(is_written_in_inches(
      order_of("[measure]\nhat_size = \"US 7 1/8\"\ncrown_diameter = \"10 7/8 in\"\nrise = \"2.75 in\"\n")));
  // One length in the other units changes nothing.
  EXPECT_TRUE(is_written_in_inches(order_of(inch_case + "[shape]\nedge_radius = \"20 mm\"\n")));
}

// 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
TEST(WorkSheetUnits, SayLengthsBothWays) {
  const SheetUnits metric(false), inches(true);
  EXPECT_EQ(metric.own(570), "57.0 cm");
  EXPECT_EQ(metric.both(570), "57.0 cm (22 7/16 in)");  // 22.441 in
  EXPECT_EQ(inches.own(577.85), "22 3/4 in");
  EXPECT_EQ(inches.both(577.85), "22 3/4 in (57.8 cm)");
  EXPECT_EQ(metric.own(15), "15 mm");
  EXPECT_EQ(inches.own(15), "19/32 in");  // 0.5906 in
  EXPECT_EQ(inches.own(0.1), "0.1 mm");
  EXPECT_EQ(metric.both(0.1), "0.1 mm");
}

TEST(WorkSheetFiles, AreA4OrLetterByTheOrder) {
  const making::Form metric = made(worked_case(coarse_mesh)), inches = made(inch_case + coarse_mesh);
  const auto of_metric = sheet_files(metric, "worked"), of_inches = sheet_files(inches, "inches");
  ASSERT_EQ(of_metric.size(), 3u);
  const PrintedSheet a4(sheet_file(of_metric, ".sheet.a4.pdf")),
      letter(sheet_file(of_inches, ".sheet.letter.pdf"));
  drawings::printed::expect_paper(a4, drawings::Paper::a4);
  drawings::printed::expect_paper(letter, drawings::Paper::letter);
  for (const PrintedSheet* sheet : {&a4, &letter}) {
    expect_legible(*sheet);
    EXPECT_LE(sheet->pages().size(), 2u);
  }
  // The worked case's own figures: 2 pi 90.7 = 569.88 mm; 280 mm = 11.02 in; 75 mm = 2.953 in.
  const std::string text = one_line(a4.text());
  for (const char* words :
       {"57.0 cm", "22 7/16 in, ordered 57.0 cm", "28.0 cm", "11 in, ordered 28.0 cm", "7.5 cm",
        "2 15/16 in, ordered 7.5 cm", "dome 6 mm", "edge R 2.0 cm", "collar 15 mm"})
    EXPECT_TRUE(holds(text, words)) << words << "\n" << text;
  const std::string other = one_line(letter.text());
  for (const char* words : {"22 3/4 in", "57.8 cm, ordered 22 3/4 in", "11 in", "27.9 cm", "3 in", "7.6 cm"})
    EXPECT_TRUE(holds(other, words)) << words << "\n" << other;
}

TEST(WorkSheetFiles, BearTheOrdersMarkAndAreTheSameAgain) {
  const making::Form form = made(worked_case(coarse_mesh));
  const auto files = sheet_files(form, "worked"), again = sheet_files(form, "worked");
  ASSERT_EQ(files.size(), again.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_EQ(files[i].bytes, again[i].bytes) << files[i].ending;
    EXPECT_TRUE(holds(files[i].bytes, "crownwright " + making::order_mark(form.order))) << files[i].ending;
  }
}

// ---- the picture -----------------------------------------------------------------------------

TEST(WorkSheetFiles, HaveAPictureThatCairoReads) {
  const std::string png = sheet_file(sheet_files(made(worked_case(coarse_mesh)), "worked"), ".picture.png");
  const test::GreyPicture picture = test::read_png(png);
  EXPECT_EQ(picture.width, 640);
  EXPECT_EQ(picture.height, 480);
  EXPECT_EQ(picture.at(0, 0), 255);      // white round it
  EXPECT_LT(picture.at(320, 240), 240);  // and a form in its middle
}

// ---- the steps -------------------------------------------------------------------------------

TEST(WorkSheetSteps, StandInTheOrderOfTheTrade) {
  const std::string text = one_line(
      PrintedSheet(sheet_file(sheet_files(made(worked_case(coarse_mesh)), "w"), ".sheet.a4.pdf")).text());
  std::size_t at = text.find("Press, in this order");
  ASSERT_NE(at, std::string::npos);
  for (const char* step : {"1 Dampen", "2 Put it on the form.", "3 Press cloth.", "4 Steam or iron.",
                           "5 Hold.", "6 Let it cool on the form", "7 Take it off."}) {
    const std::size_t next = text.find(step, at);
    ASSERT_NE(next, std::string::npos) << step;
    at = next;
  }
}

TEST(WorkSheetSteps, SayHowTheOrderIsPressed) {
  const std::string open = words_of_order(worked_case());
  EXPECT_TRUE(holds(open, "The order does not say which.")) << open;
  EXPECT_TRUE(holds(open, "its material does not stand: no steam")) << "PETG is the default";
  const std::string pc = "[print]\nmaterial = \"pc\"\n";
  const std::string steam =
      words_of_order(worked_case(pc + "[press]\nheat = \"steam\"\nsteam_flow = \"25 g/min\"\n"));
  EXPECT_TRUE(holds(steam, "reckoned with 25 g a minute")) << steam;
  EXPECT_FALSE(holds(steam, "Iron dry"));
  const std::string dry =
      words_of_order(worked_case(pc + "[press]\nheat = \"dry\"\niron = \"150\"\npress_cloth = \"1.5 mm\"\n"));
  EXPECT_TRUE(holds(dry, "at most 150 C (two dots)")) << dry;  // ISO 3758: two dots, 150 C
  EXPECT_TRUE(holds(dry, "A cloth of 1.5 mm (1/16 in) between iron and beret, always"));
  EXPECT_FALSE(holds(dry, "Steam from all sides"));
  const std::string cold = words_of_order(worked_case("[press]\nheat = \"cold\"\n"));
  EXPECT_TRUE(holds(cold, "No steam, no iron.")) << cold;
  const std::string risk =
      words_of_order(worked_case("[press]\nheat = \"steam\"\naccept_risk = \"One trial only.\"\n"));
  EXPECT_TRUE(holds(risk, "PETG does not stand it")) << risk;
  EXPECT_TRUE(holds(risk, "The order accepts the risk: \"One trial only.\"."));
}

// The seat is the collar's upper edge; the figures of the opening are the form's own.
TEST(WorkSheetSteps, SayWhereItSitsAndHowItComesOff) {
  const making::Form form = made(worked_case(std::string("[form]\ncollar = \"12 mm\"\n") + coarse_mesh));
  const std::string text = all_words(work_sheet(form, "w", false, ""));
  EXPECT_TRUE(holds(text, "12 mm (15/32 in) above the foot")) << text;
  EXPECT_TRUE(holds(text, "Edge first, tilted. The opening of 57.0 cm must come to " +
                              SheetUnits(false).own(form.fit->opening.needed.edge_first)));
  const std::string none = words_of_order(worked_case("[form]\ncollar = \"0 mm\"\n"));
  EXPECT_TRUE(holds(none, "comes to the foot of the form")) << none;
}

TEST(WorkSheetSteps, OfAPadHaveNoHeadLine) {
  const std::string text = words_of_order(
      "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"32 mm\"\n[form]\nkind = \"pad\"\n[print]\nmaterial = "
      "\"xps\"\n");
  EXPECT_TRUE(holds(text, "Lay the pad on the table, tip up")) << text;
  EXPECT_TRUE(holds(text, "Thickness 3.2 cm 1 1/4 in, ordered 3.2 cm"));
  EXPECT_FALSE(holds(text, "ead line"));
}

// ---- taking apart, fit, making -----------------------------------------------------------------

TEST(WorkSheetChapters, TakeAPuzzleApartInItsOrder) {
  const std::string order =
      "name = \"Puzzle\"\n[measure]\nhead_girth = \"56 cm\"\ncrown_diameter = \"27 cm\"\n"
      "rise = \"7 cm\"\n[shape]\nedge_radius = \"16 mm\"\n[cloth]\nname = \"wool-felt\"\n"
      "[puzzle]\npieces = 9\n[print]\nprinter = \"bed-220\"\n";
  const making::Form form = made(order + coarse_mesh);
  ASSERT_EQ(form.released->steps.size(), 10u);
  const PrintedSheet sheet(sheet_file(sheet_files(form, "puzzle"), ".sheet.a4.pdf"));
  expect_legible(sheet);
  const std::string text = one_line(sheet.text());
  std::size_t number = 0;
  for (const parts::Step& step : form.released->steps)
    EXPECT_TRUE(holds(text, std::to_string(++number) + " " + step.piece + ":")) << step.piece << "\n" << text;
  for (const making::PrintedPart& part : form.printed.parts)
    EXPECT_TRUE(holds(text, part.name + ":")) << part.name;
  EXPECT_TRUE(holds(text, "In 10 parts"));
}

TEST(WorkSheetChapters, SayTheVerdictOfTheFitAndWhatToChange) {
  const making::Form form = made(
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"7 cm\"\n[cloth]\nname = "
      "\"wool-felt\"\n[pattern]\npanels = 6\n" +
      std::string(coarse_mesh));
  ASSERT_TRUE(form.fit && form.fit->crown);
  const making::CrownFit& crown = *form.fit->crown;
  const std::string text = all_words(work_sheet(form, "w", false, ""));
  EXPECT_TRUE(holds(text, "Fit: " + fit::verdict_words(crown.report.verdict))) << text;
  ASSERT_GT(crown.nearest.size(), 1u);
  std::vector<std::string> changes;
  for (const auto& chapter : sheet_chapters(form, SheetUnits(false)))
    for (const auto& line : chapter.lines)
      if (line.label == "Change:") changes.push_back(line.words);
  ASSERT_EQ(changes.size(), crown.nearest.size());
  for (std::size_t i = 0; i < changes.size(); ++i)
    EXPECT_TRUE(holds(changes[i], crown.nearest[i].says)) << changes[i];
  const PrintedSheet sheet(sheet_file(sheet_files(form, "w"), ".sheet.a4.pdf"));
  expect_legible(sheet);
  EXPECT_TRUE(holds(one_line(sheet.text()), "Strain of the cloth, %"));
}

TEST(WorkSheetChapters, CarryEveryWarningAndTheCautions) {
  const making::Form form = made(worked_case(std::string("[vents]\n") + coarse_mesh));
  ASSERT_FALSE(form.warnings.empty());
  const std::string text = all_words(work_sheet(form, "w", false, ""));
  for (const std::string& warning : form.warnings) EXPECT_TRUE(holds(text, warning)) << warning;
  EXPECT_TRUE(holds(text, std::to_string(form.vents.count) + " steam vents of 3 mm (1/8 in)")) << text;
  for (const char* words : {"scald", "soften", "fume", "dust", "cutters", "data sheet", "local rules"})
    EXPECT_TRUE(holds(text, words)) << words;
  // Nobody's seconds: how long is told by the cloth.
  EXPECT_FALSE(holds(text, "second"));
}

TEST(WorkSheetChapters, TellAStackAndARouter) {
  const std::string pad = "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"40 mm\"\n[form]\nkind = \"pad\"\n";
  const std::string stack = words_of_order(pad + "[stack]\nsheet = \"10 mm\"\n[print]\nmaterial = \"xps\"\n");
  EXPECT_TRUE(holds(stack, "4 sheets of 10 mm (13/32 in)")) << stack;
  EXPECT_TRUE(holds(stack, "Knife"));
  const making::Form milled =
      made(pad +
           "[mill]\nmaterial = \"xps\"\nstock_sheets = \"50 mm\"\ntool = \"8 mm ball\"\n"
           "stick_out = \"60 mm\"\nflute = \"50 mm\"\ncell = \"1 mm\"\nscallop = \"0.3 mm\"\n" +
           coarse_mesh);
  const std::string mill = all_words(work_sheet(milled, "w", false, ""));
  EXPECT_TRUE(holds(mill, "1 sheet of xps")) << mill;
  EXPECT_TRUE(holds(mill, "1 set-up, about"));
  EXPECT_TRUE(holds(mill, "One set-up, as it stands, wide face down:"));
  EXPECT_TRUE(holds(mill, "finish with a 8 mm ball"));
  EXPECT_FALSE(holds(mill, "filament"));
}

// ---- HTML --------------------------------------------------------------------------------------

std::string from_base64_text(const std::string& text) {
  std::string bytes;
  unsigned held = 0, bits = 0;
  const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  for (const char c : text) {
    if (c == '=') break;
    held = held << 6 | static_cast<unsigned>(digits.find(c)), bits += 6;
    if (bits >= 8) bits -= 8, bytes += static_cast<char>(held >> bits & 255);
  }
  return bytes;
}

std::string text_below(const pugi::xml_node& node) {
  std::string text = node.type() == pugi::node_pcdata ? std::string(node.value()) + " " : std::string();
  for (const pugi::xml_node& child : node.children()) text += text_below(child);
  return text;
}

TEST(WorkSheetHtml, IsWholeInItself) {
  const making::Form form = made(
      "name = \"Felt & <six>\"\n[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"7 "
      "cm\"\n[cloth]\nname = \"wool-felt\"\n[pattern]\npanels = 6\n" +
      std::string(coarse_mesh));
  const std::string html = sheet_file(sheet_files(form, "felt"), ".sheet.html");
  pugi::xml_document document;
  const auto parsed =
      document.load_buffer(html.data(), html.size(), pugi::parse_default | pugi::parse_ws_pcdata);
  ASSERT_TRUE(parsed) << parsed.description() << " at " << parsed.offset;
  const pugi::xml_node page = document.child("html");
  EXPECT_STREQ(page.attribute("lang").value(), "en");
  EXPECT_EQ(page.select_nodes("//h1").size(), 1u);
  EXPECT_GE(page.select_nodes("//h2").size(), 5u);
  EXPECT_EQ(page.select_nodes("//h3|//h4").size(), 0u) << "no level is skipped";
  EXPECT_EQ(page.select_nodes("//script|//link|//iframe|//object").size(), 0u);
  EXPECT_EQ(page.select_nodes("//svg").size(), 2u);
  EXPECT_EQ(page.select_nodes("//svg[@role='img'][string-length(@aria-label)>20]").size(), 2u);
  EXPECT_EQ(page.select_nodes("//ol/li").size(), 7u);
  EXPECT_STREQ(page.select_node("//h1").node().child_value(), "Felt & <six>");
  // Nothing is fetched: no address but those of the two languages' names.
  for (std::size_t at = html.find("http"); at != std::string::npos; at = html.find("http", at + 1))
    EXPECT_TRUE(html.compare(at, 19, "http://www.w3.org/1") == 0 ||
                html.compare(at, 19, "http://www.w3.org/2") == 0)
        << html.substr(at, 60);
  const std::string data = page.select_node("//img").node().attribute("src").value();
  const std::string start = "data:image/png;base64,";
  ASSERT_EQ(data.compare(0, start.size(), start), 0);
  EXPECT_EQ(from_base64_text(data.substr(start.size())), form_picture(form));
  const std::string text = one_line(text_below(page));
  const drawings::WorkSheet sheet = work_sheet(form, "felt", false, "");
  for (const auto& figure : sheet.figures) EXPECT_TRUE(holds(text, figure.value)) << figure.value;
  for (const auto& chapter : sheet.chapters)
    for (const auto& line : chapter.lines) EXPECT_TRUE(holds(text, one_line(line.words))) << line.words;
}

// ---- whatever is ordered ---------------------------------------------------------------------------

TEST(WorkSheetFiles, StayLegibleWhateverIsOrdered) {
  const std::string block =
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"7.5 cm\"\n";
  const std::string name = "name = \"" + std::string(120, 'W') + "\"\n";
  const std::vector<std::string> orders = {
      name + block,
      // 50 cm across, in many parts
      "[measure]\nhead_girth = \"60 cm\"\ncrown_diameter = \"50 cm\"\nrise = \"20 cm\"\n[form]\ncollar = "
      "\"60 "
      "mm\"\nwall = \"6 mm\"\n[cloth]\nname = \"melton\"\n[print]\nbed = \"220x220x250 mm\"\n",
      // as thin as may be
      "[measure]\ncrown_diameter = \"24 cm\"\nrise = \"5 mm\"\ntaken_at = \"form\"\n[shape]\nprofile = "
      "\"flat\"\n"
      "edge_radius = \"1 mm\"\n[form]\nkind = \"pad\"\n",
      name + inch_case.substr(inch_case.find('\n') + 1) +
          "[cloth]\nname = \"fleece\"\n[pattern]\npanels = 4\n",
      block + "[form]\nwall = \"solid\"\ncollar = \"0 mm\"\n",
      block + "[cloth]\nname = \"melton\"\n[pattern]\npanels = 24\n[puzzle]\npieces = 2\n",
      block + "[shape]\ndome = \"20 mm\"\nedge_radius = \"12 mm\"\nunder_edge_radius = \"8 mm\"\n[vents]\n",
  };
  for (std::size_t i = 0; i < orders.size(); ++i) {
    SCOPED_TRACE(i);
    for (const making::ExtraFile& file : sheet_files(made(orders[i] + coarse_mesh), std::string(100, 's'))) {
      if (file.ending.find(".pdf") == std::string::npos) continue;
      const PrintedSheet sheet(file.bytes);
      expect_legible(sheet);
      EXPECT_LE(sheet.pages().size(), 2u);
      EXPECT_TRUE(holds(sheet.text(), "scald"));
    }
  }
}

// Ten forms out of anything that may be ordered.
TEST(WorkSheetFiles, StayLegibleAtRandom) {
  SCOPED_TRACE(test::seed_note());
  int made_forms = 0;
  for (std::uint64_t index = 0; made_forms < (test::light() ? 3 : 10) && index < 400; ++index) {
    test::WrittenOrder written = test::OrderMaker(test::seed(), index).make();
    written["mesh.chord_tolerance"] = "\"0.5 mm\"";
    std::erase_if(written, [](const auto& entry) {
      return entry.first.rfind("vents.", 0) == 0 || entry.first.rfind("mill.", 0) == 0;
    });
    const auto order = order::read_order_text(test::toml_of(written), "random.toml");
    if (!order) continue;
    const auto form = making::make_form(*order, {CW_SOURCE_DIR "/profiles"});
    if (!form) continue;
    SCOPED_TRACE(test::toml_of(written));
    ++made_forms;
    const PrintedSheet sheet(sheet_files(*form, "random").front().bytes);
    expect_legible(sheet);
    EXPECT_LE(sheet.pages().size(), 2u);
  }
  EXPECT_GE(made_forms, 3);
}

}  // namespace
}  // namespace crownwright::report
