#include "files/mesh_reader.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <fstream>
#include <map>

#include "files/as_reader_child.h"
#include "files/child_message.h"
#include "files/file_kind.h"
#include "files/mesh_writer.h"
#include "files/obj_ply_bytes.h"
#include "files/shapes.h"
#include "files/stl_bytes.h"
#include "files/temp_folder.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using test::bytes_of;
using test::TempFolder;

const bool not_a_child = test::end_if_reader_child();

std::string fault_of(const Result<mesh::TriangleMesh>& read) {
  return read ? "no fault" : read.fault().line();
}

// The table of tests/cases/meshes: each file and what its fault must say.
std::map<std::string, std::string> faults_expected(const std::string& folder) {
  std::map<std::string, std::string> table;
  std::ifstream in(folder + "/faults.txt");
  for (std::string line; std::getline(in, line);) {
    const std::size_t tab = line.find('\t');
    if (!line.starts_with("#")) table[line.substr(0, tab)] = line.substr(tab + 1);
  }
  return table;
}

TEST(MeshReader, EveryBrokenFileHasItsFault) {
  const std::string folder = CW_TEST_DIR "/cases/meshes";
  const auto table = faults_expected(folder);
  EXPECT_GE(table.size(), 40u);
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    EXPECT_TRUE(entry.path().filename() == "faults.txt" || table.contains(entry.path().filename()))
        << entry.path();
  for (const auto& [name, what] : table) {
    const auto read = read_mesh(folder + "/" + name);
    ASSERT_FALSE(read) << name;
    EXPECT_EQ(read.fault().exit, ExitCode::file) << name;
    EXPECT_TRUE(read.fault().line().starts_with(folder + "/" + name)) << read.fault().line();
    EXPECT_NE(read.fault().line().find(what), std::string::npos) << name << ": " << read.fault().line();
  }
}

TEST(MeshReader, WhatIsNoOrdinaryFileIsRefusedAtOnce) {
  const TempFolder folder;
  ASSERT_EQ(::mkfifo(folder.file("pipe.stl").c_str(), 0666), 0);
  ASSERT_EQ(::mkfifo(folder.file("pipe.ply").c_str(), 0666), 0);
  ASSERT_EQ(::mkdir(folder.file("folder.stl").c_str(), 0777), 0);
  ASSERT_EQ(::symlink("loop.stl", folder.file("loop.stl").c_str()), 0);
  folder.put("file", "x");
  const std::pair<const char*, const char*> cases[] = {
      {"pipe.stl", "is not an ordinary file; pipes and devices are not read"},
      {"pipe.ply", "is not an ordinary file; pipes and devices are not read"},
      {"folder.stl", "is a folder; give the name of a file"},
      {"loop.stl", "cannot be opened: Too many levels of symbolic links"},
      {"missing.stl", "cannot be opened: No such file or directory"},
      {"missing.obj", "cannot be opened: No such file or directory"},
      {"file/a.stl", "cannot be opened: Not a directory"}};
  for (const auto& [name, what] : cases)
    EXPECT_EQ(fault_of(read_mesh(folder.file(name))), folder.file(name) + ": " + what);
  EXPECT_EQ(fault_of(read_mesh("/dev/zero")),
            "/dev/zero: is not an ordinary file; pipes and devices are not read");
}

TEST(MeshReader, EveryKindWeWriteIsReadBack) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const TempFolder folder;
  const mesh::TriangleMesh mesh = test::bumpy_sphere(random, 12, 19);
  const std::pair<const char*, std::string> files[] = {
      {"b.STL", bytes_of(mesh, put_stl)},       {"a.stl", bytes_of(mesh, put_stl_ascii)},
      {"a.obj", bytes_of(mesh, put_obj)},       {"b.ply", bytes_of(mesh, put_ply)},
      {"a.Ply", bytes_of(mesh, put_ply_ascii)}, {"stl without ending", bytes_of(mesh, put_stl)}};
  for (const auto& [name, bytes] : files) {
    const auto read = read_mesh(folder.put(name, bytes));
    ASSERT_TRUE(read) << read.fault().line();
    EXPECT_EQ(read->triangles.size(), mesh.triangles.size()) << name;
    EXPECT_EQ(read->vertices.size(), mesh.vertices.size()) << name << ": corners are joined";
    EXPECT_NEAR(test::volume(*read), test::volume(mesh), 1e-6 * test::volume(mesh)) << name;
  }
}

