#include "page/made_forms.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <span>

#include "files/read_file.h"
#include "files/zip_writer.h"
#include "report/written_run.h"

namespace crownwright::page {
namespace {

constexpr std::uint64_t largest_file = 400'000'000;

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

using Paths = std::vector<std::string>;

Result<Paths> written_form(const order::Order& order, const std::string& stem,
                           const workshop::ProfileFolder& profiles, const report::WritingRules& rules) {
  auto written = report::make_and_write(order, stem, profiles, rules);
  if (!written) return written.fault();
  return std::move(written->files);
}

// Half a run is not handed out as if it were whole.
Result<Paths> written_run(const order::Order& order, const std::string& stem,
                          const workshop::ProfileFolder& profiles, const report::WritingRules& rules) {
  auto run = report::make_and_write_run(order, stem, profiles, rules, [](std::size_t, std::size_t) {});
  if (!run) return run.fault();
  Paths all;
  for (report::SizeLine& line : run->lines) {
    if (line.fault) return line.fault->within("size " + line.size);
    std::move(line.files.begin(), line.files.end(), std::back_inserter(all));
  }
  std::move(run->tables.begin(), run->tables.end(), std::back_inserter(all));
  return all;
}

}  // namespace

Result<MadeForm> made_form(const order::Order& order, const std::string& stem,
                           const workshop::ProfileFolder& profiles, const PrivateFolder& folder) {
  report::WritingRules rules{folder.path() + "/out"};
  rules.before_writing = [&](making::Form& form) {
    drop_folder(folder, form.order);
    return Result(Done{});
  };
  const auto written =
      order.sizes ? written_run(order, stem, profiles, rules) : written_form(order, stem, profiles, rules);
  if (!written) return written.fault();
  MadeForm made{stem, {}};
  for (const std::string& path : *written) {
    const auto bytes = files::read_whole(path, largest_file);
    if (!bytes) return bytes.fault();
    const std::filesystem::path name =
        std::filesystem::path(path).lexically_relative(rules.into + "/" + stem);
    made.files.push_back({name.string(), std::string(bytes->text())});
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
