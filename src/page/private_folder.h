#pragma once
// A folder that nobody else may look into, for as long as one request takes.

#include <string>

#include "base/result.h"

namespace crownwright::page {

class PrivateFolder {
 public:
  /// Mode 0700, empty, below the system's folder for temporary files. Fault (exit 4): it cannot be made.
  static Result<PrivateFolder> make();

  /// Removed with all that is in it.
  ~PrivateFolder();
  PrivateFolder(PrivateFolder&& other) noexcept;
  PrivateFolder& operator=(PrivateFolder&&) = delete;

  const std::string& path() const { return path_; }
  /// Other texts name files here without the folder: it takes its path out of them.
  std::string without_path(std::string text) const;

 private:
  explicit PrivateFolder(std::string path);
  std::string path_;
};

/// For a program that ends while requests are still being worked on.
void remove_private_folders();

}  // namespace crownwright::page
