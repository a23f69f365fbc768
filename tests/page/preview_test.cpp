#include "making/preview.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <numbers>
#include <regex>
#include <set>

#include "making/form.h"
#include "order/reader.h"
#include "page/asked.h"
#include "page/base64.h"

namespace crownwright::page {
namespace {

using test::good_preview;
using test::Json;
using test::small_block;
using test::small_pad;
using test::with;

struct Drawn {
  std::vector<float> positions;
  std::vector<std::uint32_t> indices;
};

template <class T>
std::vector<T> numbers_in(const std::string& text) {
  const std::string bytes = from_base64(text).value();
  std::vector<T> values(bytes.size() / sizeof(T));
  std::memcpy(values.data(), bytes.data(), values.size() * sizeof(T));
  return values;
}

Drawn drawn_mesh(const Json& mesh) {
  return {numbers_in<float>(mesh["positions"]), numbers_in<std::uint32_t>(mesh["indices"])};
}

// Divergence theorem over the triangles as the page draws them.
double volume_of(const Drawn& mesh) {
  double sum = 0;
  const auto corner = [&](std::size_t i, std::size_t k) {
    return double(mesh.positions[3 * mesh.indices[i] + k]);
  };
  for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3)
    sum += (corner(i, 0) * (corner(i + 1, 1) * corner(i + 2, 2) - corner(i + 1, 2) * corner(i + 2, 1)) -
            corner(i, 1) * (corner(i + 1, 0) * corner(i + 2, 2) - corner(i + 1, 2) * corner(i + 2, 0)) +
            corner(i, 2) * (corner(i + 1, 0) * corner(i + 2, 1) - corner(i + 1, 1) * corner(i + 2, 0))) /
           6;
  return sum;
}

// Every edge once each way.
bool is_closed(const Drawn& mesh) {
  std::set<std::pair<std::uint32_t, std::uint32_t>> edges;
  for (std::size_t i = 0; i < mesh.indices.size(); i += 3)
    for (std::size_t k = 0; k < 3; ++k)
      if (!edges.emplace(mesh.indices[i + k], mesh.indices[i + (k + 1) % 3]).second) return false;
  for (const auto& [from, to] : edges)
    if (!edges.contains({to, from})) return false;
  return true;
}

// Fleece lies 3 mm thick (profiles/cloth), so a tape on the outside reads 2 pi 3 mm more than the form's
// girth.
TEST(Preview, SaysTheFiguresOfTheForm) {
  const Json preview = good_preview(small_block());
  const Json& figures = preview["figures"];
  EXPECT_NEAR(figures["head_girth"].get<double>(), 570 - 2 * std::numbers::pi * 3, 1e-3);
  EXPECT_NEAR(figures["crown_diameter"].get<double>(), 274, 1e-3);
  EXPECT_EQ(figures["cloth_thickness"], 3);
  EXPECT_EQ(figures["collar"], 15);
  EXPECT_EQ(figures["wall"], 4);
  EXPECT_EQ(preview["kind"], "block");
  EXPECT_EQ(preview["unit"], "cm");
  EXPECT_EQ(preview["name"], "beret");
  EXPECT_TRUE(preview["core_ms"].is_number());
  EXPECT_NE(preview["toml"].get<std::string>().find("head_girth = \"57 cm\""), std::string::npos);
}

TEST(Preview, TheMeshIsClosedAndHoldsTheSaidVolume) {
  for (const Json& order : {small_block(), with(small_block(), "vents", true), small_pad(),
                            with(small_block(), "form.wall", "solid")}) {
    const Json preview = good_preview(order);
    const Drawn mesh = drawn_mesh(preview["mesh"]);
    EXPECT_EQ(mesh.indices.size(), 3 * preview["mesh"]["triangles"].get<std::size_t>());
    EXPECT_TRUE(is_closed(mesh));
    const double volume = preview["figures"]["volume_mm3"];
    EXPECT_NEAR(volume_of(mesh), volume, 0.02 * volume) << order.dump();
  }
}

// Pole first, foot last, no gap, arcs about their centres.
TEST(Preview, TheMeridianIsOneWalk) {
  const Json preview = good_preview(small_block());
  const Json& walk = preview["meridian"];
  EXPECT_EQ(walk.front()["from"][0], 0);
  EXPECT_EQ(walk.back()["to"][0], 0);
  bool has_head_line = false;
  for (std::size_t i = 0; i < walk.size(); ++i) {
    if (i > 0) {
      EXPECT_EQ(walk[i]["from"], walk[i - 1]["to"]);
    }
    has_head_line = has_head_line || walk[i]["to"] == preview["head_line"];
    if (walk[i]["kind"] != "arc") continue;
    for (const char* end : {"from", "to"})
      EXPECT_NEAR(std::hypot(walk[i][end][0].get<double>() - walk[i]["centre"][0].get<double>(),
                             walk[i][end][1].get<double>() - walk[i]["centre"][1].get<double>()),
                  walk[i]["radius"].get<double>(), 1e-3);
  }
  EXPECT_TRUE(has_head_line);
  EXPECT_EQ(good_preview(small_pad())["head_line"], nullptr);
}

// What making says without the proof is what it says with it.
TEST(Preview, SaysWhatMakingSays) {
  const auto profiles = test::page_profiles();
  for (const char* name : {"childs-fleece", "dish-pad", "disc-and-ring", "drafted-panels",
                           "parade-narrow-edge", "six-panel-felt", "soup-plate-pad", "winter-deep-block"}) {
    SCOPED_TRACE(name);
    auto order = order::read_order_file(std::string(CW_SOURCE_DIR) + "/samples/" + name + ".toml");
    ASSERT_TRUE(order.ok());
    order->mesh.chord_tolerance = Length(1, 3);
    const auto preview = making::make_preview(*order, profiles);
    const auto form = making::make_form(*order, profiles);
    ASSERT_TRUE(preview.ok() && form.ok());
    EXPECT_EQ(preview->warnings, form->warnings);
    EXPECT_EQ(preview->figures.volume, form->figures.volume);
    EXPECT_EQ(preview->figures.meridian_length, form->figures.meridian_length);
    EXPECT_EQ(preview->vents.count, form->vents.count);
    EXPECT_EQ(preview->pressed.steam.speed, form->pressed.steam.speed);
    EXPECT_EQ(preview->pressed.heat.reason, form->pressed.heat.reason);
    EXPECT_EQ(preview->pressed.stiffness.has_value(), form->pressed.stiffness.has_value());
    if (form->pressed.stiffness) {
      EXPECT_EQ(preview->pressed.stiffness->deflection, form->pressed.stiffness->deflection);
    }
    EXPECT_EQ(preview->fit.has_value(), form->fit.has_value());
    if (form->fit) {
      EXPECT_EQ(preview->fit->opening.stretch_needed, form->fit->opening.stretch_needed);
    }
  }
}

TEST(Preview, FaultsAreThoseOfMaking) {
  const auto profiles = test::page_profiles();
  const auto order = order::read_order_text(
      "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"20 mm\"\n[shape]\nedge_radius "
      "= \"40 mm\"\n",
      "x.toml");
  const auto preview = making::make_preview(*order, profiles);
  const auto form = making::make_form(*order, profiles);
  ASSERT_FALSE(preview.ok() || form.ok());
  EXPECT_EQ(preview.fault().line(), form.fault().line());
  Json flat = small_block();
  flat["measure.rise"] = "20 mm";
  flat["shape.edge_radius"] = "40 mm";
  EXPECT_EQ(test::fault_of(test::preview_of(flat))["exit"], 3);
  EXPECT_EQ(test::fault_of(test::preview_of(with(small_block(), "cloth.name", "gold")))["exit"], 2);
}

// ---- parts -----------------------------------------------------------------------------------

Json parts_of(const Json& order) { return good_preview(order, {{"view", "parts"}})["parts"]; }

void expect_unit(const Json& out) {
  EXPECT_NEAR(std::hypot(out[0].get<double>(), out[1].get<double>(), out[2].get<double>()), 1, 1e-5);
}

TEST(PreviewParts, AWholeFormIsOnePart) {
  const Json parts = parts_of(small_block());
  ASSERT_EQ(parts.size(), 1u);
  EXPECT_EQ(parts[0]["name"], "form");
}

TEST(PreviewParts, ABedSplitTogetherIsTheForm) {
  const Json order = with(small_block(), "print.bed", "180x180x180 mm");
  const Json preview = good_preview(order);
  double volume = 0;
  const Json parts = parts_of(order);
  ASSERT_GT(parts.size(), 1u);
  std::set<int> steps;
  for (const Json& part : parts) {
    const Drawn mesh = drawn_mesh(part);
    EXPECT_TRUE(is_closed(mesh)) << part["name"];
    volume += volume_of(mesh);
    expect_unit(part["out"]);
    EXPECT_EQ(part["out"][2], 0) << "sectors go aside";
    steps.insert(part["step"].get<int>());
  }
  EXPECT_EQ(steps.size(), parts.size());
  // Flanges at the joints come on top of the form's own wall.
  const double whole = preview["figures"]["volume_mm3"];
  EXPECT_GT(volume, whole);
  EXPECT_LT(volume, 1.3 * whole);
}

Json tight_puzzle(const std::string& pieces) {
  Json order = small_block();
  order["measure.head_girth"] = "50 cm";
  order["form.collar"] = "25 mm";
  order["puzzle.pieces"] = pieces;
  return order;
}

TEST(PreviewParts, APuzzleComesApartKeyFirst) {
  const Json parts = parts_of(tight_puzzle("5"));
  ASSERT_EQ(parts.size(), 6u);
  for (const Json& part : parts) {
    expect_unit(part["out"]);
    EXPECT_TRUE(is_closed(drawn_mesh(part))) << part["name"];
  }
  std::map<std::string, Json> named;
  for (const Json& part : parts) named[part["name"]] = part;
  EXPECT_EQ(named.at("ring")["step"], 1);
  EXPECT_EQ(named.at("key")["step"], 2);
  const Json down = {0, 0, -1};
  EXPECT_EQ(named.at("key")["out"], down);
  EXPECT_EQ(named.at("ring")["out"], down);
  EXPECT_GT(named.at("side-e")["out"][0], 0.5) << "east is +x";
  EXPECT_GT(named.at("end-n")["out"][1], 0.5) << "north is +y";
}

// A puzzle is made of pieces with walls and ribs of their own: what is shown whole is what they make
// together, and neither drawing nor figures speak of one wall all round.
TEST(PreviewParts, APuzzleIsShownWholeAsItsPieces) {
  for (const char* pieces : {"5", "2"}) {
    SCOPED_TRACE(pieces);
    const Json preview = good_preview(tight_puzzle(pieces));
    std::size_t triangles = 0;
    double volume = 0;
    for (const Json& part : parts_of(tight_puzzle(pieces))) {
      triangles += part["triangles"].get<std::size_t>();
      volume += volume_of(drawn_mesh(part));
    }
    EXPECT_EQ(preview["mesh"]["triangles"], triangles);
    EXPECT_NEAR(volume_of(drawn_mesh(preview["mesh"])), volume, 1e-6 * volume);
    EXPECT_NEAR(preview["figures"]["volume_mm3"].get<double>(), volume, 1e-4 * volume);
    bool has_inner_face = false;
    for (const Json& segment : preview["meridian"]) has_inner_face |= segment["role"] == "inner face";
    const bool comes_in_pieces = std::string(pieces) == "5";
    EXPECT_EQ(has_inner_face, !comes_in_pieces);
    EXPECT_EQ(preview["figures"].contains("wall"), !comes_in_pieces);
    EXPECT_EQ(preview["meridian"].back()["to"][0], 0);
  }
  Json whole = tight_puzzle("5");
  whole.erase("puzzle.pieces");
  EXPECT_LT(1.3 * good_preview(whole)["figures"]["volume_mm3"].get<double>(),
            good_preview(tight_puzzle("5"))["figures"]["volume_mm3"].get<double>())
      << "a wall on every joint face";
}

TEST(PreviewParts, ALooseRingComesOffFirst) {
  Json order = small_block();
  order["form.collar"] = "25 mm";
  order["puzzle.pieces"] = "2";
  const Json parts = parts_of(order);
  ASSERT_EQ(parts.size(), 2u);
  for (const Json& part : parts) {
    const bool ring = part["name"] == "ring";
    EXPECT_EQ(part["step"], ring ? 1 : 2);
    EXPECT_EQ(part["out"][2], ring ? -1 : 1);
  }
}

TEST(PreviewParts, PostsAndMarksShowInTheParts) {
  Json order = with(small_block(), "form.posts", "4");
  order["marks"] = true;
  const Json preview = good_preview(order);
  const Drawn part = drawn_mesh(parts_of(order)[0]);
  EXPECT_TRUE(is_closed(part));
  EXPECT_NE(parts_of(order)[0]["triangles"], preview["mesh"]["triangles"]);
}

// ---- ways in ---------------------------------------------------------------------------------

std::string sample_bytes(const std::string& name) {
  return test::contents_of(std::string(CW_SOURCE_DIR) + "/samples/" + name);
}
Json attached(const std::string& key, const std::string& name, const std::string& bytes) {
  return {{"attachments", {{key, {{"name", name}, {"base64", base64(std::as_bytes(std::span(bytes)))}}}}}};
}

TEST(WaysIn, ADrawnPanel) {
  const Json order = {{"pattern.kind", "outline"},     {"pattern.panels", "8"},
                      {"pattern.layer", "cut"},        {"pattern.seam_allowance", "3/8 in"},
                      {"cloth.name", "wool-felt"},     {"pattern.includes_allowance", "true"},
                      {"pattern.file", "my panel.svg"}};
  const Json preview =
      good_preview(order, attached("pattern.file", "my panel.svg", sample_bytes("drawn-panel.svg")));
  const auto file = order::read_order_file(std::string(CW_SOURCE_DIR) + "/samples/drawn-panel.toml");
  const auto theirs = making::make_preview(*file, test::page_profiles());
  EXPECT_NEAR(preview["figures"]["crown_diameter"].get<double>(), theirs->figures.crown_diameter, 1e-3);
  EXPECT_NE(preview["toml"].get<std::string>().find("file = \"my panel.svg\""), std::string::npos);
  EXPECT_NE(preview["fit"]["verdict"], "none");
}

TEST(WaysIn, DiscAndRing) {
  const Json order = {{"measure.head_girth", "57 cm"},     {"shape.profile", "narrow-edge"},
                      {"cloth.name", "boiled-wool"},       {"pattern.kind", "discs"},
                      {"pattern.top_diameter", "29 cm"},   {"pattern.ring_diameter", "29 cm"},
                      {"pattern.ring_opening", "15 cm"},   {"pattern.seam_allowance", "10 mm"},
                      {"pattern.includes_allowance", true}};
  EXPECT_NE(good_preview(order)["fit"]["chart_svg"], nullptr);
}

TEST(WaysIn, ADishAndItsMesh) {
  Json order = small_pad();
  order["dish.readings"] = "[[\"0 mm\", \"0 mm\"], [\"90 mm\", \"2 mm\"], [\"140 mm\", \"18 mm\"]]";
  EXPECT_EQ(good_preview(order)["kind"], "pad");
  EXPECT_EQ(good_preview(order)["fit"], nullptr);
}

// ---- files from outside ----------------------------------------------------------------------

TEST(Attachments, NoPathIsEverOpened) {
  for (const std::string path : {"/etc/passwd", "../../../etc/passwd", "drawn-panel.svg", "/dev/zero"}) {
    Json order = {{"pattern.kind", "outline"}, {"pattern.panels", "8"}, {"pattern.file", path}};
    const Json fault = test::fault_of(test::preview_of(order));
    EXPECT_EQ(fault["exit"], 2);
    EXPECT_EQ(fault["where"], "pattern.file");
    EXPECT_NE(fault["what"].get<std::string>().find("come with the order"), std::string::npos);
    Json pad = small_pad();
    pad["dish.file"] = path;
    EXPECT_EQ(test::fault_of(test::preview_of(pad))["where"], "dish.file");
    EXPECT_EQ(test::bench().make(Json{{"order", pad}}.dump()).status, 422);
  }
}

TEST(Attachments, NamesThatArePathsAreRefused) {
  const Json order = {{"pattern.kind", "outline"}, {"pattern.panels", "8"}};
  for (const std::string name :
       {"../panel.svg", "/tmp/panel.svg", "a/b.svg", "..", ".", "", ".hidden", "a\\b.svg", "a\nb.svg"}) {
    const Json fault = test::fault_of(test::preview_of(order, attached("pattern.file", name, "<svg/>")));
    EXPECT_EQ(fault["where"], "pattern.file") << name;
  }
  for (const std::string key : {"form.wall", "../../etc", "pattern", "pattern.file/../x"}) {
    const Json fault = test::fault_of(test::preview_of(order, attached(key, "panel.svg", "<svg/>")));
    EXPECT_EQ(fault["exit"], 2) << key;
  }
  const Json bad = {{"attachments", {{"pattern.file", {{"name", "a.svg"}, {"base64", "####"}}}}}};
  EXPECT_NE(test::fault_of(test::preview_of(order, bad))["what"].get<std::string>().find("base64"),
            std::string::npos);
  EXPECT_EQ(test::fault_of(test::preview_of(order, {{"attachments", 7}}))["exit"], 2);
}

std::set<std::string> private_folders() {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::temp_directory_path()))
    if (entry.path().filename().string().starts_with("crownwright-")) names.insert(entry.path().string());
  return names;
}

