#include "cli/make_one.h"

#include <filesystem>

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

// The pattern when the order asks for a draft; the chart wherever the crown's fit is known.
std::vector<making::ExtraFile> extras_of(const making::Form& form) {
  std::vector<making::ExtraFile> extras;
  if (!form.pieces.empty()) extras = making::pattern_files(form.order, form.pieces);
  if (!form.fit) return extras;
  for (making::ExtraFile& chart : making::fit_files(form.order, *form.fit))
    extras.push_back(std::move(chart));
  return extras;
}

}  // namespace

Result<FormMade> make_and_write(const order::Order& order, const std::string& stem,
                                const workshop::ProfileFolder& profiles, const MakeRules& rules) {
  auto form = making::make_form(order, profiles);
  if (!form) return form.fault();
  const auto ready = rules.before_writing();
  if (!ready) return ready.fault();
  auto written =
      making::write_form(*form, {rules.place.into, stem, rules.place.force, extras_of(*form)},
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
