#pragma once
// Puts an order's mark (making/write.h) where each format has room for a remark, so that a file is known
// again as ours.

#include <string>

#include "order/order.h"

namespace crownwright::making {

/// A comment behind the document.
std::string svg_with_mark(std::string svg, const order::Order& order);
/// A remark, group 999, before the first section.
std::string dxf_with_mark(const std::string& dxf, const order::Order& order);
/// A remark behind the end mark, which readers look for in the last 1,024 bytes (ISO 32000-1, annex H).
std::string pdf_with_mark(std::string pdf, const order::Order& order);
/// A tEXt chunk before IEND, the last 12 bytes (ISO/IEC 15948, 11.3.4.3).
std::string png_with_mark(std::string png, const order::Order& order);

}  // namespace crownwright::making