// OFF as in the Geomview manual; quads become triangles. A cube of 10 mm has 1000 mm3.
TEST(MeshReader, OffCube) {
  const TempFolder folder;
  const auto read =
      read_mesh(folder.put("cube.off",
                           "OFF\n8 6 0\n0 0 0\n10 0 0\n10 10 0\n0 10 0\n0 0 10\n10 0 10\n10 10 10\n0 10 10\n"
                           "4 0 3 2 1\n4 4 5 6 7\n4 0 1 5 4\n4 1 2 6 5\n4 2 3 7 6\n4 3 0 4 7\n"));
  ASSERT_TRUE(read) << read.fault().line();
  EXPECT_EQ(read->triangles.size(), 12u);
  EXPECT_EQ(read->vertices.size(), 8u);
  EXPECT_NEAR(test::volume(*read), 1000, 1e-9);
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = group << 8 | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      text += i + k > bytes.size() ? '=' : digits[group >> (18 - 6 * k) & 63];
  }
  return text;
}

// glTF 2.0, section 3.4: metres, Y up. One triangle whose node lifts it by 0.1 m along Y: 100 mm along our Z.
TEST(MeshReader, GltfBecomesMillimetresWithZUp) {
  const std::array<float, 9> corners{0, 0, 0, 0.01f, 0, 0, 0, 0, -0.02f};
  const std::array<std::uint16_t, 3> indices{0, 1, 2};
  std::string buffer(reinterpret_cast<const char*>(corners.data()), 36);
  buffer.append(reinterpret_cast<const char*>(indices.data()), 6);
  const std::string gltf =
      R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0,"translation":[0,0.1,0]}],)"
      R"("meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],)"
      R"("accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3","min":[0,0,-0.02],"max":[0.01,0,0]},)"
      R"({"bufferView":1,"componentType":5123,"count":3,"type":"SCALAR"}],)"
      R"("bufferViews":[{"buffer":0,"byteOffset":0,"byteLength":36},{"buffer":0,"byteOffset":36,"byteLength":6}],)"
      R"("buffers":[{"byteLength":42,"uri":"data:application/octet-stream;base64,)" +
      base64(buffer) + R"("}]})";
  const TempFolder folder;
  const auto read = read_mesh(folder.put("a.gltf", gltf));
  ASSERT_TRUE(read) << read.fault().line();
  ASSERT_EQ(read->vertices.size(), 3u);
  const auto near = [&](mesh::Vertex v) {
    return std::any_of(read->vertices.begin(), read->vertices.end(), [&](const mesh::Vertex& w) {
      return std::abs(v.x - w.x) + std::abs(v.y - w.y) + std::abs(v.z - w.z) < 1e-3f;
    });
  };
  EXPECT_TRUE(near({0, 0, 100}));
  EXPECT_TRUE(near({10, 0, 100}));
  EXPECT_TRUE(near({0, 20, 100}));
}

TEST(MeshReader, FacetLimitHoldsInTheChildToo) {
  const TempFolder folder;
  const std::string path = folder.put("a.obj", bytes_of(test::tetrahedron(), put_obj));
  MeshReadRules rules;
  rules.limits.facets = 4;
  EXPECT_TRUE(read_mesh(path, rules));
  rules.limits.facets = 3;
  EXPECT_EQ(fault_of(read_mesh(path, rules)), path + ": has too many triangles; at most 3 are read");
  rules.limits.bytes = 10;
  EXPECT_NE(fault_of(read_mesh(path, rules)).find("MB long; at most"), std::string::npos);
}

