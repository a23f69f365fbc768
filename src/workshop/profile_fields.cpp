#include "workshop/profile_fields.h"

#include <algorithm>

#include "base/nearest_name.h"
#include "base/printable.h"

namespace crownwright::workshop {
namespace {

constexpr std::size_t longest_text = 300;

std::string range_text(double low, double high, const std::string& unit) {
  return number_text(low, 6) + unit + " to " + number_text(high, 6) + unit;
}

}  // namespace

void ProfileFields::refuse(const Place& place, const std::string& path, std::string what,
                           std::string allowed) {
  if (!fault_) fault_ = order_fault(file_.where(place) + ": " + path, std::move(what), std::move(allowed));
}

const TableEntry* ProfileFields::entry(const TableValue& table, const std::string& key,
                                       const std::string& path) {
  const TableEntry* found = find_entry(table, key);
  if (found == nullptr) refuse(table.place, path, "this key is missing from the profile", "");
  return found;
}

std::string ProfileFields::text_in(const TableValue& table, const std::string& key, const std::string& path) {
  const TableEntry* found = entry(table, key, path);
  if (found == nullptr) return {};
  const std::string& text = found->value.text;
  const bool good = found->value.kind == ValueKind::text && !text.empty() && text.size() <= longest_text &&
                    printable(text) == text;
  if (!good) refuse(found->value.place, path, "this is not a line of text", "1 to 300 bytes in quotes");
  return good ? text : std::string();
}

std::string ProfileFields::text(const std::string& key) {
  asked_.push_back(key);
  return text_in(*fields_, key, within_ + key);
}

// The entry of `value` in `key = { value = ..., source = "..." }`.
const TableEntry* ProfileFields::value_of(const std::string& key, std::string& source) {
  asked_.push_back(key);
  const TableEntry* outer = entry(*fields_, key, within_ + key);
  if (outer == nullptr) return nullptr;
  if (outer->value.kind != ValueKind::table) {
    refuse(outer->value.place, within_ + key, "a value without its source",
           "as in { value = ..., source = \"...\" }");
    return nullptr;
  }
  source = text_in(outer->value, "source", within_ + key + ".source");
  unknown_key_in(outer->value, {"value", "source"});
  return entry(outer->value, "value", within_ + key + ".value");
}

Sourced<double> ProfileFields::number(const std::string& key, double low, double high) {
  Sourced<double> out;
  const TableEntry* found = value_of(key, out.source);
  if (found == nullptr) return out;
  const bool is_number = found->value.kind == ValueKind::number || found->value.kind == ValueKind::integer;
  if (!is_number || found->value.number < low || found->value.number > high) {
    refuse(found->value.place, within_ + key,
           is_number ? "this number is out of range" : "this is not a number", range_text(low, high, ""));
    return out;
  }
  out.value = found->value.number;
  return out;
}

Sourced<Length> ProfileFields::length(const std::string& key, double low, double high) {
  Sourced<Length> out;
  const TableEntry* found = value_of(key, out.source);
  if (found == nullptr) return out;
  if (found->value.kind != ValueKind::text) {
    refuse(found->value.place, within_ + key, "this is not a length",
           "in quotes with its unit, as in \"3 mm\"");
    return out;
  }
  const Result<Length> length = parse_length(found->value.text);
  if (!length) {
    refuse(found->value.place, within_ + key, length.fault().what, length.fault().allowed);
  } else if (length->mm() < low || length->mm() > high) {
    refuse(found->value.place, within_ + key, "this length is out of range", range_text(low, high, " mm"));
  } else {
    out.value = *length;
  }
  return out;
}

void ProfileFields::unknown_key_in(const TableValue& table, const std::vector<std::string>& known) {
  for (const TableEntry& one : table.entries) {
    if (std::find(known.begin(), known.end(), one.key) != known.end()) continue;
    std::string all;
    for (const std::string& name : known) all += (all.empty() ? "" : ", ") + name;
    const auto nearest = nearest_name(one.key, known);
    refuse(one.place, within_ + one.key, "a profile has no such key",
           nearest ? "did you mean " + *nearest + "?" : "keys are: " + all);
  }
}

bool ProfileFields::has_part(const std::string& key) {
  asked_.push_back(key);
  const TableEntry* found = find_entry(*fields_, key);
  if (found == nullptr) return false;
  if (found->value.kind == ValueKind::table) return true;
  refuse(found->value.place, within_ + key, "this is no table", "a line [" + key + "] with its keys below");
  return false;
}

ProfileFields ProfileFields::part(const std::string& key) const {
  ProfileFields fields(file_);
  fields.fields_ = &find_entry(*fields_, key)->value;
  fields.within_ = within_ + key + ".";
  return fields;
}

void ProfileFields::take_fault_of(ProfileFields& part) {
  const std::optional<Fault> found = part.fault();
  if (!fault_) fault_ = found;
}

std::optional<Fault> ProfileFields::fault() {
  unknown_key_in(*fields_, asked_);
  return fault_;
}

}  // namespace crownwright::workshop
