#pragma once
// What a form is made of: its mass, the heat it bears, its stiffness, and what to take care of.
//
// Every figure has its source; a figure that a verdict may rest on also says how sure it is. All but summary
// and density may be missing: what is not known is not guessed.
//
//   kind = "semi-crystalline"
//   hdt = { value = 140, source = "name of the data sheet; filament grades, low end" }
//   hdt_certainty = "published"
//
// What is milled says how under [cutting] (workshop/cutting.h): all its figures, or none.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "workshop/cutting.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

enum class MaterialKind {
  amorphous,         ///< a plastic that softens at its glass transition
  semi_crystalline,  ///< a plastic held by its crystals beyond its glass transition
  elastomer,         ///< rubbery at room temperature
  foam,
  board,  ///< model board, fibre board
  wood,   ///< wood and cork
};
/// "semi-crystalline": the word in the profile.
std::string to_text(MaterialKind kind);

/// How sure a figure is. Only published figures may pass or refuse a form.
enum class Certainty {
  published,        ///< read in the source that is named
  memory,           ///< from memory of such sources, not re-read
  common_practice,  ///< no source
};
/// "common practice": the word in the profile.
std::string to_text(Certainty certainty);

struct Graded {
  double value = 0;
  std::string source;
  Certainty certainty = Certainty::common_practice;
};

struct MaterialProfile {
  std::string name;
  std::string summary;
  Sourced<double> density;  ///< g/cm3, of the massive material without printed infill
  std::optional<MaterialKind> kind;

  // Degrees Celsius, each the low end of what is known.
  std::optional<Graded> tg;          ///< glass transition
  std::optional<Graded> hdt;         ///< deflection temperature under load, ISO 75 at 0.45 MPa
  std::optional<Graded> vicat;       ///< Vicat softening temperature, ISO 306
  std::optional<Graded> heat_limit;  ///< of foams, boards and wood: what their makers or handbooks allow

  std::optional<Graded> modulus;  ///< Young's modulus at 23 C, MPa
  std::optional<Graded> poisson;  ///< Poisson's ratio

  std::optional<CuttingFigures> cutting;  ///< of what is milled; all its figures or none

  // Cautions in words, empty when there is none.
  std::string fume;   ///< what heating or cutting gives off
  std::string crush;  ///< how it gives way under a press or a pin
  std::string burn;   ///< what a hot form can do to hands and house
};

/// What people call it, where its summary begins with that: "PETG" of "PETG; softens at 70 to 75 C."; else
/// its name.
std::string label_of(const MaterialProfile& material);

/// profiles/materials/<name>.toml. Faults as in find_shape.
Result<MaterialProfile> find_material(const ProfileFolder& folder, const std::string& name);
Result<std::vector<MaterialProfile>> list_materials(const ProfileFolder& folder);

}  // namespace crownwright::workshop