// A header that promises twenty million vertices keeps Assimp busy for a minute.
TEST(MeshReader, WorkLimitHoldsInTheChild) {
  const TempFolder folder;
  const std::string path = folder.put("a.ply",
                                      "ply\nformat ascii 1.0\nelement vertex 20000000\nproperty float x\n"
                                      "property float y\nproperty float z\nelement face 1\n"
                                      "property list uchar int vertex_indices\nend_header\n0 0 0\n");
  MeshReadRules rules;
  rules.cpu_seconds = 1;
  rules.time = std::chrono::minutes(4);
  EXPECT_TRUE(fault_of(read_mesh(path, rules))
                  .starts_with(path + ": cannot be read: its reader was still at it after 1 s of work"));
}

TEST(MeshReader, MemoryLimitHoldsInTheChild) {
  std::mt19937_64 random(5);
  const TempFolder folder;
  const std::string path = folder.put("a.obj", bytes_of(test::bumpy_sphere(random, 100, 200), put_obj));
  MeshReadRules rules;
  EXPECT_TRUE(read_mesh(path, rules));
  rules.memory = 1'000'000;
  if (test::has_address_sanitizer()) {
    EXPECT_TRUE(read_mesh(path, rules)) << "AddressSanitizer itself needs terabytes: no limit there";
    return;
  }
  EXPECT_EQ(fault_of(read_mesh(path, rules)),
            path + ": cannot be read: its reader needs more than 1 MB of memory");
}

// A reader that is a small script: every way a child can go wrong.
std::string fault_with_reader(const std::string& script, MeshReadRules rules = {}) {
  const TempFolder folder;
  rules.reader_program = folder.put("reader", "#!/bin/sh\n" + script + "\n");
  ::chmod(rules.reader_program.c_str(), 0755);
  std::string line = fault_of(read_mesh(folder.put("a.ply", "ply\n"), rules));
  EXPECT_TRUE(line.starts_with(folder.file("a.ply") + ": ")) << line;
  return line.substr(line.find(": ") + 2);
}

TEST(MeshReader, EveryDeathOfTheChildIsSaid) {
  const std::string damaged = "; the file is damaged or not what its name says";
  EXPECT_EQ(fault_with_reader("kill -SEGV $$"),
            "cannot be read: its reader died (Segmentation fault)" + damaged);
  EXPECT_EQ(fault_with_reader("kill -ABRT $$"), "cannot be read: its reader died (Aborted)" + damaged);
  EXPECT_EQ(fault_with_reader("kill -KILL $$"), "cannot be read: its reader died (Killed)" + damaged);
  EXPECT_EQ(fault_with_reader("kill -XCPU $$"),
            "cannot be read: its reader was still at it after 20 s of work" + damaged);
  EXPECT_EQ(fault_with_reader("exit 1"), "cannot be read: its reader ended without a word" + damaged);
  EXPECT_EQ(fault_with_reader("exit 0"), "cannot be read: its reader gave no sense");
  EXPECT_EQ(fault_with_reader("echo 'a long sentence that is no message at all'"),
            "cannot be read: its reader gave no sense");
}

TEST(MeshReader, ChildThatNeverEndsIsEnded) {
  MeshReadRules rules;
  rules.time = std::chrono::milliseconds(300);
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_EQ(fault_with_reader("exec sleep 60", rules), "cannot be read: its reader was not done after 0.3 s");
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20));
}

TEST(MeshReader, ChildThatNeverStopsTalkingIsEnded) {
  MeshReadRules rules;
  rules.limits.facets = 10;
  EXPECT_EQ(fault_with_reader("exec cat /dev/zero", rules), "cannot be read: its reader never stops talking");
}

TEST(MeshReader, ReaderThatDoesNotStartIsSaid) {
  const TempFolder folder;
  MeshReadRules rules;
  rules.reader_program = folder.file("none");
  EXPECT_EQ(fault_of(read_mesh(folder.put("a.ply", "ply\n"), rules)),
            folder.file("a.ply") + ": cannot be read: the reader " + folder.file("none") +
                " does not start: No such file or directory");
}

