// Several mesh files side by side in one picture: draw_parts OUT.png WIDTHxHEIGHT FILE.stl ...

#include <cstdio>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "drawings/picture.h"
#include "files/stl_reader.h"

int main(int argc, char** argv) {
  using namespace crownwright;
  drawings::PictureRules rules;
  if (argc < 4 || std::sscanf(argv[2], "%dx%d", &rules.width, &rules.height) != 2) {
    std::cerr << "usage: draw_parts OUT.png WIDTHxHEIGHT FILE.stl ...\n";
    return 2;
  }
  rules.round = -15;
  std::vector<mesh::TriangleMesh> meshes;
  for (int i = 3; i < argc; ++i) {
    auto mesh = files::read_stl(argv[i]);
    if (!mesh) {
      std::cerr << mesh.fault().line() << "\n";
      return 1;
    }
    meshes.push_back(*std::move(mesh));
  }
  std::vector<drawings::PicturedMesh> pictured;
  double x = 0;
  for (const mesh::TriangleMesh& mesh : meshes) {
    const mesh::Box box = mesh::box_of(mesh);
    pictured.push_back({&mesh, mesh::moved(x - box.low.x, -(box.low.y + box.high.y) / 2, 0)});
    x += box.high.x - box.low.x + 15;
  }
  const std::string png = drawings::picture_png(pictured, rules);
  std::ofstream(argv[1], std::ios::binary) << png;
  return 0;
}
