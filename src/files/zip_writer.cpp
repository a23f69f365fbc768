#include "files/zip_writer.h"

#include <zip.h>

#include <memory>
#include <new>
#include <stdexcept>

namespace crownwright::files {
namespace {

constexpr zip_uint16_t midnight = 0, first_of_1980 = 1 << 5 | 1;  // MS-DOS: year - 1980, month, day
constexpr zip_uint32_t deflate_level = 6;

struct FreeZipSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using ZipSource = std::unique_ptr<zip_source_t, FreeZipSource>;

[[noreturn]] void zip_failed(const char* said) {
  throw std::runtime_error(std::string("the zip library: ") + said);
}

void add_entry(zip_t* zip, const ZipEntry& entry) {
  zip_source_t* const content = zip_source_buffer(zip, entry.content.data(), entry.content.size(), 0);
  if (content == nullptr) throw std::bad_alloc();
  const zip_int64_t added = zip_file_add(zip, entry.name.c_str(), content, ZIP_FL_ENC_UTF_8);
  if (added < 0) {
    zip_source_free(content);
    zip_failed(zip_strerror(zip));
  }
  const auto index = static_cast<zip_uint64_t>(added);
  const zip_int32_t method = entry.deflated ? ZIP_CM_DEFLATE : ZIP_CM_STORE;
  if (zip_set_file_compression(zip, index, method, deflate_level) != 0 ||
      zip_file_set_dostime(zip, index, midnight, first_of_1980, 0) != 0)
    zip_failed(zip_strerror(zip));
}

std::vector<std::byte> content_of_source(zip_source_t* source) {
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_source_stat(source, &stat) != 0 || zip_source_open(source) != 0)
    zip_failed("the archive cannot be read back");
  std::vector<std::byte> bytes(static_cast<std::size_t>(stat.size));
  const zip_int64_t got = zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  if (got != static_cast<zip_int64_t>(bytes.size())) zip_failed("the archive cannot be read back");
  return bytes;
}

}  // namespace

std::vector<std::byte> zipped(const std::vector<ZipEntry>& entries) {
  zip_error_t error;
  zip_error_init(&error);
  const ZipSource archive(zip_source_buffer_create(nullptr, 0, 0, &error));
  if (archive == nullptr) throw std::bad_alloc();
  zip_t* const zip = zip_open_from_source(archive.get(), ZIP_CREATE | ZIP_TRUNCATE, &error);
  if (zip == nullptr) zip_failed(zip_error_strerror(&error));
  zip_source_keep(archive.get());  // closing gives its own hold up
  std::unique_ptr<zip_t, void (*)(zip_t*)> unless_closed(zip, [](zip_t* z) { zip_discard(z); });
  for (const ZipEntry& entry : entries) add_entry(zip, entry);
  if (zip_close(zip) != 0) zip_failed(zip_strerror(zip));
  static_cast<void>(unless_closed.release());
  return content_of_source(archive.get());
}

}  // namespace crownwright::files
