#pragma once
// What the tests of this folder share: files of the tests and random orders written as a person would.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "order/keys.h"

namespace crownwright::test {

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// The smallest order for a block.
inline const std::string plain_block =
    "[measure]\nhead_girth = \"57 cm\"\ncrown_diameter = \"28 cm\"\nrise = \"75 mm\"\n";

/// Writes random orders: any set of keys, any unit, decimals and fractions, mostly within range.
class OrderWriter {
 public:
  explicit OrderWriter(std::uint64_t seed) : random_(seed) {}

  std::string next() {
    const bool pad = chance(0.3);
    draw_ways();
    std::map<std::string, std::string> tables;
    for (const order::Key& key : order::all_keys()) {
      if (key.path() == "form.kind") {
        tables["form"] += std::string("kind = ") + (pad ? "\"pad\"" : "\"block\"") + "\n";
      } else if (wanted(key, pad)) {
        tables[std::string(key.table)] += std::string(key.name) + " = " + value(key) + "\n";
      }
    }
    std::string text = tables[""];
    for (const auto& [name, lines] : tables) {
      if (!name.empty()) text += "[" + name + "]\n" + lines;
    }
    return text;
  }

 private:
  bool chance(double p) { return std::uniform_real_distribution<double>(0, 1)(random_) < p; }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

  /// Which of the ways that exclude each other this order goes.
  void draw_ways() {
    const std::vector<std::string> kinds = {"stations", "outline", "discs"};
    drawn_ = chance(0.3) ? kinds[static_cast<std::size_t>(whole(0, 2))] : "";
    sizes_ = drawn_.empty() && chance(0.3) ? whole(1, 3) : 0;
    allowance_ = chance(0.5);
    tape_ = chance(0.5);
    elastic_ = chance(0.3);
    posts_ = chance(0.3);
    bed_ = chance(0.5);
    mill_ = chance(0.4);
    drill_ = chance(0.3);
    tools_ = whole(0, 2);
  }

  bool wanted(const order::Key& key, bool pad) {
    const std::string path = key.path();
    if (path == "measure.hat_size" || path == "dish.file" || key.table == "panel_lengths") return false;
    if (!key.is_taken_by(pad ? order::FormKind::pad : order::FormKind::block)) return false;
    if (key.table == "measure" && drawn_.empty())
      return path != "measure.head_girth" || !pad || sizes_ > 0 ? measured(path) : false;
    if (!drawn_.empty() && (path == "measure.taken_at" || key.name.ends_with("edge_radius"))) return false;
    if (path == "measure.rise" && pad) return true;
    if (key.table == "pattern") return of_pattern(std::string(key.name));
    if (key.table == "sizes") return of_sizes(std::string(key.name));
    if (key.name.starts_with("elastic")) return elastic_;
    if (key.name.starts_with("post")) return posts_;
    if (path == "print.printer" && bed_) return false;
    if (path == "print.bed") return bed_;
    if (key.table == "mill") return mill_ && of_mill(std::string(key.name));
    return chance(0.35);
  }
  bool measured(const std::string& path) {
    return path == "measure.head_girth" || path == "measure.crown_diameter" || path == "measure.rise" ||
           chance(0.35);
  }
  bool of_pattern(const std::string& name) {
    const bool panel = drawn_ == "stations" || drawn_ == "outline";
    if (name == "kind") return !drawn_.empty();
    if (name == "panels") return panel || tape_;
    if (name == "seam_allowance") return allowance_;
    if (name == "includes_allowance") return !drawn_.empty() && allowance_;
    if (name == "stations") return drawn_ == "stations";
    if (name == "file") return drawn_ == "outline";
    if (name == "layer" || name == "fold" || name == "drawing_unit")
      return drawn_ == "outline" && chance(0.5);
    if (name.ends_with("diameter") || name == "ring_opening") return drawn_ == "discs";
    if (name == "seam_tape") return tape_;
    if (name == "seam_tape_thickness") return tape_ && chance(0.5);
    return chance(0.35);
  }
  /// Most lengths of tools clash with each other when they are drawn from their whole ranges.
  bool of_mill(const std::string& name) {
    if (name == "drill_flute") return drill_ && chance(0.3);
    if (name == "drill") return drill_;
    if (name == "flute" || name == "stick_out" || name == "holder") return tools_ == 1 && chance(0.5);
    if (name == "tool" || name == "rough_tool") return tools_ == 2;
    if (name.starts_with("step")) return chance(0.15);
    return chance(0.35);
  }
  bool of_sizes(const std::string& name) {
    if (name == "list") return sizes_ == 1;
    if (name == "hat_sizes") return sizes_ == 2;
    if (name == "smaller" || name == "larger") return sizes_ == 3;
    if (name == "head_step") return sizes_ > 1;
    return sizes_ > 1 && chance(0.5);
  }

  std::string length(double low, double high) {
    const double mm = std::uniform_real_distribution<double>(low, high)(random_);
    switch (whole(0, 4)) {
      case 0:
        return number_text(mm, whole(0, 9)) + " mm";
      case 1:
        return number_text(mm / 10, whole(0, 9)) + "cm";
      case 2:
        return number_text(mm / 1000, 9) + " m";
      case 3:
        return fraction(mm / 25.4) + " in";
      default:
        return fraction(mm) + " mm";
    }
  }
  std::string fraction(double value) {
    const int denominator = whole(2, 1000);
    const int parts = static_cast<int>(value * denominator);
    const std::string part = std::to_string(parts % denominator) + "/" + std::to_string(denominator);
    return parts < denominator ? part : std::to_string(parts / denominator) + " " + part;
  }