// The child holds no file of ours open but its three: what is open here must not be there.
TEST(MeshReader, ChildSeesNoOpenFilesOfOurs) {
  const TempFolder folder;
  const int open_here = ::open(folder.put("secret", "x").c_str(), O_RDONLY);
  ASSERT_GE(open_here, 0);
  const std::string seen = folder.file("seen");
  fault_with_reader("ls -l /proc/$$/fd > " + seen + "\nexit 1");
  ::close(open_here);
  EXPECT_NE(test::content_of(seen).find("pipe"), std::string::npos);
  EXPECT_EQ(test::content_of(seen).find("secret"), std::string::npos) << test::content_of(seen);
}

// Assimp crashes on about one in twenty of these; we do not.
TEST(MeshReader, DamagedPlyNeverReachesUs) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const TempFolder folder;
  const std::string good = bytes_of(test::bumpy_sphere(random, 5, 6), put_ply);
  MeshReadRules rules;
  rules.memory = 400'000'000;  // a count that lies would else fill 2 GB with zeros first
  int refused = 0;
  for (int trial = 0; trial < 200; ++trial) {
    std::string bytes = good;
    for (int flip = 0; flip < 8; ++flip) bytes[random() % bytes.size()] = static_cast<char>(random());
    const auto read = read_mesh(folder.put("a.ply", bytes), rules);
    if (!read) {
      ++refused;
      EXPECT_EQ(read.fault().exit, ExitCode::file);
      EXPECT_TRUE(read.fault().where == folder.file("a.ply"));
    } else {
      for (const mesh::Triangle& t : read->triangles)
        ASSERT_LT(*std::max_element(t.begin(), t.end()), read->vertices.size());
    }
  }
  EXPECT_GT(refused, 20);
}

// ---- the message between child and parent

TEST(ChildMessage, CarriesAMeshAndAFault) {
  const auto mesh = understand_message(child_message(test::tetrahedron()), "p");
  ASSERT_TRUE(mesh);
  EXPECT_EQ(mesh->vertices, test::tetrahedron().vertices);
  EXPECT_EQ(mesh->triangles, test::tetrahedron().triangles);
  const auto fault = understand_message(child_message(file_fault("child's name", "is bad", "be good")), "p");
  ASSERT_FALSE(fault);
  EXPECT_EQ(fault.fault().line(), "p: is bad; be good");
  EXPECT_EQ(fault.fault().exit, ExitCode::file);
}

TEST(ChildMessage, NothingInItIsBelieved) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const std::vector<std::byte> good = child_message(test::tetrahedron());
  for (std::size_t size = 0; size < good.size(); ++size)
    EXPECT_FALSE(understand_message(std::span(good).first(size), "p")) << size;
  for (int trial = 0; trial < 20'000; ++trial) {
    std::vector<std::byte> bytes = good;
    bytes[random() % bytes.size()] = static_cast<std::byte>(random());
    const auto read = understand_message(bytes, "p");
    if (!read) continue;
    for (const mesh::Triangle& t : read->triangles) ASSERT_LT(*std::max_element(t.begin(), t.end()), 4u);
    for (const mesh::Vertex& v : read->vertices) ASSERT_TRUE(v.x * 0 == 0 && v.y * 0 == 0 && v.z * 0 == 0);
  }
}

TEST(RunAsReaderChild, OnlyForTheHiddenArgument) {
  const char* const plain[] = {"crownwright", "check", "a.stl"};
  EXPECT_EQ(run_as_reader_child(3, plain), std::nullopt);
  EXPECT_EQ(run_as_reader_child(1, plain), std::nullopt);
  const char* const wrong[] = {"crownwright", "--read-mesh-child", "a.ply", "many", "1", "1", "1"};
  EXPECT_EQ(run_as_reader_child(7, wrong), 2);
  EXPECT_EQ(run_as_reader_child(3, wrong), 2);
}

TEST(KindOfName, IsTheEndingInSmallLetters) {
  EXPECT_EQ(kind_of_name("/a.b/Dish.STL"), "stl");
  EXPECT_EQ(kind_of_name("/a.b/dish"), "");
  EXPECT_EQ(kind_of_name(".stl"), "");
  EXPECT_EQ(kind_of_name("a."), "");
}

}  // namespace
}  // namespace crownwright::files
