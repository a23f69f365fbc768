#include "page/made_forms.h"

#include <algorithm>
#include <filesystem>
#include <span>

#include "files/read_file.h"
#include "files/zip_writer.h"
#include "making/all_extras.h"
#include "making/form.h"
#include "making/write.h"
#include "report/report_json.h"
#include "report/work_sheet.h"

namespace crownwright::page {
namespace {

constexpr std::uint64_t largest_file = 400'000'000;

std::string name_of(const std::string& path) { return std::filesystem::path(path).filename().string(); }

std::vector<std::string> names_of(const std::vector<std::string>& paths) {
  std::vector<std::string> names;
  for (const std::string& path : paths) names.push_back(name_of(path));
  return names;
}

// As an order file beside the drawing would have it.
void drop_folder(const PrivateFolder& folder, order::Order& order) {
  order.pattern.file = folder.without_path(order.pattern.file);
  if (order.dish) order.dish->file = folder.without_path(order.dish->file);
}

bool is_packed(const std::string& name) { return name.ends_with(".3mf") || name.ends_with(".png"); }

std::size_t bytes_of(const MadeForm& made) {
  std::size_t sum = 0;
  for (const MadeFile& file : made.files) sum += file.bytes.size();
  return sum;
}

}  // namespace

Result<MadeForm> made_form(order::Order order, const std::string& stem,
                           const workshop::ProfileFolder& profiles, const PrivateFolder& folder) {
  if (order.sizes)
    return order_fault("sizes", "a run of sizes is not made on the page",
                       "make it with crownwright make, or take [sizes] out and make one size");
  auto form = making::make_form(order, profiles);
  if (!form) return form.fault();
  drop_folder(folder, form->order);
  auto extras = making::all_extras(*form, profiles);
  if (!extras) return extras.fault();
  for (making::ExtraFile& file : report::sheet_files(*form, stem)) extras->push_back(std::move(file));
  const auto written =
      making::write_form(*form, {folder.path() + "/out", stem, false, *std::move(extras)},
                         [&](const auto& paths) { return report::report_json(*form, names_of(paths)); });
  if (!written) return written.fault();
  MadeForm made{stem, {}};
  for (const std::string& path : *written) {
    const auto bytes = files::read_whole(path, largest_file);
    if (!bytes) return bytes.fault();
    made.files.push_back({name_of(path), std::string(bytes->text())});
  }
  return made;
}

std::string zip_of(const MadeForm& made) {
  std::vector<files::ZipEntry> entries;
  for (const MadeFile& file : made.files)
    entries.push_back(
        {made.stem + "/" + file.name, std::as_bytes(std::span(file.bytes)), !is_packed(file.name)});
  const std::vector<std::byte> bytes = files::zipped(entries);
  return std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size());
}

Result<MadeForms::Made> MadeForms::get(const std::string& key,
                                       const std::function<Result<MadeForm>()>& make) {
  if (auto made = found(key)) return made;
  const std::lock_guard one_at_a_time(making_);
  if (auto made = found(key)) return made;  // made while we waited
  auto form = make();
  if (!form) return form.fault();
  auto made = std::make_shared<const MadeForm>(*std::move(form));
  keep(key, made);
  return made;
}

std::size_t MadeForms::kept() const {
  const std::lock_guard lock(mutex_);
  return kept_.size();
}

MadeForms::Made MadeForms::found(const std::string& key) {
  const std::lock_guard lock(mutex_);
  const auto at = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& one) { return one.key == key; });
  if (at == kept_.end()) return nullptr;
  kept_.splice(kept_.begin(), kept_, at);
  return kept_.front().made;
}

void MadeForms::keep(const std::string& key, Made made) {
  const std::size_t bytes = bytes_of(*made) + key.size();
  if (bytes > most_bytes) return;
  const std::lock_guard lock(mutex_);
  kept_.push_front({key, std::move(made), bytes});
  std::size_t sum = 0;
  auto last = kept_.begin();
  for (std::size_t count = 0; last != kept_.end(); ++last, ++count) {
    sum += last->bytes;
    if (count == most_forms || sum > most_bytes) break;
  }
  kept_.erase(last, kept_.end());
}

}  // namespace crownwright::page
