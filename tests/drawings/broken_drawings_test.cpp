// Drawings that cannot be a panel: each with the one fault it must give. Nothing here may crash, hang or
// throw.

#include <gtest/gtest.h>

#include "drawings/dxf_text.h"
#include "drawings/read_drawing.h"
#include "support/light.h"

namespace crownwright::drawings {
namespace {

using test::dxf;
using test::svg;

struct Broken {
  const char* file;  ///< its name; the ending says the format
  std::string text;
  const char* words;  ///< in the fault's line
  const char* layer = "";
};

std::string many(const std::string& one, int count) {
  std::string text;
  for (int i = 0; i < count; ++i) text += one;
  return text;
}

std::string square_svg() { return svg("<rect width='50' height='50'/>"); }

std::vector<Broken> broken_svg() {
  return {
      // not a drawing
      {"a.svg", "", "the file is empty"},
      {"a.svg", "hello", "holds no element"},
      {"a.svg", "<html><body/></html>", "no SVG drawing: it starts with <html>"},
      {"a.svg", "<svg width='1mm'><g></svg>", "not well-formed XML"},
      {"a.svg", square_svg().substr(0, 120), "cut short"},
      {"a.svg", std::string("\x1f\x8b\x08\0\0\0", 6), "holds no element"},
      {"a.svg", std::string("<svg\0 width='1mm'/>", 19), "not well-formed XML"},
      {"panel", "once upon a time", "neither an SVG nor a DXF drawing"},
      {"panel.pdf", "%PDF-1.5", "neither an SVG nor a DXF drawing"},
      {"a.svg", std::string(10'000'001, ' '), "10 MB large"},
      // scale
      {"a.svg", "<svg><rect width='5' height='5'/></svg>", "does not say how large it is"},
      {"a.svg", "<svg width='50' height='50'><rect width='5' height='5'/></svg>", "carry no unit"},
      {"a.svg", "<svg width='100%' height='100%' viewBox='0 0 9 9'><rect width='5' height='5'/></svg>",
       "carry no unit"},
      {"a.svg", "<svg width='5em' height='5em' viewBox='0 0 9 9'><rect width='5' height='5'/></svg>",
       "carry no unit"},
      {"a.svg", "<svg width='0mm' height='0mm' viewBox='0 0 9 9'><rect width='5' height='5'/></svg>",
       "carry no unit"},
      {"a.svg", "<svg width='9mm' height='9mm' viewBox='0 0 0 9'><rect width='5' height='5'/></svg>",
       "viewBox cannot"},
      {"a.svg", "<svg width='9mm' height='9mm' viewBox='0 0 9'><rect width='5' height='5'/></svg>",
       "viewBox cannot"},
      {"a.svg",
       "<svg width='9mm' height='18mm' viewBox='0 0 9 9' preserveAspectRatio='none'><rect width='5' "
       "height='5'/></svg>",
       "stretch the viewBox unequally"},
      // what is drawn
      {"a.svg", svg(""), "nothing is drawn"},
      {"a.svg", svg("<text>Panel</text>"), "nothing is drawn"},
      {"a.svg", svg("<defs><circle r='9'/></defs>"), "nothing is drawn"},
      {"a.svg", svg("<use href='#a'/>"), "<use> cannot be read as lines"},
      {"a.svg", svg("<g><image id='scan' href='scan.png'/></g>"), "<image id=\"scan\">"},
      {"a.svg", svg("<image href='file:///etc/passwd'/>"), "<image> cannot be read as lines"},
      {"a.svg", svg("<svg><rect width='5' height='5'/></svg>"), "<svg> cannot be read as lines"},
      {"a.svg", svg("<foreignObject/>"), "<foreignObject> cannot be read"},
      {"a.svg", svg(many("<g>", 300) + many("</g>", 300)), "nested too deeply"},
      {"a.svg", svg("<g id='panel-cut'><rect width='5' height='5'/></g>"), "did you mean \"panel-cut\"",
       "panel-cutt"},
      {"a.svg", svg("<g id='a'/><g id='b'/>"), "there are \"a\", \"b\"", "sew line"},
      {"a.svg", svg("<rect width='5' height='5'/>"), "the drawing names none", "sew"},
      {"a.svg", svg("<defs><rect id='sew' width='5' height='5'/></defs>"), "no id \"sew\"", "sew"},
      {"a.svg", svg("<g id='sew'/><rect width='5' height='5'/>"), "nothing is drawn on \"sew\"", "sew"},
      // outlines
      {"a.svg", svg("<rect width='50' height='50'/><rect x='70' width='50' height='50'/>"),
       "there are 2 closed outlines"},
      {"a.svg", svg("<path d='M0,0 H50 V50 H0'/>"), "the outline is open"},
      {"a.svg", svg("<path d='M0,0 H50 V50 H0 V0.5'/>"), "nearest other end 0.5 mm away"},
      {"a.svg", svg("<path d='M0,0 H50 V50 H0 V0.011'/>"), "the outline is open"},
      {"a.svg", svg("<rect width='50' height='50'/><line x2='50' y2='50'/>"),
       "open line beside the closed outline"},
      {"a.svg", svg("<path d='M0,0 L50,50 H0 L50,0 Z'/>"), "crosses or touches itself at (25, 25) mm"},
      {"a.svg", svg("<path d='M0,0 H50 V50 L25,0 L0,50 Z'/>"), "crosses or touches itself"},
      {"a.svg", svg("<path d='M0,0 C90,90 -40,90 50,0 Z'/>"), "crosses or touches itself"},
      // data
      {"a.svg", svg("<path d='L5,5'/>"), "does not start with M"},
      {"a.svg", svg("<path id='sew' d='M0,0 L5,x'/>"),
       "<path id=\"sew\">: the path's data goes wrong at character 9"},
      {"a.svg", svg("<path d='M0,0 L5'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 L5,,5'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 A5,5 0 2 0 9,9'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 z 5,5'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 Lnan,5'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 Linf,5'/>"), "goes wrong"},
      {"a.svg", svg("<path d='M0,0 L1e999,5'/>"), "not finite"},
      {"a.svg", svg("<path d='M0,0 A1e300,1e300 0 0 1 1e300,5 z'/>"), "too many points"},
      {"a.svg", svg("<path d='M0,0 C1e200,0 0,1e200 5,5 z'/>"), "too many points"},
      {"a.svg", svg("<path d='M0,0 L1e7,5'/>"), "more than a kilometre"},
      {"a.svg", svg("<circle r='1e5'/>" + many("<circle r='900000'/>", 60)), "too many points"},
      {"a.svg", svg("<polygon points='0,0 5'/>"), "points cannot be read"},
      {"a.svg", svg("<polygon points='0,0 5,5 a'/>"), "points cannot be read"},
      {"a.svg", svg("<rect width='-5' height='5'/>"), "rectangle's figures"},
      {"a.svg", svg("<rect width='5%' height='5'/>"), "rectangle's figures"},
      {"a.svg", svg("<circle r='x'/>"), "circle cannot be read"},
      {"a.svg", svg("<line x1='a'/>"), "line's ends"},
      {"a.svg", svg("<rect width='5' height='5' transform='rotat(4)'/>"),
       "transform \"rotat(4)\" cannot be read"},
      {"a.svg", svg("<rect width='5' height='5' transform='rotate(4'/>"), "cannot be read"},
      {"a.svg", svg("<rect width='5' height='5' transform='scale(1e400)'/>"), "not finite"},
      {"a.svg", svg("<path d='M0 0" + many("L5 5 6 6 ", 210'000) + "'/>"), "too many points"},
  };
}

const std::string square = "0 LWPOLYLINE|8 cut|90 4|70 1|10 0|20 0|10 50|20 0|10 50|20 30|10 0|20 30";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

std::vector<Broken> broken_dxf() {
  return {
      {"a.dxf", "hello", "no DXF drawing"},
      {"a.dxf", "0\nLINE\n0\nEOF\n", "no DXF drawing"},
      {"a.dxf", std::string("AutoCAD Binary DXF\r\n\x1a\0", 22), "binary DXF"},
      {"a.dxf", dxf(square).substr(0, 100), "cut short"},
      {"a.dxf", replaced(dxf(square), "EOF", ""), "cut short"},
      {"a.dxf", replaced(dxf(square), "  90", "  9x"), "\"9x\" is no DXF group code"},
      {"a.dxf", replaced(dxf(square), "  90", "  99999"), "no DXF group code"},
      {"a.dxf", std::string(10'000'001, '0'), "10 MB large"},
      {"a.dxf", dxf(square, -1), "does not say its units"},
      {"a.dxf", dxf(square, 0), "does not say its units"},
      {"a.dxf", dxf(square, 3), "$INSUNITS 3"},
      {"a.dxf", dxf(""), "nothing is drawn"},
      {"a.dxf", dxf("0 TEXT|8 0|1 Panel"), "nothing is drawn"},
      {"a.dxf", dxf(square), "did you mean \"cut\"", "cutt"},
      {"a.dxf", dxf(square), "there is no layer \"14\"", "14"},
      {"a.dxf", dxf(square + "|0 CIRCLE|8 sew|10 9|20 9|40 5"), "there are 2 closed outlines"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 9|21 0|0 LINE|10 9|20 0|11 9|21 9"), "the outline is open"},
      {"a.dxf", dxf("0 LWPOLYLINE|90 4|70 1|10 0|20 0|10 9|20 9|10 9|20 0|10 0|20 9"),
       "crosses or touches itself"},
      {"a.dxf", dxf("0 LWPOLYLINE|90 4|70 0|10 0|20 0|10 9|20 0|10 9|20 9|10 0|20 9"), "the outline is open"},
      {"a.dxf", dxf("0 INSERT|8 0|2 PANEL|10 0|20 0"), "INSERT cannot be read as lines"},
      {"a.dxf", dxf("0 3DFACE|8 0|10 0|20 0"), "3DFACE cannot be read as lines"},
      {"a.dxf", dxf("0 IMAGE|8 0|10 0|20 0"), "IMAGE cannot be read as lines"},
      {"a.dxf", dxf("0 POLYLINE|66 1|70 64|0 VERTEX|10 0|20 0|0 SEQEND"), "the polyline is a mesh"},
      {"a.dxf", dxf("0 POLYLINE|66 1|70 1|0 VERTEX|10 0|20 0"), "a polyline does not end"},
      {"a.dxf", dxf("0 VERTEX|10 0|20 0"), "outside its polyline"},
      {"a.dxf", dxf("0 POLYLINE|66 1|70 1|0 VERTEX|20 0|0 SEQEND"), "a vertex has no place"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 9"), "group 21 is missing"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 nan|21 0"), "\"nan\" is no finite number"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 1e999|21 0"), "is no finite number"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 1,5|21 0"), "\"1,5\" is no finite number"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|11 1e8|21 0"), "more than a kilometre"},
      {"a.dxf", dxf("0 CIRCLE|10 0|20 0|40 inf"), "is no finite number"},
      {"a.dxf", dxf("0 LINE|10 0|20 0|30 0|11 9|21 0|31 5"), "not flat"},
      {"a.dxf", dxf("0 CIRCLE|10 0|20 0|40 5|210 0.7|220 0|230 0.7"), "not flat"},
      {"a.dxf", dxf("0 LWPOLYLINE|90 4|70 x|10 0|20 0"), "\"x\" is no whole number"},
      {"a.dxf", dxf("0 LWPOLYLINE|90 4|20 0|10 0"), "points are out of order"},
      {"a.dxf", dxf("0 SPLINE|71 3|74 2|11 0|21 0|11 5|21 5"), "fit points only"},
      {"a.dxf", dxf("0 SPLINE|71 3|10 0|20 0|10 1|20 1"), "too few control points"},
      {"a.dxf", dxf("0 SPLINE|71 99|10 0|20 0|10 1|20 1"), "degree is 99"},
      {"a.dxf", dxf("0 SPLINE|71 1|10 0|20 0|10 1|20 1|40 0|40 1"), "2 knots where 4 are needed"},
      {"a.dxf", dxf("0 SPLINE|71 1|10 0|20 0|10 1|20 1|40 0|40 1|40 0|40 1"), "knots run backwards"},
      {"a.dxf", dxf("0 SPLINE|71 1|10 0|20 0|10 1|20 1|40 0|40 0|40 0|40 0"), "leave it no length"},
      {"a.dxf", dxf("0 SPLINE|71 1|10 0|20 0|41 0|10 1|20 1|41 1|40 0|40 0|40 1|40 1"),
       "a weight of the spline"},
      {"a.dxf", dxf("0 SPLINE|71 1|10 0|10 1|20 1|40 0|40 0|40 1|40 1"), "control points are not whole"},
  };
}

void expect_broken(const std::vector<Broken>& all) {
  for (const Broken& row : all) {
    SCOPED_TRACE(std::string(row.words) + " in " + row.text.substr(0, 200));
    DrawingRules rules;
    rules.layer = row.layer;
    const auto outline = read_outline(row.text, row.file, rules);
    ASSERT_FALSE(outline.ok());
    EXPECT_EQ(outline.fault().exit, ExitCode::order);
    EXPECT_EQ(outline.fault().where.rfind(row.file, 0), 0u) << outline.fault().where;
    EXPECT_FALSE(outline.fault().allowed.empty());
    EXPECT_NE(outline.fault().line().find(row.words), std::string::npos) << outline.fault().line();
  }
}

TEST(BrokenDrawings, InSvg) { expect_broken(broken_svg()); }
TEST(BrokenDrawings, InDxf) { expect_broken(broken_dxf()); }

TEST(BrokenDrawings, NameTheLine) {
  const auto svg_fault =
      read_outline("<svg width='9mm' height='9mm'>\n<g>\n<path d='M0 x'/></g></svg>", "a.svg", {});
  ASSERT_FALSE(svg_fault.ok());
  EXPECT_EQ(svg_fault.fault().where, "a.svg:3: <path>");
  const auto dxf_fault = read_outline(dxf("0 LINE|10 0|20 0|11 x|21 0"), "a.dxf", {});
  ASSERT_FALSE(dxf_fault.ok());
  EXPECT_EQ(dxf_fault.fault().where, "a.dxf:26: LINE");
}

// Every beginning of a good file is refused, as far as the file says anything.
TEST(BrokenDrawings, CutAnywhereAreRefused) {
  const std::string whole_svg = test::svg("<path id='p' d='M0,0 C9,9 20,9 30,0 L15,40 Z'/>");
  for (std::size_t n = 0; n + 2 < whole_svg.size(); ++n) {
    EXPECT_FALSE(read_outline(whole_svg.substr(0, n), "a.svg", {}).ok()) << n;
  }
  const std::string whole_dxf = dxf(square);
  for (std::size_t n = 0; n + 3 < whole_dxf.size(); ++n) {
    EXPECT_FALSE(read_outline(whole_dxf.substr(0, n), "a.dxf", {}).ok()) << n;
  }
}

// The greatest drawings allowed come to an end: what took every pair of lines would run into the test's time
// limit.
TEST(BrokenDrawings, OfTenMegabytesComeToAnEnd) {
  const int share = test::light() ? 10 : 1;
  std::string lines;
  for (int i = 0; i < 90'000 / share; ++i) {
    lines += "|0 LINE|8 0|10 " + std::to_string(i) + "|20 " + std::to_string(i % 7) + "|11 " +
             std::to_string(i) + ".5|21 3";
  }
  const auto open = read_outline(dxf(lines.substr(1)), "a.dxf", {});
  ASSERT_FALSE(open.ok());
  EXPECT_NE(open.fault().line().find("is open"), std::string::npos) << open.fault().line();
  const auto star = read_outline(svg(many("<line x2='50' y2='50'/>", 300'000 / share)), "a.svg", {});
  EXPECT_FALSE(star.ok());
}

}  // namespace
}  // namespace crownwright::drawings
