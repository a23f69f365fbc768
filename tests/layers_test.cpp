// Who may include whom. A folder of src/ is one stage of the work, and the arrows point one way; a
// third-party library lives behind the door of its folder and shows in no header. Broken arrows are found
// here, not by readers.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

namespace {

using Folders = std::set<std::string>;

const std::map<std::string, Folders> kMayInclude = {
    {"base", {}},
    {"workshop", {"base"}},
    {"measurements", {"base"}},
    {"order", {"measurements", "workshop", "base"}},
    {"meridian", {"base"}},
    {"solid", {"meridian", "base"}},
    {"mesh", {"solid", "meridian", "base"}},
    {"proof", {"mesh", "solid", "meridian", "base"}},
    {"files", {"mesh", "proof", "meridian", "base"}},
    {"parts", {"mesh", "solid", "meridian", "base"}},
    {"printing", {"mesh", "workshop", "base"}},
    {"press", {"workshop", "meridian", "base"}},
    {"milling", {"solid", "meridian", "workshop", "base"}},
    // Must find out by itself what the programs do: never to include milling.
    {"simulation", {"meridian", "base"}},
    {"pattern", {"meridian", "base"}},
    {"fit", {"pattern", "meridian", "base"}},
    {"drawings", {"fit", "pattern", "mesh", "meridian", "base"}},
    {"making",
     {"simulation", "milling", "press", "printing", "parts", "drawings", "fit", "pattern", "files", "proof",
      "mesh", "solid", "meridian", "order", "workshop", "measurements", "base"}},
    {"report",
     {"making", "simulation", "milling", "press", "printing", "parts", "drawings", "fit", "pattern", "files",
      "proof", "mesh", "solid", "meridian", "order", "workshop", "measurements", "base"}},
    {"page",
     {"report", "making", "simulation", "milling", "press", "printing", "parts", "drawings", "fit", "pattern",
      "files", "proof", "mesh", "solid", "meridian", "order", "workshop", "measurements", "base"}},
    {"cli", {"page",  "report",   "making", "simulation", "milling",      "press", "printing",
             "parts", "drawings", "fit",    "pattern",    "files",        "proof", "mesh",
             "solid", "meridian", "order",  "workshop",   "measurements", "base"}},
};

struct Library {
  std::string prefix;  // of its headers
  Folders homes;
};

const std::vector<Library> kLibraries = {
    {"toml++/", {"base"}},
    {"assimp/", {"files"}},
    {"tbb/", {"making"}},
    {"cairo", {"drawings"}},
    {"pugixml", {"drawings", "files"}},
    {"zip.h", {"files"}},
    {"dxflib/", {"drawings"}},
    {"polyclipping/", {"pattern"}},
    {"CGAL/", {"mesh", "proof"}},
    {"CLI/", {"cli"}},
    {"nlohmann/", {"order", "files", "report", "page", "cli"}},
    {"httplib", {"page"}},
};

struct Include {
  std::string path;
  bool quoted;
};

std::string_view without_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  return first == std::string_view::npos ? std::string_view() : text.substr(first);
}

// The path of an #include line; nothing for any other line.
std::optional<Include> included(std::string_view line) {
  line = without_blanks(line);
  if (!line.starts_with('#')) return std::nullopt;
  line = without_blanks(line.substr(1));
  if (!line.starts_with("include")) return std::nullopt;
  line = without_blanks(line.substr(std::string_view("include").size()));
  if (line.empty() || (line[0] != '"' && line[0] != '<')) return std::nullopt;
  const char close = line[0] == '"' ? '"' : '>';
  return Include{std::string(line.substr(1, line.find(close, 1) - 1)), close == '"'};
}

std::string first_folder(const std::string& path) {
  const auto slash = path.find('/');
  return slash == std::string::npos ? std::string() : path.substr(0, slash);
}

std::optional<std::string> stage_fault(const std::string& folder, const Include& include) {
  const std::string target = first_folder(include.path);
  if (!kMayInclude.contains(target)) {
    // <sys/stat.h> and the like are nobody's stage; a quoted path must be one of ours.
    if (!include.quoted) return std::nullopt;
    return "\"" + include.path + "\" does not name a stage by its path from src";
  }
  if (target == folder || kMayInclude.at(folder).contains(target)) return std::nullopt;
  return folder + " may not include " + target + " (" + include.path + ")";
}

std::optional<std::string> library_fault(const std::string& folder, bool header, const Include& include) {
  for (const Library& library : kLibraries) {
    if (!include.path.starts_with(library.prefix)) continue;
    if (!library.homes.contains(folder)) return include.path + " has no business in " + folder;
    if (header) return include.path + " shows in a header";
  }
  return std::nullopt;
}

bool is_library(const Include& include) {
  return std::any_of(kLibraries.begin(), kLibraries.end(),
                     [&](const Library& library) { return include.path.starts_with(library.prefix); });
}

