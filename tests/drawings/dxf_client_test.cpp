// What another program's reader makes of a written DXF file: dxflib, given the bytes as they are.

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>

#include "drawings/sample_pieces.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

class Client : public DL_CreationAdapter {
 public:
  std::set<std::string> layers, line_types;
  std::map<std::string, int> lines_on;
  std::map<std::string, int> settings;
  int texts = 0;
  double furthest = 0;

  void addLayer(const DL_LayerData& layer) override { layers.insert(layer.name); }
  void addLinetype(const DL_LinetypeData& type) override { line_types.insert(type.name); }
  void addPolyline(const DL_PolylineData&) override { ++lines_on[getAttributes().getLayer()]; }
  void addVertex(const DL_VertexData& v) override { furthest = std::max({furthest, v.x, v.y}); }
  void addText(const DL_TextData&) override { ++texts; }
  void setVariableInt(const std::string& key, int value, int) override { settings[key] = value; }
};

TEST(DxfClient, FindsLayersUnitsAndLines) {
  const pattern::Piece panel = test::hand_panel(6, 9.525);
  std::istringstream stream(dxf_of({panel}));
  Client client;
  DL_Dxf reader;
  ASSERT_TRUE(reader.in(stream, &client));
  EXPECT_EQ(reader.getVersion(), DL_Codes::AC1015);
  EXPECT_EQ(client.settings["$INSUNITS"], 4);
  // ASTM D6673: 1 cut, 14 sew, 4 notch, 7 grain.
  for (const char* layer : {"0", "1", "4", "7", "8", "11", "14", "15"})
    EXPECT_TRUE(client.layers.count(layer)) << layer;
  EXPECT_EQ(client.lines_on["1"], 1);
  EXPECT_EQ(client.lines_on["14"], 1);
  EXPECT_EQ(client.lines_on["4"], 5);  // crown edge and middle on both seams, the quarter
  EXPECT_EQ(client.lines_on["7"], 3);  // a line and two arrow heads
  EXPECT_GT(client.texts, 5);
  EXPECT_TRUE(client.line_types.count("DASHED"));
  EXPECT_LT(client.furthest, 300);
}

TEST(DxfClient, EveryHandleIsOwn) {
  std::istringstream in(dxf_of(test::every_piece()));
  std::set<std::string> handles;
  for (std::string code, value; std::getline(in, code) && std::getline(in, value);) {
    if (code != "  5" || value == "FFFFF") continue;  // the next free one
    EXPECT_TRUE(handles.insert(value).second) << value;
  }
  EXPECT_GT(handles.size(), 60u);
}

}  // namespace
}  // namespace crownwright::drawings
