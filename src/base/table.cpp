#include "base/table.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <toml++/toml.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <exception>
#include <optional>
#include <system_error>
#include <variant>

#include "base/printable.h"

namespace crownwright {
namespace {

// ---- places ----------------------------------------------------------------------------------

Place place_of(const toml::source_region& region) {
  return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

bool comes_before(const Place& a, const Place& b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

std::string where_in(const std::string& name, const Place& place) {
  if (place.line <= 0) return name;
  return name + ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
}

// Place of the byte at `offset`: every byte that does not continue a character counts.
Place place_at(std::string_view text, std::size_t offset) {
  Place place{1, 1};
  for (std::size_t i = 0; i < offset; ++i) {
    if (text[i] == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(text[i]) & 0xC0u) != 0x80u) {
      ++place.column;
    }
  }
  return place;
}

// ---- bytes that are no text at all -----------------------------------------------------------

// First byte that is not part of well-formed UTF-8. Lines are checked one by one, since no
// character crosses a line end; within the bad line the longest good beginning is sought.
std::optional<std::size_t> first_bad_byte(std::string_view text) {
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string_view line = text.substr(start, end - start);
    if (!is_utf8(line)) {
      // A beginning stays good until the bad byte; a character cut in half is not yet the bad byte.
      std::size_t good = 0;
      for (std::size_t n = 1; n <= line.size() && n <= good + 4; ++n) {
        if (is_utf8(line.substr(good, n - good))) good = n;
      }
      return start + good;
    }
    start = end + 1;
  }
  return std::nullopt;
}

std::optional<Fault> not_text(std::string_view text, const std::string& name) {
  if (text.size() > largest_table_bytes) {
    return order_fault(name, "the text is larger than 1 MiB", "at most 1 MiB; an order takes a few lines");
  }
  const std::size_t nul = text.find('\0');
  const std::size_t bad = first_bad_byte(text).value_or(std::string_view::npos);
  if (nul == bad) return std::nullopt;  // neither is there
  const std::string where = where_in(name, place_at(text, std::min(nul, bad)));
  if (nul < bad) return order_fault(where, "a NUL byte: this is not a text file", "plain text in TOML");
  return order_fault(where, "a byte that is not UTF-8", "save the file as UTF-8 text");
}

// ---- from toml++ to our own tree -------------------------------------------------------------

class Converter {
 public:
  explicit Converter(const std::string& name) : name_(name) {}

  TableValue value(const toml::node& node) {
    TableValue out;
    out.place = place_of(node.source());
    node.visit([&](const auto& n) { fill(out, n); });
    return out;
  }

  const std::optional<Fault>& fault() const { return fault_; }

 private:
  void fill(TableValue& out, const toml::table& table) {
    out.kind = ValueKind::table;
    for (const auto& [key, node] : table) {
      out.entries.push_back({std::string(key.str()), place_of(key.source()), value(node)});
    }
    std::stable_sort(out.entries.begin(), out.entries.end(),
                     [](const TableEntry& a, const TableEntry& b) { return comes_before(a.place, b.place); });
  }
  void fill(TableValue& out, const toml::array& array) {
    out.kind = ValueKind::list;
    for (const auto& node : array) out.items.push_back(value(node));
  }
  void fill(TableValue& out, const toml::value<std::string>& node) {
    out.kind = ValueKind::text;
    out.text = node.get();
    if (out.text.find('\0') != std::string::npos) refuse(out.place, "a NUL character in a text");
  }
  void fill(TableValue& out, const toml::value<std::int64_t>& node) {
    out.kind = ValueKind::integer;
    out.integer = node.get();
    out.number = static_cast<double>(node.get());
  }
  void fill(TableValue& out, const toml::value<double>& node) {
    out.kind = ValueKind::number;
    out.number = node.get();
    if (!std::isfinite(out.number)) refuse(out.place, "nan and inf are not numbers one can work with");
  }
  void fill(TableValue& out, const toml::value<bool>& node) {
    out.kind = ValueKind::boolean;
    out.boolean = node.get();
  }
  template <class DateOrTime>
  void fill(TableValue& out, const toml::value<DateOrTime>&) {
    out.kind = ValueKind::date;
  }

  void refuse(const Place& place, const char* what) {
    if (fault_ && !comes_before(place, refused_)) return;
    fault_ = order_fault(where_in(name_, place), what);
    refused_ = place;
  }

