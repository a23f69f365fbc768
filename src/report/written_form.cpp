#include "report/written_form.h"

#include <filesystem>

#include "making/all_extras.h"
#include "making/write.h"
#include "report/report_json.h"
#include "report/work_sheet.h"

namespace crownwright::report {
namespace {

std::vector<std::string> bare_names(const std::vector<std::string>& files) {
  std::vector<std::string> names;
  for (const std::string& file : files) names.push_back(std::filesystem::path(file).filename().string());
  return names;
}

}  // namespace

Result<WrittenForm> make_and_write(const order::Order& order, const std::string& stem,
                                   const workshop::ProfileFolder& profiles, const WritingRules& rules) {
  auto form = making::make_form(order, profiles);
  if (!form) return form.fault();
  const auto ready = rules.before_writing(*form);
  if (!ready) return ready.fault();
  auto extras = making::all_extras(*form, profiles);
  if (!extras) return extras.fault();
  for (making::ExtraFile& file : sheet_files(*form, stem)) extras->push_back(std::move(file));
  auto written = making::write_form(*form, {rules.into, stem, rules.force, *std::move(extras)},
                                    [&](const auto& files) { return report_json(*form, bare_names(files)); });
  if (!written) return written.fault();
  return WrittenForm{*std::move(form), *std::move(written)};
}

}  // namespace crownwright::report
