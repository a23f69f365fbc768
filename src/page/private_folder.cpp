#include "page/private_folder.h"

#include <stdlib.h>

#include <cerrno>
#include <filesystem>
#include <mutex>
#include <set>
#include <system_error>

namespace crownwright::page {
namespace {

namespace fs = std::filesystem;

std::mutex folders_mutex;
std::set<std::string>& folders() {
  static std::set<std::string> all;
  return all;
}

void remove_tree(const std::string& path) {
  std::error_code ignored;
  fs::remove_all(path, ignored);
}

}  // namespace

Result<PrivateFolder> PrivateFolder::make() {
  std::error_code error;
  const fs::path parent = fs::temp_directory_path(error);
  if (error) return file_fault("", "there is no folder for temporary files: " + error.message());
  std::string pattern = (parent / "crownwright-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr)
    return file_fault(parent.string(),
                      "no temporary folder can be made here: " + std::generic_category().message(errno));
  return PrivateFolder(pattern);
}

PrivateFolder::PrivateFolder(std::string path) : path_(std::move(path)) {
  const std::lock_guard lock(folders_mutex);
  folders().insert(path_);
}

PrivateFolder::PrivateFolder(PrivateFolder&& other) noexcept : path_(std::move(other.path_)) {
  other.path_.clear();
}

PrivateFolder::~PrivateFolder() {
  if (path_.empty()) return;
  remove_tree(path_);
  const std::lock_guard lock(folders_mutex);
  folders().erase(path_);
}

std::string PrivateFolder::without_path(std::string text) const {
  const std::string start = path_ + "/";
  for (std::size_t at = text.find(start); at != std::string::npos; at = text.find(start, at))
    text.erase(at, start.size());
  return text;
}

void remove_private_folders() {
  const std::lock_guard lock(folders_mutex);
  for (const std::string& path : folders()) remove_tree(path);
}

}  // namespace crownwright::page
