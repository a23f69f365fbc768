#pragma once
// The profile folder: the workshop as data, one TOML file a thing, in shapes/, cloth/ and materials/.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright::workshop {

/// A folder of profiles that exists.
struct ProfileFolder {
  std::string path;
};

/// The first of: `asked` (--profiles), if not empty; the environment's CROWNWRIGHT_PROFILES, if not empty;
/// ../share/crownwright/profiles beside the running program's folder; the source tree the program was
/// built from. One that was asked for by name or environment must exist: no other is tried in its place.
/// Fault (exit 4) naming every place tried.
Result<ProfileFolder> find_profile_folder(const std::string& asked);

/// The steps of that search, each usable alone. Where a program of that path keeps its profiles when no one
/// says otherwise: beside its own folder, then the source tree. `program` may be empty (not known).
std::vector<std::string> usual_profile_places(const std::string& program);
/// The first of the places that is a folder.
Result<ProfileFolder> first_profile_folder(const std::vector<std::string>& places);

/// True for 1 to 64 of a-z, 0-9, '-' and '_', not starting with '-': no dots, no slashes, so a name in an
/// order can never lead out of the folder.
bool is_profile_name(std::string_view name);

/// Names of the profiles of one kind ("shapes", "cloth", "materials"), sorted. Fault (exit 4) without that
/// folder.
Result<std::vector<std::string>> profile_names(const ProfileFolder& folder, const std::string& kind);

/// Path of the profile of that name. Unknown: fault (exit 2) with the nearest name and all there are.
/// `in_words` is what to call it: "crown shape".
Result<std::string> profile_path(const ProfileFolder& folder, const std::string& kind,
                                 const std::string& name, const std::string& in_words);

/// A value and where it comes from, or "common practice, no source".
template <class T>
struct Sourced {
  T value{};
  std::string source;
};

}  // namespace crownwright::workshop
