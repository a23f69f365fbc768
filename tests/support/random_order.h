#pragma once
// Random orders over the whole legal range of every key, corners on purpose.
//
// Three sorts: figures that mostly go together, with one corner or another pushed to its limit; the same with
// one to three keys at an end of their range; and every key anywhere in its range, which hardly ever makes a
// form. Each order comes as TOML, so that one that fails can be kept as a case.

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "base/length.h"
#include "meridian/beret.h"
#include "order/keys.h"

namespace crownwright::test {

/// The TOML of an order, keys in the order of the key table. An entry's text is the value as written.
using WrittenOrder = std::map<std::string, std::string>;

inline std::string toml_of(const WrittenOrder& written) {
  std::string text, table;
  for (const order::Key& key : order::all_keys()) {
    const auto at = written.find(key.path());
    if (at == written.end()) continue;
    if (key.table != table) {
      table = key.table;
      text += "[" + table + "]\n";
    }
    text += std::string(key.name) + " = " + at->second + "\n";
  }
  return text;
}

class OrderMaker {
 public:
  OrderMaker(std::uint64_t seed, std::uint64_t index) : random_(seed * 1000003 + index) {}

  WrittenOrder make() {
    const double sort = share();
    if (sort < 0.04) return anything();
    const bool is_pad = one_of(0.27);
    is_pad ? pad() : block();
    if (sort < 0.14) push_to_ends();
    pattern();
    is_pad ? cover() : band();
    printing(is_pad);
    return written_;
  }

  static std::string mm(double value) { return "\"" + number_text(value, 3) + " mm\""; }

 private:
  // ---- draws -----------------------------------------------------------------------------------
  double share() { return std::uniform_real_distribution<double>(0, 1)(random_); }
  double between(double low, double high) { return low + (high - low) * share(); }
  /// Small values as often as great ones.
  double scaled(double low, double high) { return low * std::pow(high / low, share()); }
  bool one_of(double chance) { return share() < chance; }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  std::string word(const std::vector<std::string>& words) {
    return "\"" + words[static_cast<std::size_t>(whole(0, static_cast<int>(words.size()) - 1))] + "\"";
  }

  void put(const std::string& path, double value) {
    const order::Range& range = *order::find_key(path)->range;
    written_[path] = mm(std::clamp(value, range.low, range.high));
  }
  double ordered(const std::string& path) const { return std::stod(written_.at(path).substr(1)); }

  // ---- tables ----------------------------------------------------------------------------------
  void cloth() {
    const double kind = share();
    if (kind < 0.3) return;
    if (kind < 0.65)
      written_["cloth.name"] = word({"fleece", "melton", "cotton", "wool-felt", "boiled-wool", "knit"});
    if (kind > 0.55) put("cloth.thickness", one_of(0.1) ? between(0, 15) : between(0, 3.5));
    if (one_of(0.2)) written_["cloth.heat_shrink"] = number_text(between(0, one_of(0.2) ? 0.25 : 0.05), 4);
  }

  void measure_words() {
    written_["measure.taken_at"] = word({"outside", "cloth middle", "form", "form"});
    if (one_of(0.2)) written_["measure.before_steam"] = "true";
    if (one_of(0.1)) written_["name"] = "\"Beret of the day\"";
    if (one_of(0.2)) written_["print.material"] = word({"petg", "pla", "tpu", "eps", "beech", "cork"});
  }

