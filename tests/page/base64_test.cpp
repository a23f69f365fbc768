#include "page/base64.h"

#include <gtest/gtest.h>

namespace crownwright::page {
namespace {

std::string packed(const std::string& text) { return base64(std::as_bytes(std::span(text))); }

// RFC 4648, section 10, "Test Vectors".
TEST(Base64, PacksTheTestVectorsOfTheRfc) {
  const std::pair<std::string, std::string> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, text] : vectors) {
    EXPECT_EQ(packed(plain), text);
    EXPECT_EQ(from_base64(text), plain);
  }
}

TEST(Base64, EveryByteComesBack) {
  std::string all;
  for (int i = 0; i < 256; ++i) all += static_cast<char>(i);
  EXPECT_EQ(from_base64(packed(all)), all);
}

// RFC 4648: 3.3 (other characters), 3.2 (padding), 3.5 (bits that padding leaves must be zero).
TEST(Base64, RefusesWhatIsNone) {
  for (const char* text :
       {"Z", "Zg", "Zg=", "Zg==Zg==", "Zm9v\n", "Zm 9v===", "Zh==", "====", "=", "Zm9v-_==", "Zm8=Zm8="})
    EXPECT_FALSE(from_base64(text)) << text;
}

}  // namespace
}  // namespace crownwright::page
