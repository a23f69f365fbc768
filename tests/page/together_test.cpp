// Previews that are asked at once: each is, byte for byte, what it is when asked alone.

#include <gtest/gtest.h>

#include <atomic>
#include <set>
#include <span>
#include <thread>

#include "page/asked.h"
#include "page/base64.h"
#include "support/light.h"

namespace crownwright::page {
namespace {

using test::Json;
using test::small_block;
using test::small_pad;
using test::with;

std::string request_of(const Json& order, const std::string& view) {
  return Json{{"order", order}, {"view", view}}.dump();
}

// A panel whose file has always the same name.
std::string panel_request(int panels, const std::string& bytes) {
  const Json order = {{"pattern.kind", "outline"},
                      {"pattern.panels", std::to_string(panels)},
                      {"pattern.layer", "cut"},
                      {"pattern.file", "panel.svg"},
                      {"cloth.name", "wool-felt"},
                      {"pattern.seam_allowance", "3/8 in"},
                      {"pattern.includes_allowance", true}};
  const Json file = {{"name", "panel.svg"}, {"base64", base64(std::as_bytes(std::span(bytes)))}};
  return Json{{"order", order}, {"attachments", {{"pattern.file", file}}}}.dump();
}

/// The drawn sample, and the same wider by a twentieth.
std::string drawn_bytes() {
  return test::contents_of(std::string(CW_SOURCE_DIR) + "/samples/drawn-panel.svg");
}
std::string wider_bytes() {
  std::string bytes = drawn_bytes();
  const std::size_t svg = bytes.find("<svg"), inside = bytes.find('>', svg) + 1, end = bytes.rfind("</svg>");
  return bytes.substr(0, inside) + "<g transform=\"scale(1.05)\">" + bytes.substr(inside, end - inside) +
         "</g></svg>";
}

std::vector<std::string> different_requests() {
  std::vector<std::string> all;
  for (const int crown : {262, 275, 288})
    all.push_back(
        request_of(with(small_block(), "measure.crown_diameter", std::to_string(crown) + " mm"), "form"));
  all.push_back(request_of(with(small_block(), "form.wall", "solid"), "form"));
  all.push_back(request_of(with(small_block(), "cloth.name", "gold"), "form"));
  all.push_back(request_of(with(small_block(), "measure.rise", "2 cm"), "form"));
  all.push_back(request_of(with(small_block(), "print.bed", "180x180x180 mm"), "parts"));
  all.push_back(request_of(small_pad(), "form"));
  all.push_back(panel_request(8, drawn_bytes()));
  all.push_back(panel_request(9, drawn_bytes()));
  all.push_back(panel_request(8, wider_bytes()));
  return all;
}

// All but the time it took.
std::string without_time(std::string body) {
  const std::size_t at = body.rfind("\"core_ms\"");
  return at == std::string::npos ? body : body.substr(0, at);
}
std::string answer_without_time(const std::string& request) {
  return without_time(test::bench().preview(request).body);
}

TEST(Together, PreviewsAreNotMixed) {
  const std::vector<std::string> requests = different_requests();
  std::vector<std::string> alone;
  for (const std::string& request : requests) alone.push_back(answer_without_time(request));
  const std::set<std::string> kinds(alone.begin(), alone.end());
  ASSERT_EQ(kinds.size(), requests.size()) << "each question has an answer of its own";
  const std::size_t pages = 6, rounds = test::light() ? 1 : 2;
  std::atomic<std::size_t> right = 0;
  std::vector<std::thread> threads;
  for (std::size_t page = 0; page < pages; ++page)
    threads.emplace_back([&, page] {
      for (std::size_t k = 0; k < rounds * requests.size(); ++k) {
        const std::size_t which = (2 * page + k) % requests.size();
        if (answer_without_time(requests[which]) == alone[which]) ++right;
      }
    });
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(right, pages * rounds * requests.size());
}

// What was read for one drawing says nothing of the next, whatever its name.
TEST(Together, AChangedDrawingIsReadAnew) {
  const auto crown = [](const std::string& request) {
    const Json answer = test::answer_of(test::bench().preview(request));
    EXPECT_TRUE(answer["ok"]) << answer.dump().substr(0, 400);
    return answer["figures"]["crown_diameter"].get<double>();
  };
  const double first = crown(panel_request(8, drawn_bytes()));
  EXPECT_NEAR(crown(panel_request(8, wider_bytes())) / first, 1.05, 0.02);
  EXPECT_EQ(crown(panel_request(8, drawn_bytes())), first);
  EXPECT_NEAR(crown(panel_request(7, drawn_bytes())) / first, 7.0 / 8, 0.05);
}

}  // namespace
}  // namespace crownwright::page