TEST(Attachments, AreSeenByNobodyAndLeaveNothing) {
  const test::TestFolder folder;
  ::setenv("TMPDIR", folder.path().c_str(), 1);
  const Json order = {{"pattern.kind", "outline"}, {"pattern.panels", "8"}, {"cloth.name", "wool-felt"}};
  const Json answer = test::preview_of(order, attached("pattern.file", "broken.svg", "<svg>"));
  const Json fault = test::fault_of(answer);
  EXPECT_EQ(fault.dump().find("crownwright-"), std::string::npos) << fault.dump();
  EXPECT_EQ(fault["where"].get<std::string>().rfind("broken.svg", 0), 0u) << fault.dump();
  EXPECT_TRUE(private_folders().empty());
  ::unsetenv("TMPDIR");
}

// ---- verdicts --------------------------------------------------------------------------------

// A button that leads nowhere is worse than none: every change that is offered can be made.
TEST(Verdicts, WhatTheyOfferCanBeDone) {
  std::vector<Json> orders = {
      with(small_block(), "pattern.panels", "6"), with(small_block(), "form.collar", "60 mm"),
      with(small_block(), "print.material", "pla"), small_pad(), with(small_block(), "form.wall", "1.2 mm")};
  orders[0]["cloth.name"] = "melton";
  orders[2]["vents.diameter"] = "1 mm";
  orders[2]["vents.spacing"] = "60 mm";
  std::set<std::string> about;
  for (const Json& order : orders) {
    const Json preview = good_preview(order);
    std::vector<Json> tries;
    if (!preview["fit"].is_null())
      for (const Json& one : preview["fit"]["try"]) tries.push_back(one), about.insert("fit");
    for (const Json& verdict : preview["verdicts"])
      for (const Json& one : verdict["try"]) tries.push_back(one), about.insert(verdict["about"]);
    for (const Json& one : tries) {
      Json changed = order;
      changed.update(one["order"]);
      const Json after = test::preview_of(changed);
      EXPECT_TRUE(after["ok"].get<bool>() || after["fault"]["exit"] == 3)
          << one.dump() << after["fault"].dump();
      EXPECT_FALSE(one["words"].get<std::string>().empty());
    }
  }
  EXPECT_EQ(about, (std::set<std::string>{"fit", "heat", "steam", "press", "release"}));
}