  /// Dome and edges; what is left out comes from the profile.
  void shape(double a) {
    const double dome = share();
    if (dome < 0.2)
      put("shape.dome", 0);
    else if (dome < 0.3)
      put("shape.dome", between(0.3, 1.02) * a);
    else if (dome < 0.8)
      put("shape.dome", between(0, 0.12) * a);
    const double edge = share();
    if (edge < 0.12)
      put("shape.edge_radius", 0);
    else if (edge < 0.3)
      put("shape.edge_radius", between(0.05, 4));
    else if (edge < 0.36)
      put("shape.edge_radius", between(0.3, 1.01) * a);
    else if (edge < 0.85)
      put("shape.edge_radius", between(0.02, 0.28) * a);
    if (one_of(0.25)) put("shape.under_edge_radius", one_of(0.2) ? 0 : between(0, 0.3) * a);
    if (one_of(0.5))
      written_["shape.profile"] = word({"soft-dome", "flat", "deep-dome", "full-edge", "narrow-edge",
                                        "razor-edge", "round-under", "shallow-under"});
  }
  double written_or(const std::string& path, double otherwise) const {
    return written_.contains(path) ? ordered(path) : otherwise;
  }

  void vents() {
    written_["vents.diameter"] = mm(one_of(0.1) ? 1 : one_of(0.1) ? 8 : between(1, 6));
    const double d = ordered("vents.diameter");
    const double rim = one_of(0.3) ? 0 : one_of(0.1) ? 3 : between(0.05, 1.5);
    put("vents.rim", rim);
    const double touching = d + 2 * ordered("vents.rim") + 0.4;
    const double kind = share();
    if (kind < 0.15)
      put("vents.spacing", one_of(0.25) ? touching - between(0.01, 0.39) : touching);
    else if (kind < 0.3)
      put("vents.spacing", between(100, 200));
    else
      put("vents.spacing", std::max(touching, scaled(6, 60)));
    if (one_of(0.3)) put("vents.margin", one_of(0.3) ? 0 : between(0, 15));
    if (one_of(0.6)) written_["vents.rim_style"] = word({"chamfer", "round"});
  }

  void mesh() {
    const double kind = share();
    put("mesh.chord_tolerance", kind < 0.04 ? 0.002 : kind < 0.1 ? 0.5 : scaled(0.005, 0.3));
    if (one_of(0.1)) written_["mesh.formats"] = "[\"stl\", \"obj\", \"ply\"]";
    if (one_of(0.1)) written_["mesh.ascii"] = "true";
  }

  // ---- kinds -----------------------------------------------------------------------------------
  void block() {
    const double girth = one_of(0.75) ? between(430, 640) : between(200, 900),
                 b = girth / (2 * std::numbers::pi);
    put("measure.crown_diameter", one_of(0.85) ? 2 * b * between(1.02, 1.8) : between(80, 500));
    const double a = ordered("measure.crown_diameter") / 2;
    if (one_of(0.08))
      written_["measure.hat_size"] = word({"US 7 1/8", "UK 6 3/4", "EU 57", "EU 61", "US 8"});
    else
      put("measure.head_girth", girth);
    cloth();
    measure_words();
    shape(a);
    const double dome = written_or("shape.dome", 0.06 * a), upper = written_or("shape.edge_radius", 0.13 * a);
    const double lower = written_or("shape.under_edge_radius", upper);
    put("measure.rise",
        dome + (upper + lower) * between(0.7, 1.2) + (one_of(0.8) ? between(2, 50) : between(0, 250)));
    if (one_of(0.12)) panel_lengths(a, b, dome, upper, lower);
    if (one_of(0.35))
      written_["pattern.panels"] = std::to_string(one_of(0.3) ? (one_of(0.4) ? 3 : 48) : whole(3, 24));
    const bool solid = one_of(0.15);
    const double wall = one_of(0.1)    ? 0.8
                        : one_of(0.05) ? 40
                        : one_of(0.1)  ? between(6, 40)
                                       : between(0.8, 6);
    written_["form.wall"] = solid ? "\"solid\"" : mm(wall);
    below_the_head_line(solid);
    if (!solid && one_of(0.6)) vents();
    mesh();
  }

