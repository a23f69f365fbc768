#include "files/zip_reader.h"

#include <gtest/gtest.h>

#include <random>

#include "files/packages.h"
#include "files/threemf_reader.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using test::archive;
using test::with;

std::string fault_of_zip(const std::string& bytes, const ZipLimits& limits = {}) {
  const auto zip = ZipReader::open(test::as_bytes(bytes), "z", limits);
  if (!zip) return zip.fault().line();
  for (std::size_t k = 0; k < zip->names().size(); ++k) {
    if (const auto content = zip->read(k); !content) return content.fault().line();
  }
  return "no fault";
}

TEST(ZipReader, ReadsWhatWasPacked) {
  const std::string bytes = archive({{"a/b.txt", "hello"}, {"C", std::string(100'000, 'c')}, {"empty", ""}});
  const auto zip = ZipReader::open(test::as_bytes(bytes), "z");
  ASSERT_TRUE(zip) << zip.fault().line();
  EXPECT_EQ(zip->names(), (std::vector<std::string>{"a/b.txt", "C", "empty"}));
  EXPECT_EQ(zip->read(0).value(), "hello");
  EXPECT_EQ(zip->read(1).value(), std::string(100'000, 'c'));
  EXPECT_EQ(zip->read(2).value(), "");
  EXPECT_EQ(zip->find("A/B.TXT"), 0u);
  EXPECT_EQ(zip->find("b.txt"), std::nullopt);
}

// Names are changed in the packed bytes, letter by letter, since no library would write them.
TEST(ZipReader, NamesThatLeaveTheArchiveAreRefused) {
  const std::string good = archive({{"abcdefgh", "x"}});
  for (const char* name :
       {"../../et", "/bcdefgh", "a/../../", "a\\cdefgh", "C:/defgh", "a//defgh", "./cdefgh",
        "abc\x01"
        "efgh",
        "abcdef\xFF\xFE", "a/b/c/.."})
    EXPECT_NE(fault_of_zip(with(good, "abcdefgh", name)).find("which leads out of the package"),
              std::string::npos)
        << name;
  EXPECT_EQ(fault_of_zip(with(good, "abcdefgh", "a/..defg")), "no fault") << "dots within a name are letters";
}

TEST(ZipReader, NamesThatStandTwiceAreRefused) {
  const std::string good = archive({{"one", "x"}, {"two", "y"}});
  EXPECT_EQ(fault_of_zip(with(good, "two", "one")), "z: holds two entries of the same name; every name once");
  EXPECT_EQ(fault_of_zip(with(good, "two", "ONE")), "z: holds the entry \"ONE\" twice; every name once");
}

// A bomb: 50 MB of zeros in fifty kilobytes. It is refused by what its directory says.
TEST(ZipReader, BombsAreRefusedUnopened) {
  const std::string zeros(10'000'000, '\0');
  test::Entries entries;
  for (int k = 0; k < 5; ++k) entries.emplace_back("zeros" + std::to_string(k), zeros);
  const std::string bytes = archive(entries);
  EXPECT_LT(bytes.size(), 100'000u);
  ZipLimits limits;
  EXPECT_EQ(fault_of_zip(bytes, limits), "no fault");
  limits.unpacked = 49'999'999;
  EXPECT_EQ(fault_of_zip(bytes, limits), "z: unpacks to more than 50 MB; at most 50 MB are read");
}

// The same with a directory that lies: no more is unpacked than it says.
TEST(ZipReader, SizesThatLieAreFound) {
  const std::string bytes = archive({{"zeros", std::string(70'000, '\0')}});
  std::string size("\x70\x11\x01\x00", 4);  // 70,000, little endian
  ASSERT_NE(bytes.find(size), std::string::npos);
  for (const std::string& lie : {std::string("\x01\x00\x00\x00", 4), std::string("\x70\x11\x02\x00", 4)}) {
    const std::string fault = fault_of_zip(with(bytes, size, lie));
    EXPECT_TRUE(fault.starts_with("z: ")) << fault;
    EXPECT_NE(fault.find("damaged"), std::string::npos) << fault;
  }
}

// Stored as it is, so that nothing but the checksum (CRC-32) tells.
TEST(ZipReader, ChecksumsAreCompared) {
  const std::string good = archive({{"a", "one two three"}}, false);
  EXPECT_EQ(fault_of_zip(good), "no fault");
  EXPECT_EQ(fault_of_zip(with(good, "two", "too")),
            "z: a: cannot be unpacked: its checksum differs; the file is damaged");
}

TEST(ZipReader, HugeCountsAreRefusedBeforeRoomIsMade) {
  std::string bytes = archive({{"a", "x"}});
  const std::size_t end = bytes.rfind("PK\5\6");
  bytes.replace(end + 8, 4, std::string("\xFE\xFF\xFE\xFF", 4));
  EXPECT_EQ(fault_of_zip(bytes), "z: holds 65534 entries; at most 1000 are read");
  // ZIP64: the far record says 2^40 entries (APPNOTE.TXT 4.3.14, 4.3.15).
  std::string far = archive({{"a", "x"}});
  const std::size_t at = far.rfind("PK\5\6");
  std::string record("PK\6\6", 4), locator("PK\6\7", 4);
  record += std::string("\x2C\0\0\0\0\0\0\0", 8) + std::string(12, '\0');
  record += std::string("\0\0\0\0\0\1\0\0", 8) + std::string("\0\0\0\0\0\1\0\0", 8) + std::string(16, '\0');
  locator += std::string(4, '\0');
  for (std::size_t k = 0; k < 8; ++k) locator += static_cast<char>(k < 4 ? at >> (8 * k) & 255 : 0);
  locator += std::string("\1\0\0\0", 4);
  ASSERT_EQ(record.size(), 56u);
  far.insert(at, record + locator);
  far.replace(at + 76 + 8, 4, "\xFF\xFF\xFF\xFF");
  EXPECT_EQ(fault_of_zip(far), "z: holds 1099511627776 entries; at most 1000 are read");
}

TEST(ZipReader, EveryTruncationIsFound) {
  const std::string bytes = archive(test::package_of(test::good_model()));
  for (std::size_t size = 0; size < bytes.size(); ++size) {
    const std::string fault = fault_of_zip(bytes.substr(0, size));
    ASSERT_NE(fault, "no fault") << size;
    ASSERT_NE(fault.find("is no whole ZIP archive"), std::string::npos) << size << ": " << fault;
  }
  EXPECT_EQ(fault_of_zip(bytes), "no fault");
}

TEST(ZipReader, EncryptedAndStrangelyPackedEntriesAreRefused) {
  const std::string bytes = archive({{"a", std::string(1000, 'x')}});
  std::string strange = bytes, secret = bytes;
  const std::size_t entry = bytes.find("PK\1\2");
  strange[entry + 10] = 12;  // bzip2
  strange[8] = 12;
  EXPECT_EQ(fault_of_zip(strange),
            "z: holds the entry \"a\" packed by method 12; stored or deflated entries");
  secret[entry + 8] = static_cast<char>(secret[entry + 8] | 1);
  secret[6] = static_cast<char>(secret[6] | 1);
  EXPECT_EQ(fault_of_zip(secret), "z: holds the encrypted entry \"a\"; nothing encrypted can be read");
}

// Packed data are guarded by their checksums, the directory by its consistency; names and dates may change
// unseen, so not every flip is a fault, but none may crash or change a mesh.
TEST(ZipReader, FlippedBytesNeverChangeAMesh) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const std::string good = archive(test::package_of(test::good_model()));
  const int trials = test::light() ? 300 : 3000;
  int refused = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::string bytes = good;
    bytes[random() % bytes.size()] ^= static_cast<char>(1 + random() % 255);
    const auto read = parse_threemf(test::as_bytes(bytes), "p");
    if (!read) {
      ++refused;
      continue;
    }
    ASSERT_EQ(read->bodies.size(), 2u);
    ASSERT_EQ(read->bodies[0].mesh.vertices, test::tetrahedron().vertices);
    ASSERT_EQ(read->bodies[0].mesh.triangles, test::tetrahedron().triangles);
  }
  EXPECT_GT(refused, trials / 2);
}

}  // namespace
}  // namespace crownwright::files