TEST(Verdicts, AChangeThatIsSaidToFitFits) {
  Json melton = with(small_block(), "pattern.panels", "6"), felt;
  melton["cloth.name"] = "melton";
  felt = test::answer_of(
      test::bench().open(Json{{"toml", sample_bytes("six-panel-felt.toml")}}.dump()))["order"];
  std::set<std::string> keys;
  for (const Json& order : {melton, felt}) {
    const Json before = good_preview(order);
    ASSERT_EQ(before["fit"]["verdict"], "bad");
    for (const Json& one : before["fit"]["try"]) {
      Json changed = order;
      changed.update(one["order"]);
      EXPECT_NE(good_preview(changed)["fit"]["verdict"], "bad") << one.dump();
      for (const auto& [key, value] : one["order"].items()) keys.insert(key);
    }
  }
  EXPECT_TRUE(keys.contains("pattern.panels") && keys.contains("shape.edge_radius")) << Json(keys).dump();
}

TEST(Verdicts, TonesAndWords) {
  const Json preview = good_preview(small_block());
  std::set<std::string> about;
  for (const Json& verdict : preview["verdicts"]) {
    about.insert(verdict["about"]);
    EXPECT_TRUE(verdict["tone"] == "good" || verdict["tone"] == "mind" || verdict["tone"] == "bad");
    EXPECT_TRUE(verdict["words"].get<std::string>().ends_with(".")) << verdict["words"];
  }
  EXPECT_EQ(about, (std::set<std::string>{"heat", "steam", "press", "print", "release"}));
  EXPECT_EQ(preview["fit"]["verdict"], "none");
  Json milled = small_pad();
  milled.update({{"mill.material", "xps"},
                 {"mill.stock_sheets", "50 mm"},
                 {"mill.stick_out", "70 mm"},
                 {"mill.flute", "30 mm"},
                 {"press.heat", "cold"},
                 {"measure.rise", "3 cm"},
                 {"stack.sheet", "10 mm"}});
  about.clear();
  const Json milled_preview = test::preview_of(milled);
  ASSERT_TRUE(milled_preview["ok"]) << milled_preview.dump();
  for (const Json& verdict : milled_preview["verdicts"]) about.insert(verdict["about"]);
  EXPECT_TRUE(about.contains("mill") && about.contains("stack")) << milled_preview["verdicts"].dump();
}