  /// Lengths of a panel that belongs to some beret of nearly these figures.
  void panel_lengths(double a, double b, double t, double e_u, double e_l) {
    if (t > a || e_u > a) return;
    const auto figures = meridian::solve_figures({a, b, ordered("measure.rise"), t, e_u, e_l});
    put("panel_lengths.top", meridian::top_length(a, t, e_u) * between(0.99, 1.01));
    put("panel_lengths.under", figures ? figures->under_length : between(1, 300));
    written_.erase("shape.edge_radius");
    written_.erase("shape.under_edge_radius");
    written_["shape.dome"] = mm(t);
    if (one_of(0.7)) written_.erase("measure.rise");
  }

  void below_the_head_line(bool solid) {
    if (one_of(0.3)) put("form.foot_edge_size", one_of(0.4) ? 0 : between(0, one_of(0.3) ? 10 : 2));
    if (one_of(0.4)) written_["form.foot_edge"] = word({"chamfer", "round"});
    double need = 0;
    if (one_of(0.25)) need += groove();
    if (one_of(0.22))
      need += flange();
    else if (need > 0)
      need += written_or("form.foot_edge_size", 0.5);
    const double kind = share();
    if (need > 0)
      put("form.collar", kind < 0.35 ? need : kind < 0.42 ? need - between(0, 3) : need + between(0, 20));
    else
      put("form.collar", kind < 0.25 ? 0 : kind < 0.9 ? between(1, 40) : between(40, 120));
    if (solid ? one_of(0.4) : one_of(0.3)) floor_and_socket(solid);
  }
  double groove() {
    put("form.groove_width", one_of(0.8) ? between(1, 8) : between(1, 20));
    const double half = ordered("form.groove_width") / 2, kind = share();
    put("form.groove_depth", kind < 0.3 ? half : kind < 0.4 ? 0.5 : between(0.5, std::max(0.5, half)));
    return 1 + 2 * half;
  }
  double flange() {
    put("form.flange_width", one_of(0.8) ? between(2, 30) : between(2, 100));
    put("form.flange_thickness", one_of(0.8) ? between(0.8, 8) : between(0.8, 40));
    return ordered("form.flange_thickness");
  }
  void floor_and_socket(bool solid) {
    if (!solid) put("form.floor", one_of(0.8) ? between(0.8, 8) : between(0.8, 60));
    if (!solid && one_of(0.4)) return;
    put("form.socket", one_of(0.85) ? between(5, 50) : between(5, 120));
    if (one_of(0.5)) put("form.socket_depth", one_of(0.8) ? between(3, 40) : between(3, 200));
  }

  void pad() {
    written_["form.kind"] = "\"pad\"";
    put("measure.crown_diameter", one_of(0.8) ? between(160, 340) : between(80, 500));
    const double a = ordered("measure.crown_diameter") / 2;
    cloth();
    measure_words();
    shape(a);
    const double dome = written_or("shape.dome", 0.06 * a), upper = written_or("shape.edge_radius", 0.13 * a);
    put("measure.rise", dome + upper + between(-2, one_of(0.8) ? 40 : 200));
    if (one_of(0.3)) put("form.foot_edge_size", one_of(0.4) ? 0 : between(0, one_of(0.3) ? 10 : 2));
    if (one_of(0.4)) written_["form.foot_edge"] = word({"chamfer", "round"});
    if (one_of(0.5)) dish(a);
    if (one_of(0.35)) written_["pattern.panels"] = std::to_string(whole(3, 48));
    if (one_of(0.5)) vents();
    mesh();
  }

  /// A bowl of some power of the radius, read with a ruler that errs by up to 0.3 mm, or its mesh.
  void dish(double a) {
    if (one_of(0.12)) {
      written_["dish.file"] = "\"dish.stl\"";
    } else {
      const double depth = between(0, 0.4) * a, power = between(1, 4), reach = a * between(0.5, 1.3),
                   step = between(8, 40);
      const double error = one_of(0.5) ? 0 : 0.3;
      std::string list = "[[\"0 mm\", \"0 mm\"]";
      for (double r = step; r < reach && r < 480; r += step) {
        const double z = std::max(0.0, depth * std::pow(r / reach, power) + between(-error, error));
        list += ", [" + mm(r) + ", " + mm(z) + "]";
      }
      written_["dish.readings"] = list + "]";
    }
    if (one_of(0.6)) put("dish.gap", one_of(0.2) ? 0 : between(0, one_of(0.8) ? 6 : 50));
    if (one_of(0.7)) put("measure.rise", ordered("measure.rise") + between(0, 0.4) * a);
  }

