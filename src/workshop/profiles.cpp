#include "workshop/profiles.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "base/nearest_name.h"

namespace crownwright::workshop {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_profile_name = 64;
constexpr char ending[] = ".toml";

bool is_folder(const fs::path& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

std::string running_program() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  return error ? std::string() : program.string();
}

// src/workshop/profiles.cpp -> profiles. The compiler is given this file's whole path.
fs::path source_folder() {
#ifdef CROWNWRIGHT_SOURCE_PROFILES
  return CROWNWRIGHT_SOURCE_PROFILES;
#else
  return fs::path(__FILE__).parent_path().parent_path().parent_path() / "profiles";
#endif
}

Result<ProfileFolder> only(const std::string& path, const std::string& asked_by) {
  if (is_folder(path)) return ProfileFolder{path};
  return file_fault(path, "there is no such profile folder",
                    "the folder that " + asked_by + " names must exist");
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text.empty() ? "none" : text;
}

std::optional<std::string> name_of(const fs::path& file) {
  const std::string name = file.stem().string();
  if (file.extension() != ending || !is_profile_name(name)) return std::nullopt;
  return name;
}

}  // namespace

Result<ProfileFolder> find_profile_folder(const std::string& asked) {
  if (!asked.empty()) return only(asked, "--profiles");
  const char* environment = std::getenv("CROWNWRIGHT_PROFILES");
  if (environment != nullptr && *environment != '\0') return only(environment, "CROWNWRIGHT_PROFILES");
  return first_profile_folder(usual_profile_places(running_program()));
}

// bin/crownwright and share/crownwright/profiles stand side by side wherever they were installed.
std::vector<std::string> usual_profile_places(const std::string& program) {
  std::vector<std::string> places;
  const fs::path beside =
      fs::path(program).parent_path().parent_path() / "share" / "crownwright" / "profiles";
  if (!program.empty()) places.push_back(beside.string());
  places.push_back(source_folder().string());
  return places;
}

Result<ProfileFolder> first_profile_folder(const std::vector<std::string>& places) {
  std::string tried;
  for (const std::string& place : places) {
    if (is_folder(place)) return ProfileFolder{place};
    tried += (tried.empty() ? "" : ", ") + place;
  }
  return file_fault({}, "no profile folder was found; tried " + tried,
                    "name one with --profiles DIR or CROWNWRIGHT_PROFILES");
}

bool is_profile_name(std::string_view name) {
  const auto good = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  };
  return !name.empty() && name.size() <= longest_profile_name && name.front() != '-' &&
         std::all_of(name.begin(), name.end(), good);
}

Result<std::vector<std::string>> profile_names(const ProfileFolder& folder, const std::string& kind) {
  const fs::path path = fs::path(folder.path) / kind;
  std::error_code error;
  std::vector<std::string> names;
  fs::directory_iterator files(path, error);
  for (; !error && files != fs::directory_iterator(); files.increment(error)) {
    if (const auto name = name_of(files->path())) names.push_back(*name);
  }
  if (error) return file_fault(path.string(), "this profile folder cannot be read: " + error.message());
  std::sort(names.begin(), names.end());
  return names;
}

Result<std::string> profile_path(const ProfileFolder& folder, const std::string& kind,
                                 const std::string& name, const std::string& in_words) {
  const auto names = profile_names(folder, kind);
  if (!names) return names.fault();
  if (std::binary_search(names->begin(), names->end(), name)) {
    return (fs::path(folder.path) / kind / (name + ending)).string();
  }
  const auto nearest = nearest_name(name, *names);
  return order_fault(
      {}, "there is no " + in_words + " \"" + name + "\"",
      (nearest ? "did you mean " + *nearest + "? There are: " : "there are: ") + listed(*names));
}

}  // namespace crownwright::workshop