Json verdict_about(const Json& preview, const std::string& about) {
  for (const Json& verdict : preview["verdicts"])
    if (verdict["about"] == about) return verdict;
  return {};
}

// Who prints is offered what is printed first; who mills, only what is milled. Names as people write them.
TEST(Verdicts, HeatOffersWhatIsMadeTheSameWay) {
  const Json printed = verdict_about(good_preview(with(small_block(), "print.material", "petg")), "heat");
  EXPECT_EQ(printed["words"].get<std::string>().find("PETG does not stand it: PETG keeps its shape"), 0u)
      << printed["words"];
  ASSERT_EQ(printed["try"].size(), 3u);
  std::set<std::string> printable;
  const Json workshop = test::answer_of(test::bench().workshop());
  for (const Json& material : workshop["materials"])
    if (material["printed"]) printable.insert(material["name"].get<std::string>());
  for (const Json& one : printed["try"])
    EXPECT_TRUE(printable.contains(one["order"]["print.material"].get<std::string>())) << one.dump();
  EXPECT_EQ(printed["try"][1]["words"], "Make it of PC");
  const Json milled = verdict_about(good_preview({{"form.kind", "pad"},
                                                  {"measure.crown_diameter", "26 cm"},
                                                  {"measure.rise", "3 cm"},
                                                  {"measure.taken_at", "form"},
                                                  {"mill.material", "xps"},
                                                  {"mill.stock_sheets", "50 mm"},
                                                  {"mill.stick_out", "70 mm"},
                                                  {"mill.flute", "30 mm"}}),
                                    "heat");
  for (const Json& one : milled["try"]) EXPECT_TRUE(one["order"].contains("mill.material")) << one.dump();
}

