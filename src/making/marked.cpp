#include "making/marked.h"

#include <boost/crc.hpp>
#include <cstdint>

#include "making/write.h"

namespace crownwright::making {
namespace {

std::string remark_of(const order::Order& order) {
  return std::string("crownwright ").append(order_mark(order));
}

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 255u);
  return bytes;
}

}  // namespace

std::string svg_with_mark(std::string svg, const order::Order& order) {
  return svg.append("<!-- ").append(remark_of(order)).append(" -->\n");
}

std::string dxf_with_mark(const std::string& dxf, const order::Order& order) {
  return std::string("999\n").append(remark_of(order)).append("\n").append(dxf);
}

std::string pdf_with_mark(std::string pdf, const order::Order& order) {
  return pdf.append("%").append(remark_of(order)).append("\n");
}

std::string png_with_mark(std::string png, const order::Order& order) {
  constexpr std::size_t end_chunk = 12;
  if (png.size() < end_chunk) return png;
  const std::string content = std::string("tEXtSource") + '\0' + remark_of(order);
  boost::crc_32_type crc;
  crc.process_bytes(content.data(), content.size());
  const std::string chunk =
      big_endian(static_cast<std::uint32_t>(content.size() - 4)) + content + big_endian(crc.checksum());
  return png.insert(png.size() - end_chunk, chunk);
}

}  // namespace crownwright::making
