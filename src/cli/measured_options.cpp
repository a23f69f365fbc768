#include "cli/measured_options.h"

#include <algorithm>

#include "base/exact_number.h"
#include "base/nearest_name.h"
#include "order/keys.h"

namespace crownwright::cli {
namespace {

using order::FormKind;
using order::TakenBy;

struct KeyOption {
  const char* name;
  const char* key;
  const char* argument;
  const char* help;
  TakenBy taken_by = TakenBy::both;
};

constexpr KeyOption kOptions[] = {
    {"--name", "name", "TEXT", "What the form is called"},
    {"--head-girth", "measure.head_girth", "LENGTH", "Tape round the head where the band sits: \"57 cm\"",
     TakenBy::block},
    {"--hat-size", "measure.hat_size", "SIZE", "Instead of the girth: \"US 7 1/8\", \"UK 7\", \"EU 57\"",
     TakenBy::block},
    {"--crown-diameter", "measure.crown_diameter", "LENGTH", "Straight across the crown at its widest"},
    {"--rise", "measure.rise", "LENGTH", "Block: head line to tip. Pad: its thickness"},
    {"--taken-at", "measure.taken_at", "WHERE",
     "outside (default), \"cloth middle\" or form: where the tape lay"},
    {"--panel-top", "panel_lengths.top", "LENGTH", "Along the panel from tip to crown edge", TakenBy::block},
    {"--panel-under", "panel_lengths.under", "LENGTH", "Along the panel from crown edge to head line",
     TakenBy::block},
    {"--panels", "pattern.panels", "COUNT", "Panels of the crown; vents keep off their seams"},
    {"--shape", "shape.profile", "NAME", "Crown shape; see crownwright profiles"},
    {"--dome", "shape.dome", "LENGTH", "Height of the tip's dome; \"0 mm\" is flat"},
    {"--edge-radius", "shape.edge_radius", "LENGTH", "Roundness of the crown's edge"},
    {"--cloth", "cloth.name", "NAME", "Cloth; see crownwright profiles"},
    {"--cloth-thickness", "cloth.thickness", "LENGTH", "Thickness of all that lies over the form"},
    {"--wall", "form.wall", "LENGTH", "Thickness of the form's wall, or solid"},
    {"--collar", "form.collar", "LENGTH", "Straight part below the head line", TakenBy::block},
    {"--floor", "form.floor", "LENGTH", "Thickness of a floor that closes the foot", TakenBy::block},
    {"--socket", "form.socket", "LENGTH", "Width of a hole for a stand's peg", TakenBy::block},
    {"--dish-readings", "dish.readings", "PAIRS", "Dish, radius=height: \"0 mm=0 mm, 90 mm=2 mm\"",
     TakenBy::pad},
    {"--dish-file", "dish.file", "FILE", "A mesh of that dish", TakenBy::pad},
    {"--gap", "dish.gap", "LENGTH", "Room between dish and pad for the cloth", TakenBy::pad},
    {"--vent-diameter", "vents.diameter", "LENGTH", "Width of the steam vents"},
    {"--vent-spacing", "vents.spacing", "LENGTH", "From the middle of one vent to the next"},
    {"--tolerance", "mesh.chord_tolerance", "LENGTH", "How far triangles may lie from the true surface"},
    {"--material", "print.material", "NAME", "What the form is made of, for its mass"},
};

bool is_taken(const KeyOption& option, FormKind kind) {
  return option.taken_by == TakenBy::both || (option.taken_by == TakenBy::block) == (kind == FormKind::block);
}

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t");
  return from == std::string::npos ? "" : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

std::vector<std::string> key_paths() {
  std::vector<std::string> paths;
  for (const order::Key& key : order::all_keys()) paths.push_back(key.path());
  return paths;
}

Result<order::WrittenKey> setting(const std::string& text) {
  const auto equals = text.find('=');
  const std::string key = trimmed(text.substr(0, equals));
  if (equals == std::string::npos || key.empty()) {
    return order_fault("--set", crownwright::quoted(text) + " is no setting",
                       "key=value, as in --set \"form.collar=20 mm\"");
  }
  if (order::find_key(key) == nullptr) {
    const auto nearest = nearest_name(key, key_paths());
    return order_fault("--set", "an order has no key " + crownwright::quoted(key),
                       nearest ? "did you mean " + *nearest + "?" : "crownwright schema lists all keys");
  }
  return order::WrittenKey{key, trimmed(text.substr(equals + 1)), "--set " + key};
}

Result<Done> add(std::vector<order::WrittenKey>& keys, order::WrittenKey key) {
  const auto first =
      std::find_if(keys.begin(), keys.end(), [&](const auto& k) { return k.path == key.path; });
  if (first != keys.end()) return order_fault(key.where, "is given already by " + first->where);
  keys.push_back(std::move(key));
  return Done{};
}

}  // namespace

void add_measured_options(Command& command, FormKind kind, MeasuredOptions& options) {
  for (const KeyOption& option : kOptions) {
    if (!is_taken(option, kind)) continue;
    command.option(option.name, options.texts[option.name], option.argument, option.help);
  }
  command.flag("--before-steam", options.before_steam, "The figures still shrink by what steam takes")
      .flag("--vents", options.vents, "Steam vents of the usual size and spacing")
      .repeated_option("--set", options.settings, "KEY=VALUE",
                       "Any other key of an order, as in \"form.floor=5 mm\"");
}

Result<std::vector<order::WrittenKey>> written_keys(const Command& command, FormKind kind,
                                                    const MeasuredOptions& options) {
  const std::string word = kind == FormKind::pad ? "pad" : "block";
  std::vector<order::WrittenKey> keys = {{"form.kind", word, "crownwright " + word}};
  for (const KeyOption& option : kOptions) {
    if (!is_taken(option, kind) || !command.was_given(option.name)) continue;
    keys.push_back({option.key, options.texts.at(option.name), option.name});
  }
  if (options.before_steam) keys.push_back({"measure.before_steam", "true", "--before-steam"});
  for (const std::string& text : options.settings) {
    auto key = setting(text);
    if (!key) return key.fault();
    const auto added = add(keys, *std::move(key));
    if (!added) return added.fault();
  }
  return keys;
}

Fault in_words_of_options(Fault fault, const Command& command, FormKind kind) {
  for (const KeyOption& option : kOptions) {
    const bool is_meant =
        is_taken(option, kind) && fault.where.ends_with(std::string(": ").append(option.key));
    if (!is_meant || command.was_given(option.name)) continue;
    const order::Key* key = order::find_key(option.key);
    return order_fault(kind == FormKind::pad ? "pad" : "block", std::string(option.name) + " is missing",
                       "as in " + std::string(option.name) + " " + std::string(key->example));
  }
  return fault;
}

}  // namespace crownwright::cli
