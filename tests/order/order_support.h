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

  bool wanted(const order::Key& key, bool pad) {
    const std::string path = key.path();
    if (path == "measure.hat_size" || path == "dish.file" || key.table == "panel_lengths") return false;
    if (path == "measure.head_girth") return !pad;
    if (path == "measure.crown_diameter" || path == "measure.rise") return true;
    if (!key.is_taken_by(pad ? order::FormKind::pad : order::FormKind::block)) return false;
    return chance(0.35);
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
        return quoted(key.name == "file" ? "dish.stl" : "Beret é \\\" \\\\ 7/8");
      case KeyType::profile:
        return quoted("some-profile_" + std::to_string(whole(0, 99)));
      case KeyType::length:
        return quoted(length(key.range->low, key.range->high));
      case KeyType::length_or_solid:
        return quoted(chance(0.2) ? "solid" : length(key.range->low, key.range->high));
      case KeyType::fraction:
        return number_text(key.range->high * whole(0, 1000) / 1000, 9);
      case KeyType::count:
        return std::to_string(whole(3, 48));
      case KeyType::choice:
        return quoted(std::string(
            key.choices[static_cast<std::size_t>(whole(0, static_cast<int>(key.choices.size()) - 1))]));
      case KeyType::choices:
        return chance(0.5) ? "[\"ply\"]" : "[\"obj\", \"stl\"]";
      case KeyType::boolean:
        return chance(0.5) ? "true" : "false";
      case KeyType::readings:
        return "[[\"0 mm\", " + quoted(length(0, 1)) + "], [\"" + std::to_string(whole(1, 400)) + " mm\", " +
               quoted(length(0, 200)) + "]]";
    }
    return {};
  }

  std::mt19937_64 random_;
};

}  // namespace crownwright::test
