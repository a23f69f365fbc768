#include "making/all_extras.h"

#include "making/mill_files.h"
#include "making/profile_files.h"
#include "making/stack_files.h"

namespace crownwright::making {
namespace {

void add_extras(std::vector<ExtraFile> more, std::vector<ExtraFile>& extras) {
  for (ExtraFile& file : more) extras.push_back(std::move(file));
}

}  // namespace

Result<std::vector<ExtraFile>> all_extras(const Form& form, const workshop::ProfileFolder& profiles) {
  std::vector<ExtraFile> extras = profile_files(form.order, form.solid);
  if (!form.pieces.empty()) add_extras(pattern_files(form.order, form.pieces), extras);
  if (form.order.stack) {
    auto sheets = stack_files(form.order, form.solid, profiles);
    if (!sheets) return sheets.fault();
    add_extras(*std::move(sheets), extras);
  }
  if (form.milled) add_extras(mill_files(form.order, form.solid, *form.milled), extras);
  if (form.fit) add_extras(fit_files(form.order, *form.fit), extras);
  return extras;
}

}  // namespace crownwright::making
