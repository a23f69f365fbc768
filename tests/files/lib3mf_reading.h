#pragma once
// A package as lib3mf sees it: an independent reader (its version 1 C interface).

#include <Model/COM/NMR_DLLInterfaces.h>
#include <gtest/gtest.h>

#include <array>
#include <map>
#include <string>
#include <vector>

#include "mesh/triangle_mesh.h"

extern "C" {
void __lsan_disable() __attribute__((weak));
void __lsan_enable() __attribute__((weak));
}

namespace crownwright::test {

// lib3mf 1.8.1 does not give back all it takes from libzip; under the leak sanitizer that is its own affair.
class Lib3mfLeaks {
 public:
  Lib3mfLeaks() {
    if (__lsan_disable != nullptr) __lsan_disable();
  }
  ~Lib3mfLeaks() {
    if (__lsan_enable != nullptr) __lsan_enable();
  }
  Lib3mfLeaks(const Lib3mfLeaks&) = delete;
  Lib3mfLeaks& operator=(const Lib3mfLeaks&) = delete;
};

struct Lib3mfItem {
  std::string name, part_number;
  mesh::TriangleMesh mesh;  ///< unplaced
  std::array<double, 12> place{};
  bool manifold_and_oriented = false, valid = false;
};

struct Lib3mfReading {
  bool read = false;
  unsigned warnings = 0;
  std::string error;
  bool is_millimetre = false;
  std::vector<Lib3mfItem> items;
  std::map<std::string, std::string> metadata;
};

// Everything handed out by the library is to be given back.
template <class T>
class Lib3mfOwned {
 public:
  ~Lib3mfOwned() {
    if (pointer != nullptr) NMR::lib3mf_release(pointer);
  }
  T* pointer = nullptr;
};

template <class Ask>
std::string lib3mf_text(Ask ask) {
  std::string text(1000, '\0');
  ULONG needed = 0;
  if (ask(text.data(), static_cast<ULONG>(text.size()), &needed) != 0) return "(no text)";
  return text.substr(0, text.find('\0'));
}

inline Lib3mfItem lib3mf_item(NMR::PLib3MFModelBuildItem* item) {
  Lib3mfItem seen;
  Lib3mfOwned<NMR::PLib3MFModelObjectResource> object;
  EXPECT_EQ(NMR::lib3mf_builditem_getobjectresource(item, &object.pointer), 0);
  seen.name = lib3mf_text([&](char* t, ULONG n, ULONG* needed) {
    return NMR::lib3mf_object_getnameutf8(object.pointer, t, n, needed);
  });
  seen.part_number = lib3mf_text([&](char* t, ULONG n, ULONG* needed) {
    return NMR::lib3mf_builditem_getpartnumberutf8(item, t, n, needed);
  });
  NMR::MODELTRANSFORM place{};
  EXPECT_EQ(NMR::lib3mf_builditem_getobjecttransform(item, &place), 0);
  for (std::size_t row = 0; row < 4; ++row) {
    for (std::size_t column = 0; column < 3; ++column)
      seen.place[3 * row + column] = place.m_fFields[column][row];
  }
  auto* const mesh = static_cast<NMR::PLib3MFModelMeshObject*>(object.pointer);
  BOOL good = 0;
  EXPECT_EQ(NMR::lib3mf_meshobject_ismanifoldandoriented(mesh, &good), 0);
  seen.manifold_and_oriented = good != 0;
  EXPECT_EQ(NMR::lib3mf_object_isvalidobject(object.pointer, &good), 0);
  seen.valid = good != 0;
  DWORD vertices = 0, triangles = 0;
  NMR::lib3mf_meshobject_getvertexcount(mesh, &vertices);
  NMR::lib3mf_meshobject_gettrianglecount(mesh, &triangles);
  for (DWORD k = 0; k < vertices; ++k) {
    NMR::MODELMESHVERTEX v{};
    NMR::lib3mf_meshobject_getvertex(mesh, k, &v);
    seen.mesh.vertices.push_back({v.m_fPosition[0], v.m_fPosition[1], v.m_fPosition[2]});
  }
  for (DWORD k = 0; k < triangles; ++k) {
    NMR::MODELMESHTRIANGLE t{};
    NMR::lib3mf_meshobject_gettriangle(mesh, k, &t);
    seen.mesh.triangles.push_back({t.m_nIndices[0], t.m_nIndices[1], t.m_nIndices[2]});
  }
  return seen;
}

inline Lib3mfReading read_by_lib3mf(const std::string& path) {
  const Lib3mfLeaks unwatched;
  Lib3mfReading seen;
  Lib3mfOwned<NMR::PLib3MFModel> model;
  Lib3mfOwned<NMR::PLib3MFModelReader> reader;
  EXPECT_EQ(NMR::lib3mf_createmodel(&model.pointer), 0);
  EXPECT_EQ(NMR::lib3mf_model_queryreader(model.pointer, "3mf", &reader.pointer), 0);
  seen.read = NMR::lib3mf_reader_readfromfileutf8(reader.pointer, path.c_str()) == 0;
  DWORD warnings = 0, code = 0;
  NMR::lib3mf_reader_getwarningcount(reader.pointer, &warnings);
  seen.warnings = static_cast<unsigned>(warnings);
  LPCSTR message = nullptr;
  if (!seen.read && NMR::lib3mf_getlasterror(reader.pointer, &code, &message) == 0 && message != nullptr)
    seen.error = message;
  if (!seen.read) return seen;
  DWORD unit = 99, count = 0;
  NMR::lib3mf_model_getunit(model.pointer, &unit);
  seen.is_millimetre = unit == NMR::MODELUNIT_MILLIMETER;
  NMR::lib3mf_model_getmetadatacount(model.pointer, &count);
  for (DWORD k = 0; k < count; ++k) {
    const std::string key = lib3mf_text([&](char* t, ULONG n, ULONG* needed) {
      return NMR::lib3mf_model_getmetadatakeyutf8(model.pointer, k, t, n, needed);
    });
    seen.metadata[key] = lib3mf_text([&](char* t, ULONG n, ULONG* needed) {
      return NMR::lib3mf_model_getmetadatavalueutf8(model.pointer, k, t, n, needed);
    });
  }
  Lib3mfOwned<NMR::PLib3MFModelBuildItemIterator> items;
  EXPECT_EQ(NMR::lib3mf_model_getbuilditems(model.pointer, &items.pointer), 0);
  for (BOOL more = 0; NMR::lib3mf_builditemiterator_movenext(items.pointer, &more) == 0 && more != 0;) {
    Lib3mfOwned<NMR::PLib3MFModelBuildItem> item;
    EXPECT_EQ(NMR::lib3mf_builditemiterator_getcurrent(items.pointer, &item.pointer), 0);
    seen.items.push_back(lib3mf_item(item.pointer));
  }
  return seen;
}

}  // namespace crownwright::test
