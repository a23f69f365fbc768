#pragma once
// Who may ask what: the rules that a request must keep before a byte of its body is read. They see to it that
// only this page, in a browser on this machine, is answered (DNS rebinding, requests forged by other pages)
// and that every body has an end that is known beforehand.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "page/workbench.h"

namespace crownwright::page {

/// What of a request's head the rules are about. A header's values in their order, each with its own line.
struct Head {
  std::string method, path;
  std::vector<std::string> host, origin, content_type, content_length, content_encoding, transfer_encoding;
};

struct Refusal {
  Answer answer;
  std::string allow{};  ///< for 405: the methods there are
};

/// Nothing: it may be answered. `port`: on which we listen. Status 400, 403, 404, 405, 411, 413 or 415.
std::optional<Refusal> refusal_of(const Head& head, int port);

}  // namespace crownwright::page