// One thing is said once.
TEST(Verdicts, WarningsDoNotRepeatThem) {
  Json order = with(small_block(), "form.wall", "1.2 mm");
  order["print.material"] = "pla";
  order["press.heat"] = "steam";
  order["press.accept_risk"] = "one trial only";
  const auto form = making::make_preview(
      order::read_order_text(good_preview(order)["toml"].get<std::string>(), "x.toml").value(),
      test::page_profiles());
  ASSERT_TRUE(form.ok());
  EXPECT_GE(form->pressed.warnings.size(), 2u);
  const Json preview = good_preview(order);
  for (const std::string& words : form->pressed.warnings)
    for (const Json& said : preview["warnings"]) EXPECT_NE(said, words);
  EXPECT_EQ(verdict_about(preview, "heat")["tone"], "bad");
  EXPECT_NE(verdict_about(preview, "heat")["words"].get<std::string>().find("accepts the risk"),
            std::string::npos);
}

// No verdict tells a person who writes in inches millimetres alone.
TEST(Verdicts, SpeakInInchesToThoseWhoWriteThem) {
  Json order = {{"measure.head_girth", "22 1/2 in"},
                {"measure.crown_diameter", "11 in"},
                {"measure.rise", "3 in"},
                {"cloth.name", "melton"},
                {"pattern.panels", "6"},
                {"form.wall", "3/64 in"},
                {"form.collar", "2 in"},
                {"print.bed", "180x180x180 mm"},
                {"mesh.chord_tolerance", "0.3 mm"}};
  const Json preview = good_preview(order);
  EXPECT_EQ(preview["unit"], "in");
  std::vector<std::string> said = {preview["fit"]["words"].get<std::string>()};
  for (const Json& one : preview["fit"]["try"]) said.push_back(one["words"].get<std::string>());
  for (const Json& verdict : preview["verdicts"]) {
    said.push_back(verdict["words"].get<std::string>());
    for (const Json& one : verdict["try"]) said.push_back(one["words"].get<std::string>());
  }
  int lengths = 0;
  for (const std::string& words : said) {
    const bool metric = words.find(" mm") != std::string::npos || words.find(" cm") != std::string::npos;
    lengths += metric;
    EXPECT_EQ(metric, std::regex_search(words, std::regex("[0-9] in\\b"))) << words;
  }
  EXPECT_GE(lengths, 4);
}