// Every fault of one file, `path` counted from src ("mesh/fill.cpp").
std::vector<std::string> faults_of(const std::string& path, const std::string& text) {
  const std::string folder = first_folder(path);
  if (!kMayInclude.contains(folder)) return {path + ": its folder is not in the table of arrows"};
  const bool header = path.ends_with(".h");
  std::vector<std::string> faults;
  std::istringstream lines(text);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    const auto include = included(line);
    if (!include) continue;
    const auto fault =
        is_library(*include) ? library_fault(folder, header, *include) : stage_fault(folder, *include);
    if (fault) faults.push_back(path + ":" + std::to_string(number) + ": " + *fault);
  }
  return faults;
}

std::string contents(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

bool is_source(const std::filesystem::path& path) {
  return path.extension() == ".h" || path.extension() == ".cpp";
}

TEST(Layers, EveryIncludeFollowsTheArrows) {
  const std::filesystem::path src = std::filesystem::path(CW_SOURCE_DIR) / "src";
  std::set<std::string> seen;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(src)) {
    if (!entry.is_regular_file() || !is_source(entry.path())) continue;
    const std::string path = entry.path().lexically_relative(src).generic_string();
    seen.insert(first_folder(path));
    for (const std::string& fault : faults_of(path, contents(entry.path()))) ADD_FAILURE() << fault;
  }
  EXPECT_TRUE(seen.contains("base") && seen.contains("measurements")) << "looked in the wrong place: " << src;
}

// The folders that stand on a circle of arrows or above one: what is left when folders without arrows are
// taken away, again and again.
Folders in_circles(std::map<std::string, Folders> arrows) {
  for (;;) {
    const auto bottom =
        std::find_if(arrows.begin(), arrows.end(), [](const auto& f) { return f.second.empty(); });
    if (bottom == arrows.end()) break;
    const std::string name = bottom->first;
    arrows.erase(bottom);
    for (auto& [folder, targets] : arrows) targets.erase(name);
  }
  Folders left;
  for (const auto& [folder, targets] : arrows) left.insert(folder);
  return left;
}

// Arrows that came back to where they started, at one step or at several, would make the table meaningless.
TEST(Layers, TheArrowsThemselvesPointOneWay) {
  EXPECT_EQ(in_circles(kMayInclude), Folders());
  EXPECT_EQ(in_circles({{"a", {"b"}}, {"b", {"c"}}, {"c", {"a", "d"}}, {"d", {}}}), (Folders{"a", "b", "c"}));
}

struct Broken {
  std::string path, text, fault;
};

TEST(Layers, TheCheckFindsBrokenArrows) {
  const std::vector<Broken> cases = {
      {"base/length.cpp", "#include \"order/order.h\"\n", "base/length.cpp:1: base may not include order"},
      {"solid/shell.h", "#pragma once\n\n  #  include \"mesh/triangle_mesh.h\"\n",
       "solid/shell.h:3: solid may not include mesh"},
      {"files/stl.cpp", "#include \"solid/shell.h\"", "files/stl.cpp:1: files may not include solid"},
      {"mesh/fill.cpp", "#include <order/order.h>", "mesh/fill.cpp:1: mesh may not include order"},
      {"making/make.cpp", "#include \"cli/main.h\"", "making may not include cli"},
      {"mesh/fill.cpp", "#include \"triangle_mesh.h\"", "does not name a stage"},
      {"mesh/fill.cpp", "#include \"../order/order.h\"", "does not name a stage"},
      {"pages/server.cpp", "", "not in the table"},
      {"report/report.cpp", "#include \"page/server.h\"", "report may not include page"},
      {"cli/page_command.cpp", "#include <httplib.h>", "no business in cli"},
      {"page/server.h", "#include <httplib.h>", "shows in a header"},
      {"main.cpp", "", "not in the table"},
      {"order/reader.cpp", "#include <toml++/toml.h>", "no business in order"},
      {"mesh/fill.cpp", "#include <assimp/scene.h>", "no business in mesh"},
      {"solid/shell.cpp", "#include <CGAL/Surface_mesh.h>", "no business in solid"},
      {"report/report.cpp", "#include <CLI/CLI.hpp>", "no business in report"},
      {"making/make.cpp", "#include \"nlohmann/json.hpp\"", "no business in making"},
      {"base/table.h", "#include <toml++/toml.h>", "shows in a header"},
      {"proof/checks.h", "#include <CGAL/Surface_mesh.h>", "shows in a header"},
  };
  for (const Broken& c : cases) {
    const auto faults = faults_of(c.path, c.text);
    ASSERT_EQ(faults.size(), 1u) << c.path << ": " << c.text;
    EXPECT_NE(faults[0].find(c.fault), std::string::npos) << faults[0];
  }
}

TEST(Layers, TheCheckLetsGoodFilesPass) {
  EXPECT_TRUE(faults_of("mesh/fill.cpp",
                        "#include \"mesh/fill.h\"\n#include <vector>\n#include <CGAL/Epick.h>\n#include "
                        "<boost/math/tools/roots.hpp>\n"
                        "#include \"solid/shell.h\"\n// #include \"order/order.h\"\nauto s = \"#include "
                        "<toml++/toml.h>\";\n")
                  .empty());
  EXPECT_TRUE(faults_of("base/table.cpp", "#include <toml++/toml.h>\n#include <sys/stat.h>").empty());
  EXPECT_TRUE(faults_of("cli/main.cpp", "#include <CLI/CLI.hpp>\n#include \"report/report.h\"\n").empty());
}

}  // namespace
