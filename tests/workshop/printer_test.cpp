#include "workshop/printer.h"

#include <gtest/gtest.h>

#include <map>

using namespace crownwright;
using namespace crownwright::workshop;

namespace {

const ProfileFolder own_printers{CW_SOURCE_DIR "/profiles"};

}  // namespace

// The usual classes of home printers' beds, mm: common practice, no source.
TEST(Printers, AreTheUsualClasses) {
  const std::map<std::string, double> classes = {
      {"bed-180", 180}, {"bed-220", 220}, {"bed-256", 256}, {"bed-300", 300}, {"bed-350", 350},
  };
  const auto printers = list_printers(own_printers);
  ASSERT_TRUE(printers.ok()) << printers.fault().line();
  ASSERT_EQ(printers->size(), classes.size());
  for (const PrinterProfile& printer : *printers) {
    SCOPED_TRACE(printer.name);
    ASSERT_TRUE(classes.count(printer.name));
    EXPECT_EQ(printer.width.value.mm(), classes.at(printer.name));
    EXPECT_EQ(printer.depth.value.mm(), classes.at(printer.name));
    EXPECT_GE(printer.height.value.mm(), classes.at(printer.name));
    EXPECT_EQ(printer.nozzle.value, Length(2, 5));
    EXPECT_GE(printer.summary.size(), 20u);
    for (const auto* length : {&printer.width, &printer.depth, &printer.height, &printer.nozzle})
      EXPECT_FALSE(length->source.empty());
  }
}

TEST(Printers, AnUnknownOneIsAnsweredWithTheNearest) {
  const auto printer = find_printer(own_printers, "bed-222");
  ASSERT_FALSE(printer.ok());
  EXPECT_EQ(printer.fault().exit, ExitCode::order);
  EXPECT_NE(printer.fault().line().find("did you mean bed-220?"), std::string::npos)
      << printer.fault().line();
}
