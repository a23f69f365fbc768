#include "cli/profiles_command.h"

#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/length.h"
#include "cli/shared_options.h"
#include "meridian/beret.h"
#include "report/page.h"
#include "workshop/cloth.h"
#include "workshop/material.h"
#include "workshop/printer.h"
#include "workshop/shape_profile.h"

namespace crownwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using workshop::ClothProfile;
using workshop::MaterialProfile;
using workshop::ProfileFolder;
using workshop::ShapeProfile;

struct ProfilesOptions {
  std::string kind = "all";
  OutputOptions output;
  std::string profiles;
  bool wants(const char* one) const { return kind == "all" || kind == one; }
};

// The crown that shows a shape: an adult's, chosen to be near the order in the README.
constexpr double kCrownRadius = 140, kHeadRadius = 90.7;           // mm
constexpr double kLeastRise = 75, kMostRise = 200, kRiseStep = 5;  // mm
constexpr int kPictureColumns = 46;
constexpr double kPictureWidth = 300;  // mm

// Its rise is 7.5 cm, or as much more as the shape's edges need; nothing when none will do.
std::optional<meridian::Chain> sample_crown(const ShapeProfile& shape) {
  for (double rise = kLeastRise; rise <= kMostRise; rise += kRiseStep) {
    const auto chain =
        meridian::crown_chain({kCrownRadius, kHeadRadius, rise, shape.dome(kCrownRadius),
                               shape.edge_radius(kCrownRadius), shape.under_edge_radius(kCrownRadius)});
    if (chain) return *chain;
  }
  return std::nullopt;
}

std::string percent(double fraction) { return number_text(100 * fraction, 1) + " %"; }

template <class T, class Write>
Json sourced(const workshop::Sourced<T>& value, Write write) {
  return {{"value", write(value.value)}, {"source", value.source}};
}
double as_is(double value) { return value; }

// ---- crown shapes --------------------------------------------------------------------------------

Json shape_json(const ShapeProfile& shape) {
  return {{"name", shape.name},
          {"summary", shape.summary},
          {"dome_of_radius", sourced(shape.dome_of_radius, as_is)},
          {"edge_of_radius", sourced(shape.edge_of_radius, as_is)},
          {"under_edge_of_radius", sourced(shape.under_edge_of_radius, as_is)}};
}

void add_shape(report::Page& page, const ShapeProfile& shape) {
  page.heading(shape.name);
  page.line("", shape.summary);
  page.line("", "on a crown of 28 cm: dome " + number_text(shape.dome(kCrownRadius), 1) +
                    " mm, edge radius " + number_text(shape.edge_radius(kCrownRadius), 1) + " mm, below " +
                    number_text(shape.under_edge_radius(kCrownRadius), 1) + " mm");
  if (const auto crown = sample_crown(shape)) {
    for (const auto& line : report::meridian_picture(*crown, kPictureColumns, kPictureWidth, glyphs())) {
      page.whole("", line);
    }
  }
  page.gap();
}

// ---- cloths and materials --------------------------------------------------------------------------

Json cloth_json(const ClothProfile& cloth) {
  return {{"name", cloth.name},
          {"summary", cloth.summary},
          {"thickness_mm", sourced(cloth.thickness, [](const Length& length) { return length.mm(); })},
          {"heat_shrink", sourced(cloth.heat_shrink, as_is)},
          {"stretch", sourced(cloth.stretch, as_is)},
          {"ease", sourced(cloth.ease, as_is)}};
}

void add_cloth(report::Page& page, const ClothProfile& cloth) {
  page.heading(cloth.name);
  page.line("", cloth.summary);
  page.line("", number_text(cloth.thickness.value.mm(), 1) + " mm thick; steam shrinks it by " +
                    percent(cloth.heat_shrink.value) + "; it stretches by " + percent(cloth.stretch.value) +
                    " and eases in by " + percent(cloth.ease.value));
}

Json material_json(const MaterialProfile& material) {
  return {{"name", material.name},
          {"summary", material.summary},
          {"density_g_cm3", sourced(material.density, as_is)}};
}