  std::string quoted(const std::string& text) { return "\"" + text + "\""; }

  std::string value(const order::Key& key) {
    using order::KeyType;
    switch (key.type) {
      case KeyType::text:
        return quoted("Beret é \\\" \\\\ 7/8");
      case KeyType::file:
        return quoted("drawing.svg");
      case KeyType::profile:
        return quoted("some-profile_" + std::to_string(whole(0, 99)));
      case KeyType::length:
        return quoted(length(key.range->low, key.range->high));
      case KeyType::length_or_solid:
        return quoted(chance(0.2) ? "solid" : length(key.range->low, key.range->high));
      case KeyType::fraction:
        return number_text(key.range->high * whole(0, 1000) / 1000, 9);
      case KeyType::count:
        if (key.name == "posts") return std::to_string(chance(0.2) ? 0 : whole(3, 12));
        return key.name == "panels" ? std::to_string(whole(3, 48))
                                    : std::to_string(whole(static_cast<int>(key.range->low), 4));
      case KeyType::choice:
        if (key.path() == "pattern.kind") return quoted(drawn_);
        return quoted(std::string(
            key.choices[static_cast<std::size_t>(whole(0, static_cast<int>(key.choices.size()) - 1))]));
      case KeyType::choices:
        return chance(0.5) ? "[\"ply\"]" : "[\"obj\", \"stl\"]";
      case KeyType::boolean:
        return chance(0.5) ? "true" : "false";
      case KeyType::readings:
        return "[[\"0 mm\", " + quoted(length(0, 1)) + "], [\"" + std::to_string(whole(1, 400)) + " mm\", " +
               quoted(length(0, 200)) + "]]";
      case KeyType::stations:
        return stations();
      case KeyType::size_rows:
        return size_rows();
      case KeyType::hat_sizes:
        return chance(0.5) ? "[\"EU 55\", \"US 7 1/8\"]" : "[\"UK 7\", \"57.5 cm\", \"FR 5 1/2\"]";
      case KeyType::bed:
        return quoted(bed());
      case KeyType::travel:
        return quoted(bed());
      case KeyType::sheet_size: {
        const std::string sides =
            number_text(whole(30, 900) / 3.0, whole(0, 9)) + (chance(0.5) ? "x" : " × ");
        return quoted(chance(0.5) ? sides + fraction(whole(30, 300)) + "mm" : "12 2/3x9.01 in");
      }
      case KeyType::cutter:
        return quoted(length(2, 10) + " " + std::string(key.choices.back()));
      case KeyType::drill:
        return quoted(length(key.range->low, 6) + (chance(0.5) ? " drill" : ""));
      case KeyType::flow:
      case KeyType::force:
      case KeyType::feed:
      case KeyType::turns:
      case KeyType::accel:
        return quoted(quantity(key));
      case KeyType::count_or_word: {
        const std::string word(
            key.choices[static_cast<std::size_t>(whole(0, static_cast<int>(key.choices.size()) - 1))]);
        return word.front() >= '0' && word.front() <= '9' ? word : quoted(word);
      }
    }
    return {};
  }
  std::string bed() {
    const std::string between = chance(0.3) ? " x " : chance(0.3) ? "×" : "x";
    const double in = whole(3, 20);
    switch (whole(0, 2)) {
      case 0:
        return number_text(20 * in, whole(0, 9)) + between + number_text(21.7 * in, 3) + between + "250 mm";
      case 1:
        return "8 3/7" + between + fraction(in) + between + number_text(in, 1) + " in";
      default:
        return number_text(in / 7 + 10, 5) + between + "22" + between + fraction(in * 3) + "cm";
    }
  }
  std::string quantity(const order::Key& key) {
    const double share = std::uniform_real_distribution<double>(0, 1)(random_);
    const double value = key.range->low + (key.range->high - key.range->low) * share * share;
    const std::string number = chance(0.3) ? fraction(value) : number_text(value, whole(1, 6));
    if (key.type == order::KeyType::turns && chance(0.5)) return number + " 1/min";
    if (key.type == order::KeyType::accel && chance(0.5)) return number + "mm/s²";
    return number + (chance(0.5) ? " " : "") + std::string(order::unit_of(key.type));
  }
  std::string stations() {
    std::string text = "[[\"0 mm\", \"0 mm\"]";
    double down = 0;
    for (int n = whole(3, 12); n > 0; --n) {
      const double next = down + 40;
      text += ", [" + quoted(length(down + 1, next)) + ", " + quoted(length(0, 300)) + "]";
      down = next;
    }
    return text + "]";
  }
  std::string size_rows() {
    std::string text = "[";
    for (int n = 1, last = whole(1, 6); n <= last; ++n) {
      text += (n == 1 ? "[\"size " : ", [\"size ") + std::to_string(n) + "\", ";
      text += quoted(length(400, 700)) + ", " + quoted(length(200, 400));
      text += chance(0.5) ? "]" : ", " + quoted(length(30, 120)) + "]";
    }
    return text + "]";
  }

  std::mt19937_64 random_;
  std::string drawn_;  ///< kind of the drawn pattern, or empty
  int sizes_ = 0;      ///< 1 a list, 2 hat sizes, 3 steps
  bool allowance_ = false, tape_ = false, elastic_ = false, posts_ = false, bed_ = false, mill_ = false,
       drill_ = false;
  int tools_ = 0;  ///< 1 their lengths, 2 their diameters
};

}  // namespace crownwright::test
