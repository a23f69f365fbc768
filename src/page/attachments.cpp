#include "page/attachments.h"

#include <algorithm>
#include <set>

#include "base/exact_number.h"
#include "base/printable.h"
#include "files/whole_file.h"
#include "order/keys.h"
#include "page/base64.h"

namespace crownwright::page {
namespace {

constexpr std::size_t longest_file_name = 200;

bool names_file(const std::string& path) {
  const order::Key* key = order::find_key(path);
  return key != nullptr && key->type == order::KeyType::file;
}

// One part of a path that can mean nothing but a file in the folder it is put into.
bool is_plain_name(const std::string& name) {
  const bool has_odd = std::any_of(name.begin(), name.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F || c == '/' || c == '\\';
  });
  return !name.empty() && name.size() <= longest_file_name && name.front() != '.' && !has_odd;
}

Result<Attachment> read_attachment(const std::string& path, const JsonValue& value) {
  const JsonValue* name = value.field("name");
  const JsonValue* bytes = value.field("base64");
  if (name == nullptr || bytes == nullptr || name->kind != JsonKind::text || bytes->kind != JsonKind::text)
    return order_fault(path, "the attached file is not whole",
                       "{\"name\": \"panel.svg\", \"base64\": \"...\"}");
  if (!is_plain_name(name->text))
    return order_fault(path, crownwright::quoted(name->text) + " is not the name of a file alone",
                       "a name without folders, as in panel.svg");
  auto decoded = from_base64(bytes->text);
  if (!decoded) return order_fault(path, "the attached file's bytes are not base64", "base64 (RFC 4648)");
  return Attachment{name->text, *std::move(decoded)};
}

Fault not_attached(const std::string& path) {
  return order_fault(path, "the file itself has to come with the order", "choose the file again");
}

}  // namespace

Result<Attachments> read_attachments(const JsonValue* value) {
  Attachments all;
  if (value == nullptr || value->kind == JsonKind::nothing) return all;
  if (value->kind != JsonKind::object)
    return order_fault("attachments", in_words(value->kind) + " stands where an object belongs",
                       "{\"pattern.file\": {\"name\": ..., \"base64\": ...}}");
  std::set<std::string> names;
  for (const auto& [path, file] : value->fields) {
    const std::string shown = printable(path, 60);
    if (!names_file(path))
      return order_fault(shown, std::string("no key \"") + shown + "\" names a file",
                         "pattern.file or dish.file");
    auto one = read_attachment(path, file);
    if (!one) return one.fault();
    if (!names.insert(one->name).second) return order_fault(path, "two files bear one name", "rename one");
    all.emplace(path, *std::move(one));
  }
  return all;
}

Result<JsonValue> with_attachments(JsonValue flat, const Attachments& attachments) {
  if (flat.kind != JsonKind::object) return flat;
  for (auto& [path, value] : flat.fields) {
    if (!names_file(path)) continue;
    const auto attached = attachments.find(path);
    const bool empty =
        value.kind == JsonKind::nothing || (value.kind == JsonKind::text && value.text.empty());
    if (attached == attachments.end() && !empty) return not_attached(path);
    if (attached == attachments.end()) continue;
    value = JsonValue();
    value.kind = JsonKind::text;
    value.text = attached->second.name;
  }
  for (const auto& [path, file] : attachments) {
    if (flat.field(path) != nullptr) continue;
    JsonValue name;
    name.kind = JsonKind::text;
    name.text = file.name;
    flat.fields.emplace_back(path, std::move(name));
  }
  return flat;
}

Result<Done> unpack(const Attachments& attachments, const PrivateFolder& folder) {
  for (const auto& [path, file] : attachments) {
    const auto written = files::write_whole(folder.path() + "/" + file.name, file.bytes);
    if (!written) return written.fault();
  }
  return Done{};
}

}  // namespace crownwright::page
