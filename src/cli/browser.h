#pragma once

#include <string>

namespace crownwright::cli {

/// Opens the address in the person's browser (xdg-open), when there is a display to open it on. Nothing is
/// said when that fails: the address has been printed. The text goes to no shell.
void open_browser(const std::string& address);

}  // namespace crownwright::cli
