#pragma once
// The files of the page itself, which are part of the program (src/page/web, put together when it is built).

#include <span>
#include <string_view>

namespace crownwright::page {

struct Asset {
  std::string_view path;  ///< "/app.js"
  std::string_view type;  ///< "text/javascript; charset=utf-8"
  std::string_view gzip;  ///< its bytes, as gzip packs them
};

/// In no order; nothing stands twice.
std::span<const Asset> assets();

}  // namespace crownwright::page
