#include "cli/make_one.h"

#include <filesystem>

#include "making/mill_files.h"
#include "making/profile_files.h"
#include "making/stack_files.h"
#include "making/write.h"
#include "report/report_json.h"
#include "report/report_text.h"

namespace crownwright::cli {
namespace {

std::vector<std::string> bare_names(const std::vector<std::string>& files) {
  std::vector<std::string> names;
  for (const std::string& file : files) names.push_back(std::filesystem::path(file).filename().string());
  return names;
}

void add_files(std::vector<making::ExtraFile> more, std::vector<making::ExtraFile>& extras) {
  for (making::ExtraFile& file : more) extras.push_back(std::move(file));
}

// The turner's template always; the pattern when the order asks for a draft, the sheets when it asks for a
// stack; the chart wherever the crown's fit is known.
Result<std::vector<making::ExtraFile>> extras_of(const making::Form& form,
                                                 const workshop::ProfileFolder& profiles) {
  std::vector<making::ExtraFile> extras = making::profile_files(form.order, form.solid);
  if (!form.pieces.empty()) add_files(making::pattern_files(form.order, form.pieces), extras);
  if (form.order.stack) {
    auto sheets = making::stack_files(form.order, form.solid, profiles);
    if (!sheets) return sheets.fault();
    add_files(*std::move(sheets), extras);
  }
  if (form.milled) add_files(making::mill_files(form.order, form.solid, *form.milled), extras);
  if (form.fit) add_files(making::fit_files(form.order, *form.fit), extras);
  return extras;
}

}  // namespace

Result<FormMade> make_and_write(const order::Order& order, const std::string& stem,
                                const workshop::ProfileFolder& profiles, const MakeRules& rules) {
  auto form = making::make_form(order, profiles);
  if (!form) return form.fault();
  const auto ready = rules.before_writing();
  if (!ready) return ready.fault();
  auto extras = extras_of(*form, profiles);
  if (!extras) return extras.fault();
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