// ---- faults ----------------------------------------------------------------------------------

// What cannot be built names the key to change, so that the page can mark its field.
TEST(Faults, OfGeometryNameTheirKey) {
  const std::vector<std::pair<std::string, Json>> cases = {
      {"measure.head_girth", with(small_block(), "measure.head_girth", "90 cm")},
      {"measure.rise", with(small_block(), "measure.rise", "2 cm")},
      {"shape.dome", with(small_block(), "shape.dome", "160 mm")},
      {"shape.edge_radius", with(small_block(), "shape.edge_radius", "1 mm")},
      {"form.wall", with(with(small_block(), "form.wall", "40 mm"), "measure.head_girth", "27 cm")},
      {"form.collar",
       with(with(small_block(), "form.flange_width", "20 mm"), "form.flange_thickness", "20 mm")},
      {"vents.spacing", with(small_block(), "vents.spacing", "3.5 mm")},
      {"measure.rise", with(small_pad(), "measure.rise", "8 mm")},
      {"puzzle.pieces", with(with(small_block(), "measure.head_girth", "34 cm"), "puzzle.pieces", "5")},
      {"form.collar", with(tight_puzzle("5"), "form.collar", "3 mm")}};
  for (const auto& [key, order] : cases) {
    const Json fault = test::fault_of(test::preview_of(order));
    EXPECT_EQ(fault.value("exit", 0), 3) << key << fault.dump();
    EXPECT_EQ(fault.value("where", ""), key) << fault.dump();
  }
}

