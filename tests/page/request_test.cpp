#include "page/request.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>

#include "support/seed.h"

namespace crownwright::page {
namespace {

std::string what_is_wrong(const std::string& text) {
  const auto read = read_request(text);
  if (read) return "nothing";
  EXPECT_EQ(read.fault().exit, ExitCode::order);
  return read.fault().what;
}

std::string nested(int depth) {
  std::string text;
  for (int i = 0; i < depth; ++i) text += "{\"a\":";
  text += "1";
  return text + std::string(static_cast<std::size_t>(depth), '}');
}

TEST(Request, ReadsWhatAPageSends) {
  const auto read =
      read_request(R"({"order": {"measure.rise": "7.5 cm", "draft": true, "n": 8}, "l": [1, "2"]})");
  ASSERT_TRUE(read.ok());
  const JsonValue& order = *read->field("order");
  EXPECT_EQ(order.field("measure.rise")->text, "7.5 cm");
  EXPECT_TRUE(order.field("draft")->boolean);
  EXPECT_EQ(order.field("n")->text, "8");
  EXPECT_EQ(read->field("l")->items[1].text, "2");
  EXPECT_EQ(read->field("none"), nullptr);
}

TEST(Request, SaysWhatIsWrong) {
  const std::pair<std::string, std::string> cases[] = {
      {"", "not JSON"},
      {"{", "not JSON"},
      {"{\"a\": NaN}", "not JSON"},
      {"{\"a\": Infinity}", "not JSON"},
      {"{\"a\": 01}", "not JSON"},
      {"{\"a\": 1} x", "not JSON"},
      {"{'a': 1}", "not JSON"},
      {"{\"a\": 1e999}", "too large"},
      {"{\"a\": 1, \"a\": 2}", "twice"},
      {"{\"o\": {\"a\": 1, \"b\": 2, \"a\": 3}}", "twice"},
      {"[1, 2]", "a list stands"},
      {"\"text\"", "a text stands"},
      {"null", "null stands"},
      {"{\"a\": \"\xff\"}", "not UTF-8"},
      {"{\"a\": \"\xed\xa0\x80\"}", "not UTF-8"},
      {"{\"a\": \"\\ud800\"}", "not JSON"},
      {std::string("{\"a\": 1\0}", 9), "not JSON"},
  };
  for (const auto& [text, said] : cases)
    EXPECT_NE(what_is_wrong(text).find(said), std::string::npos) << text << ": " << what_is_wrong(text);
}

TEST(Request, HoldsItsBounds) {
  EXPECT_TRUE(read_request(nested(deepest_request)).ok());
  EXPECT_NE(what_is_wrong(nested(deepest_request + 1)).find("too deep"), std::string::npos);
  EXPECT_NE(what_is_wrong(nested(200'000)).find("too deep"), std::string::npos);
  EXPECT_NE(what_is_wrong("{\"a\":" + std::string(1'000'000, '[')).find("too deep"), std::string::npos);
  const std::string long_text(most_request_bytes - 8, 'x');
  EXPECT_TRUE(read_request("{\"a\":\"" + long_text + "\"}").ok());
  EXPECT_NE(what_is_wrong("{\"a\":\"" + long_text + "x\"}").find("too long"), std::string::npos);
  std::string many = "{\"a\":[0";
  for (int i = 0; i < 10'000; ++i) many += ",0";
  EXPECT_NE(what_is_wrong(many + "]}").find("more than"), std::string::npos);
  std::string fields = "{";
  for (int i = 0; i < 1001; ++i) fields += (i > 0 ? ",\"" : "\"") + std::to_string(i) + "\":0";
  EXPECT_NE(what_is_wrong(fields + "}").find("more than"), std::string::npos);
}

// The JSON library reads the same text by itself: what one takes, the other takes.
TEST(Request, SpoiltTextsAreTakenOrRefusedAsTheLibraryDoes) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const std::string good =
      R"({"order":{"measure.rise":"7.5 cm","vents":true,"pattern.panels":8},"view":"form"})";
  int refused = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string text = good;
    const auto any = [&](std::size_t most) { return static_cast<std::size_t>(random() % most); };
    for (std::size_t k = 0; k <= any(3); ++k) {
      const std::size_t at = any(text.size());
      switch (any(4)) {
        case 0:
          text[at] = static_cast<char>(random() & 0xFF);
          break;
        case 1:
          text.erase(at, 1 + any(3));
          break;
        case 2:
          text.insert(at, 1, "{}[],:\"\\0e-"[any(11)]);
          break;
        default:
          text.resize(at);
      }
      if (text.empty()) break;
    }
    const auto read = read_request(text);
    const auto theirs = nlohmann::json::parse(text, nullptr, false);
    if (read) {
      EXPECT_TRUE(theirs.is_object()) << text;
    } else {
      ++refused;
      const bool ours_alone = read.fault().what.find("twice") != std::string::npos;
      EXPECT_TRUE(ours_alone || !theirs.is_object()) << text << ": " << read.fault().what;
      EXPECT_FALSE(read.fault().what.empty());
    }
  }
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace crownwright::page
