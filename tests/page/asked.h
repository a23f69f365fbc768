#pragma once
// Questions as a page asks them.

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <string>

#include "page/workbench.h"

namespace crownwright::test {

using Json = nlohmann::ordered_json;

inline workshop::ProfileFolder page_profiles() { return {std::string(CW_SOURCE_DIR) + "/profiles"}; }

/// A workbench for the tests of one program.
inline page::Workbench& bench() {
  static page::Workbench workbench(page_profiles());
  return workbench;
}

/// Three tape measures and a cloth, coarse so that making it takes a moment.
inline Json small_block() {
  return {{"measure.head_girth", "57 cm"},
          {"measure.crown_diameter", "28 cm"},
          {"measure.rise", "7.5 cm"},
          {"cloth.name", "fleece"},
          {"mesh.chord_tolerance", "0.3 mm"}};
}
inline Json small_pad() {
  return {{"form.kind", "pad"},
          {"measure.crown_diameter", "26 cm"},
          {"measure.rise", "5 cm"},
          {"measure.taken_at", "form"},
          {"mesh.chord_tolerance", "0.3 mm"}};
}
inline Json with(Json order, const std::string& key, const Json& value) {
  order[key] = value;
  return order;
}

inline Json answer_of(const page::Answer& answer) { return Json::parse(answer.body); }

inline Json preview_of(const Json& order, const Json& more = Json::object()) {
  Json request = {{"order", order}};
  request.update(more);
  const page::Answer answer = bench().preview(request.dump());
  EXPECT_EQ(answer.status, 200);
  return answer_of(answer);
}
inline Json good_preview(const Json& order, const Json& more = Json::object()) {
  Json preview = preview_of(order, more);
  EXPECT_TRUE(preview.at("ok").get<bool>()) << preview.dump().substr(0, 600);
  return preview;
}
/// The fault of an order that is refused.
inline Json fault_of(const Json& answer) {
  EXPECT_FALSE(answer.at("ok").get<bool>()) << answer.dump().substr(0, 300);
  return answer.value("fault", Json::object());
}

inline std::string contents_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A folder that is empty at first and gone afterwards.
class TestFolder {
 public:
  TestFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "crownwright-test-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = pattern;
  }
  ~TestFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace crownwright::test
