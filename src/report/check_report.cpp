#include "report/check_report.h"

#include <algorithm>
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

// What a file and an item of it have in common.
template <class Checked>
void put_findings(const Checked& checked, Json& report) {
  Json checks = Json::array();
  for (const proof::Check& check : checked.verdict.checks) {
    checks.push_back({{"name", check.name}, {"passed", check.passed}, {"detail", check.detail}});
  }
  const proof::Extent& extent = checked.extent;
  const auto mm = [](double value) { return rounded(value, kLengthDecimals); };
  report["passed"] = checked.verdict.passed();
  report["checks"] = checks;
  report["triangles"] = checked.triangles;
  report["vertices"] = checked.vertices;
  report["shells"] = checked.verdict.shells;
  report["genus"] = checked.verdict.genus;
  report["size"] = {mm(extent.size_x), mm(extent.size_y), mm(extent.size_z)};
  report["volume_mm3"] = rounded(extent.volume, kVolumeDecimals);
  report["area_mm2"] = rounded(extent.area, kVolumeDecimals);
}

// A check of several items: that of the first that failed, under its name, or that it holds for all.
void add_check(const std::string& item, const proof::Check& check, proof::Verdict& verdict) {
  const auto same = std::find_if(verdict.checks.begin(), verdict.checks.end(),
                                 [&](const proof::Check& other) { return other.name == check.name; });
  const std::string failed = item + ": " + check.detail;
  if (same == verdict.checks.end()) {
    verdict.checks.push_back({check.name, check.passed, check.passed ? check.detail : failed});
  } else if (same->passed) {
    *same = {check.name, check.passed,
             check.passed ? "" : failed};  // details of several say nothing together
  }
}

std::string item_text(const CheckedItem& item) {
  if (item.triangles == 0) return item.name + ": support or surface, not proved";
  const proof::Extent& extent = item.extent;
  return item.name + ": " + number_text(extent.size_x, 2) + " x " + number_text(extent.size_y, 2) + " x " +
         number_text(extent.size_z, 2) + " mm, " + number_text(extent.volume / 1000, 1) + " cm3";
}

void put_items(const CheckedFile& checked, Page& page) {
  for (const CheckedItem& item : checked.items)
    page.line("Item", item_text(item), item.verdict.passed() ? Tone::plain : Tone::bad);
}

}  // namespace

CheckedFile checked_package(const std::string& file, std::vector<CheckedItem> items,
                            const proof::Extent& extent) {
  CheckedFile checked;
  checked.file = file;
  checked.extent = extent;
  for (const CheckedItem& item : items) {
    checked.triangles += item.triangles;
    checked.vertices += item.vertices;
    checked.verdict.shells += item.verdict.shells;
    checked.verdict.genus += item.verdict.genus;
    for (const proof::Check& check : item.verdict.checks) add_check(item.name, check, checked.verdict);
  }
  checked.items = std::move(items);
  return checked;
}

std::string check_json(const CheckedFile& checked) {
  Json report = {{"file", checked.file}, {"units", "mm"}};
  put_findings(checked, report);
  for (const CheckedItem& item : checked.items) {
    Json one = {{"name", item.name}};
    put_findings(item, one);
    report["items"].push_back(one);
  }
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
  put_items(checked, page);
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