// The bound in inches can be ordered as it is told: 45.9 mm would be 1.807 in, so 1.81 in is said.
TEST(Faults, SpeakInInchesToThoseWhoWriteThem) {
  Json order = {
      {"measure.head_girth", "22 1/2 in"}, {"measure.crown_diameter", "11 in"}, {"measure.rise", "1 in"},
      {"measure.taken_at", "form"},        {"shape.edge_radius", "3/4 in"},     {"shape.dome", "1/4 in"}};
  const Json fault = test::fault_of(test::preview_of(order));
  EXPECT_EQ(fault["where"], "measure.rise");
  const std::string what = fault["what"], allowed = fault["allowed"];
  EXPECT_NE(what.find("a rise of 25.4 mm (1 in) is too low"), std::string::npos) << what;
  const std::string least = "must be at least ";
  const std::size_t at = allowed.find(least), open = allowed.find("(", at), close = allowed.find(" in)", at);
  ASSERT_TRUE(at != std::string::npos && close != std::string::npos) << allowed;
  order["measure.rise"] = allowed.substr(open + 1, close - open - 1) + " in";
  EXPECT_TRUE(test::preview_of(order)["ok"]) << order["measure.rise"];
  // Who writes in centimetres is not told of inches, whoever asked before.
  const Json metric = test::fault_of(test::preview_of(with(small_block(), "measure.rise", "2 cm")));
  EXPECT_EQ(metric.dump().find(" in)"), std::string::npos) << metric.dump();
}

}  // namespace
}  // namespace crownwright::page