  // ---- pieces ----------------------------------------------------------------------------------
  /// What is said of a pattern that is not drawn yet.
  void pattern() {
    if (one_of(0.1)) put("pattern.seam_allowance", one_of(0.2) ? 0 : between(0, one_of(0.8) ? 15 : 50));
    if (one_of(0.1)) written_["pattern.length_along"] = word({"seam", "centre", "shared"});
    if (one_of(0.08)) draft();
    if (!written_.contains("pattern.panels") || !one_of(0.2)) return;
    put("pattern.seam_tape", one_of(0.8) ? between(5, 25) : between(3, 60));
    if (one_of(0.5)) put("pattern.seam_tape_thickness", scaled(0.05, one_of(0.8) ? 1 : 5));
  }
  void draft() {
    const bool discs = one_of(0.3);
    written_["draft.pieces"] = discs ? "\"discs\"" : "\"panels\"";
    if (!discs) written_["pattern.panels"] = std::to_string(whole(4, 24));
  }
  void band() {
    if (!one_of(0.15)) return;
    put("band.depth", one_of(0.8) ? between(20, 60) : between(5, 120));
    if (one_of(0.5)) written_["band.strips"] = std::to_string(whole(1, 4));
    if (one_of(0.5)) written_["band.stretch"] = number_text(between(0, one_of(0.9) ? 0.3 : 1), 4);
    if (!one_of(0.3)) return;
    put("band.elastic", between(40, 200));
    put("band.elastic_stretched", ordered("band.elastic") * between(1.05, 2));
  }
  /// A pad's pattern is its cover.
  void cover() {
    if (!one_of(0.2) && !written_.contains("draft.pieces")) return;
    put("cover.tuck", one_of(0.8) ? between(20, 80) : between(5, 150));
    if (one_of(0.5)) put("cover.casing", one_of(0.8) ? between(8, 25) : between(5, 60));
  }

