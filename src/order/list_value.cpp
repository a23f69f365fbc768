#include "order/list_value.h"

#include <algorithm>

#include "measurements/hat_size.h"
#include "order/value_help.h"

namespace crownwright::order {
namespace {

using value::length_within;

constexpr Range reading_radius = {0, 400, "a radius cannot be negative",
                                  "no pad is that wide: mind the unit"};
constexpr Range reading_height = {0, 200, "heights are taken from the dish's lowest point",
                                  "no dish for a beret is that deep: mind the unit"};
constexpr Range station_down = {0, 800, "distances are taken from the tip down",
                                "no panel is that long: mind the unit"};
constexpr Range station_width = {0, 800, "a width cannot be negative",
                                 "no panel is that wide: mind the unit"};

// ---- pairs of lengths ------------------------------------------------------------------------

// A list of so many pairs; `things` are "readings", `parts` "radius, height".
struct PairWords {
  std::size_t fewest, most;
  const char *subject, *things, *one, *parts, *example;
};
constexpr PairWords reading_words = {fewest_readings, most_readings,    "a dish is known by",   "readings",
                                     "a reading",     "radius, height", "[\"90 mm\", \"2 mm\"]"};
constexpr PairWords station_words = {
    fewest_stations, most_stations,     "a panel is known by",      "stations",
    "a station",     "distance, width", "[\"20 mm\", \"16.57 mm\"]"};

std::optional<Fault> no_pairs(const Written& w, const PairWords& words) {
  if (w.value.kind != ValueKind::list) return value::wrong_type(w, "a list of pairs of lengths");
  const std::size_t count = w.value.items.size();
  if (count >= words.fewest && count <= words.most) return std::nullopt;
  return w.fault(std::string(words.subject) + " " + std::to_string(words.fewest) + " to " +
                     std::to_string(words.most) + " " + words.things + "; there are " + std::to_string(count),
                 value::example(*w.key));
}

std::optional<Fault> no_pair(const Written& w, const TableValue& item, const PairWords& words) {
  if (item.kind == ValueKind::list && item.items.size() == 2) return std::nullopt;
  return w.fault(item.place, std::string(words.one) + " is a pair of lengths: " + words.parts,
                 std::string("as in ") + words.example);
}

Result<Reading> one_reading(const Written& w, const TableValue& pair) {
  if (auto fault = no_pair(w, pair, reading_words)) return *fault;
  const Result<Length> radius = length_within(w, pair.items[0], reading_radius, "a reading's radius");
  if (!radius) return radius.fault();
  const Result<Length> height = length_within(w, pair.items[1], reading_height, "a reading's height");
  if (!height) return height.fault();
  return Reading{*radius, *height};
}

Result<PanelWidth> one_station(const Written& w, const TableValue& pair) {
  if (auto fault = no_pair(w, pair, station_words)) return *fault;
  const Result<Length> down = length_within(w, pair.items[0], station_down, "a station's distance");
  if (!down) return down.fault();
  const Result<Length> width = length_within(w, pair.items[1], station_width, "a station's width");
  if (!width) return width.fault();
  return PanelWidth{*down, *width};
}

// ---- rows of sizes ---------------------------------------------------------------------------

const Range& measured(std::string_view path) { return find_key(path)->range.value(); }

bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

char in_folder(char c) {
  if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
  return c == ' ' ? '-' : c;
}

// Some systems hold "s" and "S" for one folder, and folders have no blanks in their names.
bool same_folder(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return in_folder(x) == in_folder(y); });
}

Result<std::string> size_name(const Written& w, const TableValue& item, const std::vector<SizeRow>& rows) {
  const std::string allowed = "1 to 32 letters (a to z), digits, -, _ and blanks, as in \"S\"";
  if (item.kind != ValueKind::text) {
    return w.fault(item.place, std::string(in_words(item.kind)) + " stands where a size's name belongs",
                   allowed);
  }
  if (!is_size_name(item.text)) {
    return w.fault(item.place, "\"" + item.text + "\" cannot name a size, which names a folder", allowed);
  }
  for (const SizeRow& row : rows) {
    if (same_folder(row.name, item.text)) {
      return w.fault(
          item.place, "there are two sizes \"" + item.text + "\"",
          "a name of its own for every size; capitals, and a dash for a blank, make no difference");
    }
  }
  return item.text;
}

