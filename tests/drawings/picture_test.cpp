#include "drawings/picture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <set>

#include "support/grey_picture.h"

namespace crownwright::drawings {
namespace {

mesh::TriangleMesh box(float x, float y, float z) {
  return {{{0, 0, 0}, {x, 0, 0}, {x, y, 0}, {0, y, 0}, {0, 0, z}, {x, 0, z}, {x, y, z}, {0, y, z}},
          {{0, 2, 1},
           {0, 3, 2},
           {4, 5, 6},
           {4, 6, 7},
           {0, 1, 5},
           {0, 5, 4},
           {1, 2, 6},
           {1, 6, 5},
           {2, 3, 7},
           {2, 7, 6},
           {3, 0, 4},
           {3, 4, 7}}};
}

mesh::TriangleMesh ball(double radius) {
  constexpr std::uint32_t rows = 60, columns = 120;
  mesh::TriangleMesh mesh;
  for (std::uint32_t i = 0; i <= rows; ++i) {
    for (std::uint32_t j = 0; j < columns; ++j) {
      const double p = std::numbers::pi * i / rows, t = 2 * std::numbers::pi * j / columns;
      mesh.vertices.push_back({static_cast<float>(radius * std::sin(p) * std::cos(t)),
                               static_cast<float>(radius * std::sin(p) * std::sin(t)),
                               static_cast<float>(radius * std::cos(p))});
    }
  }
  for (std::uint32_t i = 0; i < rows; ++i) {
    for (std::uint32_t j = 0; j < columns; ++j) {
      const std::uint32_t a = i * columns + j, b = i * columns + (j + 1) % columns;
      mesh.triangles.push_back({a, a + columns, b + columns});
      mesh.triangles.push_back({a, b + columns, b});
    }
  }
  return mesh;
}

using crownwright::test::GreyPicture;
using crownwright::test::read_png;

double share_of_ink(const GreyPicture& picture) {
  const auto inked =
      std::count_if(picture.grey.begin(), picture.grey.end(), [](unsigned char g) { return g < 250; });
  return static_cast<double>(inked) / static_cast<double>(picture.grey.size());
}

TEST(Picture, IsAGreyPngOfTheSizeAsked) {
  const mesh::TriangleMesh cube = box(10, 10, 10);
  PictureRules rules;
  rules.width = 200, rules.height = 100;
  const GreyPicture picture = read_png(picture_png({{&cube, {}, 0.8}}, rules));
  EXPECT_EQ(picture.width, 200);
  EXPECT_EQ(picture.height, 100);
  EXPECT_TRUE(picture.all_grey);
  for (const auto& [x, y] : {std::pair(0, 0), std::pair(199, 0), std::pair(0, 99), std::pair(199, 99)})
    EXPECT_EQ(picture.at(x, y), 255);
}

// PNG specification, section 11: no tIME, tEXt, zTXt or iTXt, so nothing of the hour or the machine.
TEST(Picture, SameMeshesSameBytesAndNoDates) {
  const mesh::TriangleMesh cube = box(10, 20, 30);
  const std::string png = picture_png({{&cube, {}, 0.8}});
  EXPECT_EQ(picture_png({{&cube, {}, 0.8}}), png);
  std::set<std::string> chunks;
  for (std::size_t at = 8; at + 8 <= png.size();) {
    std::uint32_t length = 0;
    for (std::size_t k = 0; k < 4; ++k) length = length << 8 | static_cast<unsigned char>(png[at + k]);
    chunks.insert(png.substr(at + 4, 4));
    at += 12 + length;
  }
  EXPECT_EQ(chunks.count("IHDR") + chunks.count("IDAT") + chunks.count("IEND"), 3u);
  for (const char* dated : {"tIME", "tEXt", "zTXt", "iTXt"}) EXPECT_FALSE(chunks.contains(dated)) << dated;
}

// A ball is a disc from anywhere: it covers pi/4 of the square within the margin, and a pixel round it that
// it covers in part (0.011 of this picture).
TEST(Picture, BallIsADiscFromEverywhere) {
  const mesh::TriangleMesh globe = ball(40);
  for (const double up : {5.0, 32.0, 80.0}) {
    PictureRules rules;
    rules.up = up;
    rules.round = 2 * up;
    const GreyPicture picture = read_png(picture_png({{&globe, mesh::moved(100, -50, 7), 0.8}}, rules));
    const double expected = std::numbers::pi / 4 * (1 - 2 * rules.margin) * (1 - 2 * rules.margin);
    EXPECT_NEAR(share_of_ink(picture), expected, 0.015) << up;
    EXPECT_LT(picture.at(128, 128), 250);
    EXPECT_EQ(picture.at(40, 40), 255) << "outside the disc";
  }
}

// Parallel projection of a box: the sum of its faces' areas times the cosines to the eye, over the window's.
TEST(Picture, BoxCoversWhatProjectionSays) {
  const mesh::TriangleMesh brick = box(30, 20, 10);
  const double up = 40 * std::numbers::pi / 180, round = 25 * std::numbers::pi / 180;
  PictureRules rules;
  rules.up = 40, rules.round = 25, rules.width = rules.height = 512;
  const double cx = std::abs(std::sin(round)) * std::cos(up), cy = std::cos(round) * std::cos(up),
               cz = std::sin(up);
  const double area = 20 * 10 * cx + 30 * 10 * cy + 30 * 20 * cz;
  const double wide = 30 * std::cos(round) + 20 * std::sin(round);
  const double high = (30 * std::sin(round) + 20 * std::cos(round)) * std::sin(up) + 10 * std::cos(up);
  const double side = std::max(wide, high) / (1 - 2 * rules.margin);
  const GreyPicture picture = read_png(picture_png({{&brick, {}, 0.8}}, rules));
  EXPECT_NEAR(share_of_ink(picture), area / (side * side), 0.012);
}

// Seen from the front: x to the right, z upwards, what has less y is nearer; light from the upper left.
TEST(Picture, StandsTheRightWayRound) {
  const mesh::TriangleMesh cube = box(10, 10, 10);
  PictureRules rules;
  rules.up = 30, rules.round = 0;
  const auto darkest = [](const GreyPicture& picture) {
    const auto least = std::min_element(picture.grey.begin(), picture.grey.end()) - picture.grey.begin();
    return std::pair(static_cast<int>(least) % picture.width, static_cast<int>(least) / picture.width);
  };
  const PicturedMesh light{&cube, {}, 1};
  EXPECT_GT(darkest(read_png(picture_png({light, {&cube, mesh::moved(40, 0, 0), 0}}, rules))).first, 170);
  EXPECT_LT(darkest(read_png(picture_png({light, {&cube, mesh::moved(-40, 0, 0), 0}}, rules))).first, 86);
  EXPECT_LT(darkest(read_png(picture_png({light, {&cube, mesh::moved(0, 0, 40), 0}}, rules))).second, 86);
  EXPECT_GT(darkest(read_png(picture_png({light, {&cube, mesh::moved(0, 0, -40), 0}}, rules))).second, 170);
}

TEST(Picture, WhatIsNearerHidesWhatIsFarther) {
  const mesh::TriangleMesh wall = box(100, 10, 100), small = box(20, 5, 20);
  PictureRules rules;
  rules.up = 10, rules.round = 0;
  const PicturedMesh light{&wall, {}, 1};
  const auto ink = [&](double y) {
    const GreyPicture picture = read_png(picture_png({light, {&small, mesh::moved(40, y, 40), 0}}, rules));
    return std::count_if(picture.grey.begin(), picture.grey.end(), [](int g) { return g < 20; });
  };
  EXPECT_GT(ink(-30), 1000);
  EXPECT_EQ(ink(30), 0);
  const GreyPicture swapped = read_png(picture_png({{&small, mesh::moved(40, -30, 40), 0}, light}, rules));
  EXPECT_GT(std::count_if(swapped.grey.begin(), swapped.grey.end(), [](int g) { return g < 20; }), 1000)
      << "whatever the order";
}

TEST(Picture, FacesAreToldApartByTheirShade) {
  const mesh::TriangleMesh cube = box(10, 10, 10);
  const GreyPicture picture = read_png(picture_png({{&cube, {}, 0.9}}));
  std::vector<int> count(256, 0);
  for (const int g : picture.grey) ++count[static_cast<std::size_t>(g)];
  std::vector<int> tones;
  for (int g = 0; g < 250; ++g) {
    if (count[static_cast<std::size_t>(g)] > 2000) tones.push_back(g);
  }
  ASSERT_EQ(tones.size(), 3u) << "top, left and right";
  EXPECT_GT(tones[1] - tones[0], 20);
  EXPECT_GT(tones[2] - tones[1], 20);
}

TEST(Picture, FacetsFromBehindAreLeftOut) {
  const mesh::TriangleMesh towards{{{0, 0, 0}, {9, 0, 0}, {0, 9, 0}}, {{0, 1, 2}}};
  const mesh::TriangleMesh away{{{0, 0, 0}, {9, 0, 0}, {0, 9, 0}}, {{0, 2, 1}}};
  EXPECT_GT(share_of_ink(read_png(picture_png({{&towards, {}, 0.8}}))), 0.1);
  EXPECT_EQ(share_of_ink(read_png(picture_png({{&away, {}, 0.8}}))), 0);
}

TEST(Picture, PromisesAreKept) {
  const mesh::TriangleMesh cube = box(1, 1, 1), none;
  EXPECT_THROW(picture_png({}), std::logic_error);
  EXPECT_THROW(picture_png({{&none, {}, 0.8}}), std::logic_error);
  EXPECT_THROW(picture_png({{nullptr, {}, 0.8}}), std::logic_error);
  EXPECT_THROW(picture_png({{&cube, {}, 1.5}}), std::logic_error);
  PictureRules rules;
  rules.width = 5000;
  EXPECT_THROW(picture_png({{&cube, {}, 0.8}}, rules), std::logic_error);
}

}  // namespace
}  // namespace crownwright::drawings
