#include "report/check_report.h"

#include <nlohmann/json.hpp>

#include "base/length.h"
#include "report/json_number.h"
#include "report/length_words.h"
#include "report/page.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

std::string with_detail(const proof::Check& check) {
  return check.name + (check.detail.empty() ? "" : ": " + check.detail);
}

}  // namespace

std::string check_json(const CheckedFile& checked) {
  Json checks = Json::array();
  for (const proof::Check& check : checked.verdict.checks) {
    checks.push_back({{"name", check.name}, {"passed", check.passed}, {"detail", check.detail}});
  }
  const proof::Extent& extent = checked.extent;
  const auto mm = [](double value) { return rounded(value, kLengthDecimals); };
  const Json report = {{"file", checked.file},
                       {"units", "mm"},
                       {"passed", checked.verdict.passed()},
                       {"checks", checks},
                       {"triangles", checked.triangles},
                       {"vertices", checked.vertices},
                       {"shells", checked.verdict.shells},
                       {"genus", checked.verdict.genus},
                       {"size", {mm(extent.size_x), mm(extent.size_y), mm(extent.size_z)}},
                       {"volume_mm3", rounded(extent.volume, kVolumeDecimals)},
                       {"area_mm2", rounded(extent.area, kVolumeDecimals)}};
  return report.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string check_text(const CheckedFile& checked, Paint paint) {
  const proof::Verdict& verdict = checked.verdict;
  const proof::Extent& extent = checked.extent;
  Page page(paint);
  page.heading(checked.file);
  page.line("Size", number_text(extent.size_x, 2) + " x " + number_text(extent.size_y, 2) + " x " +
                        number_text(extent.size_z, 2) + " mm");
  page.line("Mesh", counted(static_cast<long long>(checked.triangles), "triangle", "triangles") + ", " +
                        counted(verdict.shells, "piece", "pieces") + ", " +
                        counted(verdict.genus, "hole through", "holes through"));
  page.line("Holds", number_text(extent.volume / 1000, 1) + " cm3, surface " +
                         number_text(extent.area / 100, 1) + " cm2");
  for (const proof::Check& check : verdict.checks) {
    page.line(check.passed ? "passed" : "FAILED", with_detail(check), check.passed ? Tone::good : Tone::bad);
  }
  if (verdict.passed()) {
    page.line("Proved", "this file bounds a solid", Tone::good);
  } else {
    page.line("Not proved", "do not make a form from this file", Tone::bad);
  }
  return page.text();
}

std::string first_failure(const proof::Verdict& verdict) {
  for (const proof::Check& check : verdict.checks) {
    if (!check.passed) return with_detail(check);
  }
  return {};
}

}  // namespace crownwright::report
