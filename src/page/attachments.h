#pragma once
// Drawings and meshes that come with a request: the only files an order from a page may name.

#include <map>
#include <string>

#include "base/result.h"
#include "page/private_folder.h"
#include "page/request.h"

namespace crownwright::page {

struct Attachment {
  std::string name;  ///< of the file alone: "panel.svg"
  std::string bytes;
};

/// By key: "pattern.file".
using Attachments = std::map<std::string, Attachment>;

/// Of {"pattern.file": {"name": "panel.svg", "base64": "..."}}; nullptr: none. Faults (exit 2): a key that
/// names no file, a name that is more than a file's, bytes that are no base64.
Result<Attachments> read_attachments(const JsonValue* value);

/// The order with its file keys as the attachments say. Fault (exit 2): it names a file that is not attached.
Result<JsonValue> with_attachments(JsonValue flat, const Attachments& attachments);

/// Writes them into the folder. Fault (exit 4): no room.
Result<Done> unpack(const Attachments& attachments, const PrivateFolder& folder);

}  // namespace crownwright::page
