#include "files/zip_reader.h"

#include <zip.h>

#include <algorithm>
#include <map>
#include <stdexcept>

#include "base/ascii.h"
#include "base/length.h"
#include "base/printable.h"
#include "files/read_file.h"

namespace crownwright::files {
namespace {

// ---- the end of the archive's directory, looked at before libzip makes room for what it promises

constexpr std::size_t end_record = 22, longest_comment = 65535, far_locator = 20, far_record = 56;

std::uint64_t little_endian(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint64_t value = 0;
  for (std::size_t k = count; k-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes[at + k]);
  return value;
}

// APPNOTE.TXT 4.3.14 and 4.3.15: the record for archives whose numbers do not fit into the old one.
std::optional<std::uint64_t> far_entry_count(std::string_view bytes, std::size_t end) {
  if (end < far_locator || bytes.substr(end - far_locator, 4) != "PK\6\7") return std::nullopt;
  const std::uint64_t at = little_endian(bytes, end - far_locator + 8, 8);
  if (at > bytes.size() || bytes.size() - at < far_record) return std::nullopt;
  const auto record = static_cast<std::size_t>(at);
  if (bytes.substr(record, 4) != "PK\6\6") return std::nullopt;
  return std::max(little_endian(bytes, record + 24, 8), little_endian(bytes, record + 32, 8));
}

// Entries promised by the record that ends with the archive; none when there is no such record.
std::optional<std::uint64_t> promised_entries(std::string_view bytes) {
  if (bytes.size() < end_record) return std::nullopt;
  const std::size_t last = bytes.size() - end_record;
  std::size_t at = last > longest_comment ? last - longest_comment : 0;
  for (at = bytes.find("PK\5\6", at); at <= last; at = bytes.find("PK\5\6", at + 1)) {
    if (at + end_record + little_endian(bytes, at + 20, 2) != bytes.size()) continue;
    const std::uint64_t near = std::max(little_endian(bytes, at + 8, 2), little_endian(bytes, at + 10, 2));
    return far_entry_count(bytes, at).value_or(near);
  }
  return std::nullopt;
}

// ---- names

bool has_control_character(std::string_view name) {
  return std::any_of(name.begin(), name.end(),
                     [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

// True when a name stays within the folder an archive would be unpacked to, on any system.
bool stays_inside(std::string_view name) {
  if (name.empty() || name.front() == '/' || name.find('\\') != std::string_view::npos) return false;
  if (name.find(':') != std::string_view::npos) return false;
  while (!name.empty()) {
    const std::size_t slash = std::min(name.find('/'), name.size());
    const std::string_view segment = name.substr(0, slash);
    if (segment.empty() || segment == "." || segment == "..") return false;
    name.remove_prefix(std::min(slash + 1, name.size()));
  }
  return true;
}

struct CloseEntry {
  void operator()(zip_file_t* entry) const { zip_fclose(entry); }
};

}  // namespace

struct ZipReader::Archive {
  struct CloseZip {
    void operator()(zip_t* opened) const { zip_discard(opened); }
  };
  std::string where;
  std::unique_ptr<zip_t, CloseZip> zip;
  std::vector<std::string> names;
  std::vector<zip_uint64_t> index, size;
  std::map<std::string, std::size_t> by_name;

  Fault damaged(const std::string& what) const {
    return file_fault(where, "is no whole ZIP archive: " + what,
                      "the file is damaged or not what its name says");
  }

  Result<Done> list(const ZipLimits& limits) {
    const zip_int64_t count = zip_get_num_entries(zip.get(), 0);
    std::uint64_t unpacked = 0;
    for (zip_uint64_t k = 0; k < static_cast<zip_uint64_t>(std::max<zip_int64_t>(count, 0)); ++k) {
      zip_stat_t stat;
      zip_stat_init(&stat);
      if (zip_stat_index(zip.get(), k, ZIP_FL_ENC_RAW, &stat) != 0) return damaged(zip_strerror(zip.get()));
      constexpr zip_uint64_t needed = ZIP_STAT_NAME | ZIP_STAT_SIZE;
      if ((stat.valid & needed) != needed) return damaged("an entry has no name or no size");
      if (const Result<Done> added = add(stat); !added) return added;
      unpacked += std::min<std::uint64_t>(stat.size, limits.unpacked + 1);
      if (unpacked > limits.unpacked)
        return file_fault(where, std::string("unpacks to more than ") + megabytes_of(limits.unpacked),
                          std::string("at most ") + megabytes_of(limits.unpacked) + " are read");
    }
    return Done{};
  }

  static std::string megabytes_of(std::uint64_t bytes) {
    return number_text(static_cast<double>(bytes) / 1e6, 1) + " MB";
  }

  Result<Done> add(const zip_stat_t& stat) {
    const std::string name = stat.name;
    const std::string quoted = std::string("\"") + printable(name, 100) + "\"";
    if (!is_utf8(name) || has_control_character(name) || !stays_inside(name))
      return file_fault(where, "holds an entry named " + quoted + ", which leads out of the package",
                        "names are relative, with forward slashes and without \"..\"");
    if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE)
      return file_fault(where, "holds the encrypted entry " + quoted, "nothing encrypted can be read");
    if ((stat.valid & ZIP_STAT_COMP_METHOD) != 0 && stat.comp_method != ZIP_CM_STORE &&
        stat.comp_method != ZIP_CM_DEFLATE)
      return file_fault(where,
                        "holds the entry " + quoted + " packed by method " + std::to_string(stat.comp_method),
                        "stored or deflated entries");
    if (!by_name.emplace(lower_case(name), names.size()).second)
      return file_fault(where, "holds the entry " + quoted + " twice", "every name once");
    if (name.back() == '/') {
      by_name.erase(lower_case(name));
      return Done{};
    }
    names.push_back(name);
    index.push_back(stat.index);
    size.push_back(stat.size);
    return Done{};
  }
};

ZipReader::ZipReader(std::unique_ptr<Archive> archive) : archive_(std::move(archive)) {}
ZipReader::~ZipReader() = default;
ZipReader::ZipReader(ZipReader&&) noexcept = default;
ZipReader& ZipReader::operator=(ZipReader&&) noexcept = default;

Result<ZipReader> ZipReader::open(std::span<const std::byte> bytes, const std::string& where,
                                  const ZipLimits& limits) {
  auto archive = std::make_unique<Archive>();
  archive->where = where;
  const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  const std::optional<std::uint64_t> promised = promised_entries(text);
  if (!promised) return archive->damaged("its directory, which stands at the end, is missing");
  if (*promised > limits.entries)
    return file_fault(where, std::string("holds ") + std::to_string(*promised) + " entries",
                      std::string("at most ") + std::to_string(limits.entries) + " are read");
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* const source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source == nullptr) throw std::bad_alloc();
  archive->zip.reset(zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error));
  if (archive->zip == nullptr) {
    zip_source_free(source);
    const bool is_twice = zip_error_code_zip(&error) == ZIP_ER_EXISTS;
    const std::string said = zip_error_strerror(&error);
    zip_error_fini(&error);
    if (is_twice) return file_fault(where, "holds two entries of the same name", "every name once");
    return archive->damaged(said);
  }
  zip_error_fini(&error);
  if (const Result<Done> listed = archive->list(limits); !listed) return listed.fault();
  return ZipReader(std::move(archive));
}

const std::vector<std::string>& ZipReader::names() const { return archive_->names; }

std::optional<std::size_t> ZipReader::find(std::string_view name) const {
  const auto found = archive_->by_name.find(lower_case(name));
  if (found == archive_->by_name.end()) return std::nullopt;
  return found->second;
}

Result<std::string> ZipReader::read(std::size_t entry) const {
  const Archive& archive = *archive_;
  const std::string place = archive.where + ": " + archive.names.at(entry);
  const std::string damaged = "the file is damaged";
  const std::unique_ptr<zip_file_t, CloseEntry> file(
      zip_fopen_index(archive.zip.get(), archive.index[entry], 0));
  if (file == nullptr)
    return file_fault(place, std::string("cannot be unpacked: ") + zip_strerror(archive.zip.get()), damaged);
  std::string content(static_cast<std::size_t>(archive.size[entry]), '\0');
  for (std::size_t done = 0; done < content.size();) {
    const zip_int64_t got = zip_fread(file.get(), content.data() + done, content.size() - done);
    if (got <= 0) return file_fault(place, "cannot be unpacked: its bytes are damaged or end early", damaged);
    done += static_cast<std::size_t>(got);
  }
  // The checksum is compared where the entry ends, so its end has to be asked for.
  char beyond = 0;
  const zip_int64_t more = zip_fread(file.get(), &beyond, 1);
  if (more > 0) return file_fault(place, "unpacks to more than it says", damaged);
  if (more < 0) return file_fault(place, "cannot be unpacked: its checksum differs", damaged);
  return content;
}

}  // namespace crownwright::files