  // ---- making and pressing ---------------------------------------------------------------------
  /// Beds are rarely written: a form in parts takes much longer to make.
  void printing(bool is_pad) {
    if (one_of(0.06)) written_["print.bed"] = bed();
    if (one_of(0.05)) written_["print.split"] = word({"auto", "none"});
    if (one_of(0.05)) put("print.nozzle", between(0.1, 2));
    if (one_of(0.05)) put("print.dowel", one_of(0.7) ? between(3, 8) : between(2, 20));
    if (one_of(0.05)) put("print.dowel_clearance", one_of(0.2) ? 0.02 : between(0.02, 1));
    if (one_of(0.05)) put("print.glue_gap", one_of(0.3) ? 0 : between(0, 1));
    if (one_of(0.05)) written_["print.infill"] = number_text(one_of(0.2) ? 1 : between(0, 1), 3);
    if (one_of(0.05)) written_["print.licence"] = "\"CC BY 4.0\"";
    if (!is_pad && one_of(0.06)) puzzle();
    if (!is_pad && one_of(0.06)) posts();
    if (one_of(0.1)) stack();
    if (one_of(0.06)) marks();
    if (one_of(0.1)) press();
  }
  std::string bed() {
    const int side = one_of(0.1) ? 60 : one_of(0.1) ? 2000 : whole(12, 40) * 10;
    const int height = one_of(0.1) ? 60 : whole(10, 40) * 10;
    const std::string text = std::to_string(side) + "x" + std::to_string(whole(6, side / 10) * 10) + "x";
    return "\"" + text + std::to_string(height) + " mm\"";
  }
  void puzzle() {
    const std::vector<std::string> counts = {"\"auto\"", "2", "5", "7", "9"};
    written_["puzzle.pieces"] = counts[static_cast<std::size_t>(whole(0, 4))];
    if (one_of(0.5)) written_["puzzle.cap"] = word({"soft", "stiff"});
    if (one_of(0.5)) put("puzzle.clearance", one_of(0.2) ? 0.05 : between(0.1, one_of(0.9) ? 1 : 3));
  }
  void posts() {
    written_["form.posts"] = std::to_string(one_of(0.1) ? 0 : whole(3, 12));
    if (one_of(0.5)) put("form.post_diameter", between(4, one_of(0.8) ? 20 : 60));
  }
  void stack() {
    put("stack.sheet", one_of(0.1) ? 0.5 : one_of(0.1) ? 100 : scaled(1, 50));
    if (one_of(0.5)) written_["stack.outline"] = word({"inside", "outside", "mean"});
    if (one_of(0.5)) put("stack.hole", one_of(0.3) ? 0 : between(0, one_of(0.8) ? 8 : 30));
  }
  void marks() {
    written_["marks.text"] = word({"auto", "auto", "M 57", "Atelier No. 5"});
    if (one_of(0.5)) put("marks.depth", between(0.2, one_of(0.8) ? 1 : 3));
  }
  /// Mostly with words for what the heat may do, so that the form is made.
  void press() {
    written_["press.heat"] = word({"steam", "dry", "cold"});
    if (one_of(0.5)) written_["press.iron"] = word({"110", "150", "200"});
    if (one_of(0.5)) put("press.press_cloth", between(0, one_of(0.8) ? 3 : 15));
    if (one_of(0.3)) written_["press.steam_flow"] = "\"" + number_text(scaled(0.1, 2000), 2) + " g/min\"";
    if (one_of(0.3)) written_["press.load"] = "\"" + number_text(scaled(0.1, 20000), 2) + " N\"";
    if (one_of(0.8)) written_["press.accept_risk"] = "\"a trial of the program\"";
  }

  // ---- the whole range -------------------------------------------------------------------------
  bool has_range(const order::Key& key) const {
    return key.range && (key.type == order::KeyType::length || key.type == order::KeyType::length_or_solid);
  }
  bool fits(const order::Key& key, bool is_pad) const {
    return has_range(key) && key.is_taken_by(is_pad ? order::FormKind::pad : order::FormKind::block) &&
           !(is_pad && (key.name == "wall" || key.name == "head_girth"));
  }

  /// Keys of tables whose lengths mean nothing alone.
  bool stands_alone(const order::Key& key) const {
    return key.table != "panel_lengths" && key.table != "dish" && key.table != "pattern" &&
           key.table != "band" && key.table != "sizes" && key.table != "mill" && key.name != "post_diameter";
  }

  void push_to_ends() {
    std::vector<const order::Key*> keys;
    for (const order::Key& key : order::all_keys()) {
      if (written_.contains(key.path()) && fits(key, written_.contains("form.kind"))) keys.push_back(&key);
    }
    for (int k = whole(1, 3); k > 0; --k) {
      const order::Key& key = *keys[static_cast<std::size_t>(whole(0, static_cast<int>(keys.size()) - 1))];
      written_[key.path()] = mm(one_of(0.5) ? key.range->low : key.range->high);
    }
  }

  WrittenOrder anything() {
    const bool is_pad = one_of(0.3);
    if (is_pad) written_["form.kind"] = "\"pad\"";
    for (const order::Key& key : order::all_keys()) {
      const bool always = key.table == "measure";
      if (fits(key, is_pad) && stands_alone(key) && (always || one_of(0.4)))
        written_[key.path()] = mm(between(key.range->low, key.range->high));
    }
    return written_;
  }

  std::mt19937_64 random_;
  WrittenOrder written_;
};

}  // namespace crownwright::test
