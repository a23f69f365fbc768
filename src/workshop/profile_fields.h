#pragma once
// Reads the fields of one profile file, each checked. The first fault stays; later questions are answered
// with empty values, so a reader asks for all it wants and looks at the fault once.
//
//   summary = "what it is for"
//   thickness = { value = "3 mm", source = "measured on ten layers" }

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.h"
#include "base/table.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

class ProfileFields {
 public:
  /// `file` must outlive this.
  explicit ProfileFields(const Table& file) : file_(file), fields_(&file.root) {}

  /// One line of text of 1 to 300 bytes.
  std::string text(const std::string& key);
  /// A number from low to high, both included, with its source.
  Sourced<double> number(const std::string& key, double low, double high);
  /// The same for a length; low and high in mm.
  Sourced<Length> length(const std::string& key, double low, double high);

  /// Whether the profile holds a table of that name; it may be left out. Its fields are asked of part(key),
  /// and then take_fault_of() it.
  bool has_part(const std::string& key);
  /// Precondition: has_part(key).
  ProfileFields part(const std::string& key) const;
  void take_fault_of(ProfileFields& part);

  /// The first fault, or one for a key that was never asked for.
  std::optional<Fault> fault();

 private:
  const TableEntry* entry(const TableValue& table, const std::string& key, const std::string& path);
  std::string text_in(const TableValue& table, const std::string& key, const std::string& path);
  const TableEntry* value_of(const std::string& key, std::string& source);
  void unknown_key_in(const TableValue& table, const std::vector<std::string>& known);
  void refuse(const Place& place, const std::string& path, std::string what, std::string allowed);

  const Table& file_;
  const TableValue* fields_;  ///< where the keys stand: the file's root, or a table in it
  std::string within_;        ///< "cutting." of the keys in [cutting]
  std::vector<std::string> asked_;
  std::optional<Fault> fault_;
};

/// Opens profiles/<kind>/<name>.toml, lets `read` take the fields, and answers with what it made unless a
/// fault came up.
template <class Profile, class Read>
Result<Profile> read_profile(const ProfileFolder& folder, const std::string& kind, const std::string& name,
                             const std::string& in_words, Read read) {
  const auto path = profile_path(folder, kind, name, in_words);
  if (!path) return path.fault();
  const auto file = read_table(*path);
  if (!file) return file.fault();
  ProfileFields fields(*file);
  Profile profile;
  profile.name = name;
  read(fields, profile);
  if (auto fault = fields.fault()) return *fault;
  return profile;
}

/// All profiles of a kind by name, each found with `find`.
template <class Profile, class Find>
Result<std::vector<Profile>> read_all_profiles(const ProfileFolder& folder, const std::string& kind,
                                               Find find) {
  const auto names = profile_names(folder, kind);
  if (!names) return names.fault();
  std::vector<Profile> all;
  for (const std::string& name : *names) {
    Result<Profile> one = find(folder, name);
    if (!one) return one.fault();
    all.push_back(*std::move(one));
  }
  return all;
}

}  // namespace crownwright::workshop