  const std::string& name_;
  std::optional<Fault> fault_;
  Place refused_;
};

// The parser's own words, save for the most usual slip. toml++ says
// "... cannot redefine existing string 'rise' as string".
Fault syntax_fault(const toml::parse_error& error, const std::string& name) {
  const std::string said(error.description());
  const std::string where = where_in(name, place_of(error.source()));
  if (said.find("redefine") != std::string::npos) {
    const std::size_t open = said.find('\'');
    const std::size_t close = said.rfind('\'');
    const std::string key = open < close ? said.substr(open, close - open + 1) : std::string("a key");
    return order_fault(where, key + " is written twice", "each key and each table once");
  }
  // "Error while parsing string: encountered end-of-file": the part before the colon tells a person nothing.
  const std::size_t colon = said.rfind("Error while parsing", 0) == 0 ? said.find(": ") : std::string::npos;
  return order_fault(where,
                     "this is not TOML: " + (colon == std::string::npos ? said : said.substr(colon + 2)),
                     "texts and lengths stand in quotes, as in rise = \"7.5 cm\"");
}

// ---- files -----------------------------------------------------------------------------------

Fault refused_by_system(const std::string& path, int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return file_fault(path, "there is no such file");
    case ELOOP:
      return file_fault(path, "the file's links go round in a circle");
    case EACCES:
    case EPERM:
      return file_fault(path, "there is no permission to read the file");
    case ENAMETOOLONG:
      return file_fault(printable(path, 100), "the file's name is too long");
    default:
      return file_fault(path, "the file cannot be read: " + std::generic_category().message(error));
  }
}

std::optional<Fault> not_a_small_file(const std::string& path, const struct stat& state) {
  if (S_ISDIR(state.st_mode)) return file_fault(path, "this is a folder", "a text file in TOML");
  if (!S_ISREG(state.st_mode)) return file_fault(path, "this is not a regular file", "a text file in TOML");
  if (state.st_size > static_cast<off_t>(largest_table_bytes)) {
    return file_fault(path, "the file is larger than 1 MiB", "at most 1 MiB; an order takes a few lines");
  }
  return std::nullopt;
}

class OpenFile {
 public:
  explicit OpenFile(const std::string& path)
      : descriptor_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {}
  ~OpenFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  int get() const { return descriptor_; }

 private:
  int descriptor_;
};

// Reads at most one byte more than allowed, so a file that grows under our hands stays small.
Result<std::string> read_all(const std::string& path, int descriptor) {
  std::string text;
  char buffer[65536];
  while (text.size() <= largest_table_bytes) {
    const ssize_t got = ::read(descriptor, buffer, sizeof buffer);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return refused_by_system(path, errno);
    if (got == 0) return text;
    text.append(buffer, static_cast<std::size_t>(got));
  }
  return file_fault(path, "the file is larger than 1 MiB", "at most 1 MiB; an order takes a few lines");
}

// Looked at by name first, since opening a pipe or a device may already do something;
// then again when open, since the name may mean another file by now.
Result<std::string> read_small_file(const std::string& path) {
  if (path.find('\0') != std::string::npos) return file_fault(path, "a file name cannot hold a NUL");
  struct stat state {};
  if (::stat(path.c_str(), &state) != 0) return refused_by_system(path, errno);
  if (auto fault = not_a_small_file(path, state)) return *fault;
  const OpenFile file(path);
  if (file.get() < 0 || ::fstat(file.get(), &state) != 0) return refused_by_system(path, errno);
  if (auto fault = not_a_small_file(path, state)) return *fault;
  return read_all(path, file.get());
}

}  // namespace

std::string_view in_words(ValueKind kind) {
  switch (kind) {
    case ValueKind::text:
      return "a text";
    case ValueKind::integer:
      return "a whole number";
    case ValueKind::number:
      return "a number";
    case ValueKind::boolean:
      return "true or false";
    case ValueKind::list:
      return "a list";
    case ValueKind::table:
      return "a table";
    case ValueKind::date:
      return "a date or time";
  }
  throw std::logic_error("a value of no kind");
}

std::string Table::where(const Place& place) const { return where_in(name, place); }

const TableEntry* find_entry(const TableValue& table, std::string_view key) {
  const auto found = std::find_if(table.entries.begin(), table.entries.end(),
                                  [&](const TableEntry& entry) { return entry.key == key; });
  return found == table.entries.end() ? nullptr : &*found;
}

Result<Table> parse_table(std::string_view text, const std::string& name) {
  if (auto fault = not_text(text, name)) return *fault;
  try {
    const toml::table document = toml::parse(text);
    Converter converter(name);
    Table table{name, converter.value(document)};
    if (converter.fault()) return *converter.fault();
    return table;
  } catch (const toml::parse_error& error) {
    return syntax_fault(error, name);
  } catch (const std::exception& error) {
    return order_fault(name, std::string("this is not TOML: ") + error.what());
  }
}

Result<Table> read_table(const std::string& path) {
  const Result<std::string> text = read_small_file(path);
  if (!text) return text.fault();
  return parse_table(*text, path);
}

std::string quoted_toml(std::string_view text) {
  constexpr char digits[] = "0123456789ABCDEF";
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      out += "\\u00";
      out += digits[byte >> 4];
      out += digits[byte & 15];
    } else {
      out += c;
    }
  }
  return out + '"';
}

}  // namespace crownwright
