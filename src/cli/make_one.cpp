#include "cli/make_one.h"

#include <filesystem>

#include "making/all_extras.h"
#include "making/write.h"
#include "report/report_json.h"
#include "report/report_text.h"
#include "report/work_sheet.h"

namespace crownwright::cli {
namespace {

std::vector<std::string> bare_names(const std::vector<std::string>& files) {
  std::vector<std::string> names;
  for (const std::string& file : files) names.push_back(std::filesystem::path(file).filename().string());
  return names;
}

}  // namespace

Result<FormMade> make_and_write(const order::Order& order, const std::string& stem,
                                const workshop::ProfileFolder& profiles, const MakeRules& rules) {
  auto form = making::make_form(order, profiles);
  if (!form) return form.fault();
  const auto ready = rules.before_writing();
  if (!ready) return ready.fault();
  auto extras = making::all_extras(*form, profiles);
  if (!extras) return extras.fault();
  for (making::ExtraFile& file : report::sheet_files(*form, stem)) extras->push_back(std::move(file));
  auto written =
      making::write_form(*form, {rules.place.into, stem, rules.place.force, *std::move(extras)},
                         [&](const auto& files) { return report::report_json(*form, bare_names(files)); });
  if (!written) return written.fault();
  return FormMade{*std::move(form), *std::move(written)};
}

Result<std::string> make_one(const order::Order& order, const std::string& stem,
                             const workshop::ProfileFolder& profiles, const MakeRules& rules) {
  const auto made = make_and_write(order, stem, profiles, rules);
  if (!made) return made.fault();
  return rules.json ? report::report_json(made->form, made->files)
                    : report::report_text(made->form, made->files, rules.paint);
}

}  // namespace crownwright::cli
