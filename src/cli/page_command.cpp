#include "cli/page_command.h"

#include <charconv>
#include <memory>
#include <string>

#include "base/exact_number.h"
#include "cli/browser.h"
#include "cli/console.h"
#include "cli/shared_options.h"

#ifdef CROWNWRIGHT_HAS_PAGE
#include "page/serve.h"
#endif

namespace crownwright::cli {
namespace {

struct PageOptions {
  std::string port = "0";
  bool no_browser = false;
  std::string profiles;
};

#ifdef CROWNWRIGHT_HAS_PAGE
constexpr int kLeastPort = 1024, kMostPort = 65535;

Result<int> port_of(const std::string& text) {
  int port = -1;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), port);
  const bool whole = read.ec == std::errc() && read.ptr == text.data() + text.size();
  if (whole && (port == 0 || (port >= kLeastPort && port <= kMostPort))) return port;
  return order_fault("--port", crownwright::quoted(text) + " is no port to listen on",
                     "1024 to 65535, or 0 for any that is free");
}

Result<Done> announce(const std::string& address, bool with_browser) {
  if (const auto printed = print(address + "\n"); !printed) return printed.fault();
  if (with_browser) open_browser(address);
  return Done{};
}

int run_page(const PageOptions& options) {
  const auto port = port_of(options.port);
  if (!port) return fail(port.fault());
  const auto profiles = workshop::find_profile_folder(options.profiles);
  if (!profiles) return fail(profiles.fault());
  const auto served = page::serve(
      *profiles, {*port, [&](const std::string& address) { return announce(address, !options.no_browser); }});
  return served ? 0 : fail(served.fault());
}
#else
int run_page(const PageOptions&) {
  return fail(order_fault("page", "this build of the program has no page",
                          "the other commands do all that it does; or build it with -DCROWNWRIGHT_PAGE=ON"));
}
#endif

constexpr char kPageFooter[] =
    "It answers this machine alone, at the address it prints, until Ctrl-C.\n"
    "Examples:\n"
    "  crownwright page\n"
    "  crownwright page --port 8123 --no-browser";

}  // namespace

void add_page_command(CommandLine& line) {
  auto options = std::make_shared<PageOptions>();
  Command command = line.add("page", "Plan and make forms in a browser");
  command.option("--port", options->port, "NUMBER", "Where it listens; 0 (default): any port that is free")
      .flag("--no-browser", options->no_browser, "Only print the address");
  add_profiles_option(command, options->profiles);
  command.footer(kPageFooter).runs([options] { return run_page(*options); });
}

}  // namespace crownwright::cli