Result<SizeRow> one_size(const Written& w, const TableValue& row, const std::vector<SizeRow>& before) {
  if (row.kind != ValueKind::list || row.items.size() < 3 || row.items.size() > 4) {
    return w.fault(row.place, "a size is a row: name, head girth, crown diameter and, if it differs, rise",
                   "as in [\"S\", \"55 cm\", \"27 cm\", \"7.3 cm\"]");
  }
  const Result<std::string> name = size_name(w, row.items[0], before);
  if (!name) return name.fault();
  const std::string of = "size \"" + *name + "\": a ";
  const auto girth = length_within(w, row.items[1], measured("measure.head_girth"), of + "head girth");
  if (!girth) return girth.fault();
  const auto crown =
      length_within(w, row.items[2], measured("measure.crown_diameter"), of + "crown diameter");
  if (!crown) return crown.fault();
  SizeRow size{*name, *girth, *crown, std::nullopt};
  if (row.items.size() == 3) return size;
  const auto rise = length_within(w, row.items[3], measured("measure.rise"), of + "rise");
  if (!rise) return rise.fault();
  size.rise = *rise;
  return size;
}

std::optional<Fault> no_run(const Written& w, const std::string& wanted) {
  if (w.value.kind != ValueKind::list) return value::wrong_type(w, wanted);
  const std::size_t count = w.value.items.size();
  if (count >= 1 && count <= most_sizes) return std::nullopt;
  return w.fault(
      "a run has 1 to " + std::to_string(most_sizes) + " sizes; there are " + std::to_string(count),
      value::example(*w.key));
}

// ---- hat sizes -------------------------------------------------------------------------------

Result<measurements::HatSize> one_hat_size(const Written& w, const TableValue& item) {
  if (item.kind != ValueKind::text) {
    return w.fault(item.place,
                   std::string(in_words(item.kind)) + " stands where a hat size in quotes belongs",
                   value::example(*w.key));
  }
  const auto size = measurements::parse_hat_size(item.text);
  if (!size) return size.fault().within(w.where(item.place));
  return size;
}

}  // namespace

Result<KeyValue> readings_value(const Written& w) {
  if (auto fault = no_pairs(w, reading_words)) return *fault;
  std::vector<Reading> readings;
  for (const TableValue& pair : w.value.items) {
    const Result<Reading> reading = one_reading(w, pair);
    if (!reading) return reading.fault();
    if (!readings.empty() && reading->radius.mm() <= readings.back().radius.mm()) {
      return w.fault(pair.place, "the readings' radii do not rise from one to the next",
                     "from the middle of the dish outwards, each radius once");
    }
    readings.push_back(*reading);
  }
  return KeyValue(readings);
}

Result<KeyValue> stations_value(const Written& w) {
  if (auto fault = no_pairs(w, station_words)) return *fault;
  std::vector<PanelWidth> stations;
  for (const TableValue& pair : w.value.items) {
    const Result<PanelWidth> station = one_station(w, pair);
    if (!station) return station.fault();
    if (!stations.empty() && station->down.mm() <= stations.back().down.mm()) {
      return w.fault(pair.place,
                     "stations out of order: " + to_text(station->down) + " comes after " +
                         to_text(stations.back().down),
                     "from the tip down, each distance once");
    }
    stations.push_back(*station);
  }
  return KeyValue(stations);
}

Result<KeyValue> size_rows_value(const Written& w) {
  if (auto fault = no_run(w, "a list of rows")) return *fault;
  std::vector<SizeRow> rows;
  for (const TableValue& item : w.value.items) {
    const Result<SizeRow> row = one_size(w, item, rows);
    if (!row) return row.fault();
    rows.push_back(*row);
  }
  return KeyValue(rows);
}

Result<KeyValue> hat_sizes_value(const Written& w) {
  if (auto fault = no_run(w, "a list of hat sizes")) return *fault;
  std::vector<measurements::HatSize> sizes;
  std::vector<std::string> texts;
  for (const TableValue& item : w.value.items) {
    const auto size = one_hat_size(w, item);
    if (!size) return size.fault();
    if (std::find(sizes.begin(), sizes.end(), *size) != sizes.end()) {
      return w.fault(item.place, "\"" + item.text + "\" is written twice", "each size once");
    }
    sizes.push_back(*size);
    texts.push_back(item.text);
  }
  return KeyValue(texts);
}

bool is_size_name(std::string_view name) {
  if (name.empty() || name.size() > longest_size_name) return false;
  if (name.front() == '-' || name.front() == ' ' || name.back() == ' ') return false;
  return std::all_of(name.begin(), name.end(),
                     [](char c) { return is_letter_or_digit(c) || c == '-' || c == '_' || c == ' '; });
}

}  // namespace crownwright::order
