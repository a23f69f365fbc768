// Broken orders, each a file whose first line says what must come of it:
//   # expect: <exit code> | <what the message must contain>
// Files that cannot be kept (a hundred megabytes, a circle of links, ...) are made here.

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "base/printable.h"
#include "order/order_support.h"
#include "order/reader.h"

namespace fs = std::filesystem;
using namespace crownwright;

namespace {

const fs::path cases = fs::path(CW_TEST_DIR) / "cases" / "orders";

struct Expectation {
  int exit = 0;
  std::string part;
};

Expectation expectation_of(const std::string& bytes) {
  const std::string head = "# expect: ";
  const std::string line = bytes.substr(0, bytes.find('\n'));
  EXPECT_EQ(line.rfind(head, 0), 0u) << "a case says what it expects";
  const std::size_t bar = line.find(" | ");
  return {std::stoi(line.substr(head.size(), bar - head.size())), line.substr(bar + 3)};
}

void expect_one_clear_line(const Fault& fault, const std::string& file) {
  const std::string line = fault.line();
  EXPECT_NE(line.find(file), std::string::npos) << "names its file: " << line;
  EXPECT_EQ(line, printable(line)) << "fit for a terminal";
  EXPECT_LT(line.size(), 1200u);
}

// A folder of our own, gone afterwards.
class HostileFiles : public testing::Test {
 protected:
  HostileFiles() {
    std::string pattern = (fs::temp_directory_path() / "cw_orders_XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    fs::permissions(folder_, fs::perms(0755));
  }
  ~HostileFiles() override { fs::remove_all(folder_); }

  void expect_file_fault(const fs::path& path, const std::string& part) {
    const auto order = order::read_order_file(path.string());
    ASSERT_FALSE(order.ok());
    EXPECT_EQ(order.fault().exit, ExitCode::file);
    EXPECT_NE(order.fault().line().find(part), std::string::npos) << order.fault().line();
  }

  fs::path folder_;
};

TEST(BrokenOrders, EachGivesItsOneClearLine) {
  const auto files = test::files_in(cases);
  ASSERT_GE(files.size(), 200u);
  for (const fs::path& file : files) {
    SCOPED_TRACE(file.filename().string());
    const Expectation expected = expectation_of(test::bytes_of(file));
    const auto order = order::read_order_file(file.string());
    ASSERT_FALSE(order.ok()) << "was taken for a good order";
    EXPECT_EQ(static_cast<int>(order.fault().exit), expected.exit);
    EXPECT_NE(order.fault().line().find(expected.part), std::string::npos) << order.fault().line();
    expect_one_clear_line(order.fault(), file.filename().string());
  }
}

TEST(BrokenOrders, EveryBeginningOfAGoodOrderIsReadOrRefused) {
  const std::string whole = test::bytes_of(fs::path(CW_SOURCE_DIR) / "samples" / "market-beret.toml");
  ASSERT_FALSE(whole.empty());
  for (std::size_t n = 0; n < whole.size(); ++n) {
    const auto order = order::read_order_text(whole.substr(0, n), "cut.toml");
    if (!order.ok()) {
      EXPECT_EQ(order.fault().exit, ExitCode::order) << n;
    }
  }
}

TEST(BrokenOrders, AnOrderOfOverAMegabyteIsRefused) {
  const std::string text = test::plain_block + std::string((1u << 20) + 1, '#');
  const auto order = order::read_order_text(text, "long.toml");
  ASSERT_FALSE(order.ok());
  EXPECT_EQ(order.fault().exit, ExitCode::order);
}

TEST_F(HostileFiles, Missing) { expect_file_fault(folder_ / "none.toml", "there is no such file"); }

TEST_F(HostileFiles, BelowAFile) {
  std::ofstream(folder_ / "file") << "x";
  expect_file_fault(folder_ / "file" / "order.toml", "there is no such file");
}

TEST_F(HostileFiles, NoName) { expect_file_fault("", "there is no such file"); }

TEST_F(HostileFiles, NulInName) { expect_file_fault(std::string("a\0b", 3), "cannot hold a NUL"); }

TEST_F(HostileFiles, NameTooLong) { expect_file_fault(folder_ / std::string(5000, 'x'), "name is too long"); }

TEST_F(HostileFiles, FolderInsteadOfFile) {
  fs::create_directory(folder_ / "order.toml");
  expect_file_fault(folder_ / "order.toml", "this is a folder");
}

TEST_F(HostileFiles, CircleOfLinks) {
  fs::create_symlink(folder_ / "b.toml", folder_ / "a.toml");
  fs::create_symlink(folder_ / "a.toml", folder_ / "b.toml");
  expect_file_fault(folder_ / "a.toml", "links go round in a circle");
}

TEST_F(HostileFiles, PipeWithoutWriterDoesNotHang) {
  ASSERT_EQ(mkfifo((folder_ / "pipe.toml").c_str(), 0600), 0);
  expect_file_fault(folder_ / "pipe.toml", "not a regular file");
}

TEST_F(HostileFiles, EndlessDevice) { expect_file_fault("/dev/zero", "not a regular file"); }

TEST_F(HostileFiles, HundredMegabytesAreNotRead) {
  std::ofstream(folder_ / "big.toml") << "#";
  fs::resize_file(folder_ / "big.toml", 100u << 20);  // sparse: takes no room
  expect_file_fault(folder_ / "big.toml", "larger than 1 MiB");
}

TEST_F(HostileFiles, WithoutPermission) {
  const fs::path path = folder_ / "locked.toml";
  std::ofstream(path) << test::plain_block;
  fs::permissions(path, fs::perms::none);
  // Root may read everything, so root puts its rights down for a moment.
  const bool was_root = geteuid() == 0;
  ASSERT_EQ(was_root ? seteuid(65534) : 0, 0);
  expect_file_fault(path, "no permission");
  ASSERT_EQ(was_root ? seteuid(0) : 0, 0);
}

}  // namespace