void add_material(report::Page& page, const MaterialProfile& material) {
  page.heading(material.name);
  page.line("", material.summary);
  page.line("", number_text(material.density.value, 3) + " g/cm3");
}

// ---- printers --------------------------------------------------------------------------------

Json printer_json(const workshop::PrinterProfile& printer) {
  const auto in_mm = [](const Length& length) { return length.mm(); };
  return {{"name", printer.name},
          {"summary", printer.summary},
          {"width_mm", sourced(printer.width, in_mm)},
          {"depth_mm", sourced(printer.depth, in_mm)},
          {"height_mm", sourced(printer.height, in_mm)},
          {"nozzle_mm", sourced(printer.nozzle, in_mm)}};
}

void add_printer(report::Page& page, const workshop::PrinterProfile& printer) {
  page.heading(printer.name);
  page.line("", printer.summary);
}

// A folder of one's own may have been made before there were printers.
bool has_printers(const ProfileFolder& folder) { return std::filesystem::exists(folder.path + "/printers"); }

// ---- the whole list ----------------------------------------------------------------------------------

struct Listing {
  Json json = Json::object();
  report::Page page;
};

template <class Profile, class ToJson, class ToText>
Result<Done> list(Listing& listing, const char* kind, const char* title,
                  const Result<std::vector<Profile>>& profiles, ToJson to_json, ToText to_text) {
  if (!profiles) return profiles.fault();
  Json& array = listing.json[kind] = Json::array();
  listing.page.heading(title).gap();
  for (const Profile& profile : *profiles) {
    array.push_back(to_json(profile));
    to_text(listing.page, profile);
  }
  listing.page.gap();
  return Done{};
}

Result<Listing> listing_of(const ProfilesOptions& options, const ProfileFolder& folder) {
  Listing listing{Json::object(), report::Page(options.output.paint())};
  Result<Done> done = Done{};
  if (options.wants("shapes")) {
    done = list(listing, "shapes", "CROWN SHAPES", workshop::list_shapes(folder), shape_json, add_shape);
  }
  if (done && options.wants("cloth")) {
    done = list(listing, "cloth", "CLOTHS", workshop::list_cloths(folder), cloth_json, add_cloth);
  }
  if (done && options.wants("materials")) {
    done = list(listing, "materials", "MATERIALS", workshop::list_materials(folder), material_json,
                add_material);
  }
  if (done && (options.kind == "printers" || (options.kind == "all" && has_printers(folder)))) {
    done = list(listing, "printers", "PRINTERS", workshop::list_printers(folder), printer_json, add_printer);
  }
  if (!done) return done.fault();
  listing.page.whole("Folder", folder.path);
  listing.page.line("Sources", "each value's source stands in its file, and in crownwright profiles --json");
  return listing;
}

int run_profiles(const ProfilesOptions& options) {
  const auto folder = workshop::find_profile_folder(options.profiles);
  if (!folder) return fail(folder.fault());
  const auto listing = listing_of(options, *folder);
  if (!listing) return fail(listing.fault());
  if (options.output.quiet) return 0;
  if (!options.output.json) return print_and_end(listing->page.text());
  return print_and_end(listing->json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

constexpr char kProfilesFooter[] =
    "Examples:\n"
    "  crownwright profiles\n"
    "  crownwright profiles cloth\n"
    "  crownwright profiles shapes --profiles my-profiles";

}  // namespace

void add_profiles_command(CommandLine& line) {
  auto options = std::make_shared<ProfilesOptions>();
  Command command = line.add("profiles", "List crown shapes, cloths, materials and printers");
  command.chosen_word("KIND", options->kind, {"shapes", "cloth", "materials", "printers"},
                      "shapes, cloth, materials or printers; none: all");
  add_output_options(command, options->output);
  add_profiles_option(command, options->profiles);
  command.footer(kProfilesFooter).runs([options] { return run_profiles(*options); });
}

}  // namespace crownwright::cli
