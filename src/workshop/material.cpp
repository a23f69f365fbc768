#include "workshop/material.h"

#include <array>
#include <utility>

#include "base/nearest_name.h"
#include "workshop/profile_fields.h"

namespace crownwright::workshop {
namespace {

template <class Word>
using WordTable = std::vector<std::pair<Word, std::string>>;

const WordTable<MaterialKind>& kinds() {
  static const WordTable<MaterialKind> table = {
      {MaterialKind::amorphous, "amorphous"}, {MaterialKind::semi_crystalline, "semi-crystalline"},
      {MaterialKind::elastomer, "elastomer"}, {MaterialKind::foam, "foam"},
      {MaterialKind::board, "board"},         {MaterialKind::wood, "wood"},
  };
  return table;
}

const WordTable<Certainty>& certainties() {
  static const WordTable<Certainty> table = {
      {Certainty::published, "published"},
      {Certainty::memory, "memory"},
      {Certainty::common_practice, "common practice"},
  };
  return table;
}

template <class Word>
std::string word_text(const WordTable<Word>& table, Word word) {
  for (const auto& [one, text] : table) {
    if (one == word) return text;
  }
  return {};
}

// The fields that a profile may leave out.
class OptionalFields {
 public:
  OptionalFields(const Table& file, ProfileFields& fields) : file_(file), fields_(fields) {}

  bool has(const std::string& key) const { return find_entry(file_.root, key) != nullptr; }

  std::string text(const std::string& key) { return has(key) ? fields_.text(key) : std::string(); }

  template <class Word>
  std::optional<Word> word(const std::string& key, const WordTable<Word>& table) {
    if (!has(key)) return std::nullopt;
    const std::string written = fields_.text(key);
    std::vector<std::string> known;
    for (const auto& [word, text] : table) {
      if (text == written) return word;
      known.push_back(text);
    }
    refuse(key, "this is none of the words for it", known, written);
    return std::nullopt;
  }

  // A number and, under its own key, how sure it is.
  std::optional<Graded> graded(const std::string& key, double low, double high) {
    const std::string certainty_key = key + "_certainty";
    if (!has(key)) return std::nullopt;
    const Sourced<double> number = fields_.number(key, low, high);
    // Asked even when missing: without it the figure could not be judged.
    if (!has(certainty_key)) {
      fields_.text(certainty_key);
      return std::nullopt;
    }
    const auto certainty = word(certainty_key, certainties());
    return Graded{number.value, number.source, certainty.value_or(Certainty::common_practice)};
  }

  std::optional<Fault> fault() const { return fault_; }

 private:
  void refuse(const std::string& key, std::string what, const std::vector<std::string>& known,
              const std::string& written) {
    if (fault_) return;
    std::string all;
    for (const std::string& name : known) all += (all.empty() ? "" : ", ") + name;
    const auto nearest = nearest_name(written, known);
    fault_ =
        order_fault(file_.where(find_entry(file_.root, key)->value.place) + ": " + key, std::move(what),
                    (nearest ? "did you mean " + *nearest + "? The words are: " : "the words are: ") + all);
  }

  const Table& file_;
  ProfileFields& fields_;
  std::optional<Fault> fault_;
};

// From what a small router still cuts cleanly to what breaks its tool. Steps are told in tool diameters: a
// cutter cannot step over by more than one.
CuttingFigures cutting_in(ProfileFields& fields) {
  CuttingFigures cutting;
  cutting.chip_load = fields.number("chip_load", 0.005, 2);
  cutting.spindle = fields.number("spindle", 500, 60000);
  cutting.step_down = fields.number("step_down", 0.05, 5);
  cutting.step_over = fields.number("step_over", 0.02, 0.95);
  cutting.plunge = fields.number("plunge", 0.05, 1);
  cutting.leave = fields.number("leave", 0, 3);
  return cutting;
}

void read_cutting(ProfileFields& fields, MaterialProfile& material) {
  if (!fields.has_part("cutting")) return;
  ProfileFields part = fields.part("cutting");
  material.cutting = cutting_in(part);
  fields.take_fault_of(part);
}

// Density from the lightest foam to metal. Temperatures from the softest rubber's glass transition to what no
// iron reaches; stiffness from soft foam to steel.
void read_material(ProfileFields& fields, OptionalFields& more, MaterialProfile& material) {
  material.summary = fields.text("summary");
  material.density = fields.number("density", 0.005, 20);
  material.kind = more.word("kind", kinds());
  material.tg = more.graded("tg", -150, 400);
  material.hdt = more.graded("hdt", 20, 400);
  material.vicat = more.graded("vicat", 20, 400);
  material.heat_limit = more.graded("heat_limit", 20, 400);
  material.modulus = more.graded("modulus", 0.05, 250000);
  material.poisson = more.graded("poisson", 0, 0.499);
  material.fume = more.text("fume");
  material.crush = more.text("crush");
  material.burn = more.text("burn");
  read_cutting(fields, material);
}

}  // namespace

std::string to_text(MaterialKind kind) { return word_text(kinds(), kind); }
std::string to_text(Certainty certainty) { return word_text(certainties(), certainty); }

std::string label_of(const MaterialProfile& material) {
  constexpr std::size_t longest = 40;  // beyond it a summary begins with a sentence
  const std::size_t end = material.summary.find_first_of(",;.(");
  std::string label = material.summary.substr(0, end);
  while (!label.empty() && label.back() == ' ') label.pop_back();
  return label.empty() || label.size() > longest ? material.name : label;
}

Result<MaterialProfile> find_material(const ProfileFolder& folder, const std::string& name) {
  const auto path = profile_path(folder, "materials", name, "material");
  if (!path) return path.fault();
  const auto file = read_table(*path);
  if (!file) return file.fault();
  ProfileFields fields(*file);
  OptionalFields more(*file, fields);
  MaterialProfile material;
  material.name = name;
  read_material(fields, more, material);
  if (auto fault = fields.fault()) return *fault;
  if (auto fault = more.fault()) return *fault;
  return material;
}

Result<std::vector<MaterialProfile>> list_materials(const ProfileFolder& folder) {
  return read_all_profiles<MaterialProfile>(folder, "materials", find_material);
}

}  // namespace crownwright::workshop
