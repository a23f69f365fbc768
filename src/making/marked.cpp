#include "making/marked.h"

#include "making/write.h"

namespace crownwright::making {
namespace {

std::string remark_of(const order::Order& order) {
  return std::string("crownwright ").append(order_mark(order));
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

}  // namespace crownwright::making
