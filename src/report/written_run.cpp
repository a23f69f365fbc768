#include "report/written_run.h"

#include <algorithm>
#include <filesystem>
#include <mutex>

#include "drawings/fit_chart.h"
#include "files/whole_file.h"
#include "making/parallel.h"
#include "making/write.h"
#include "order/sizes.h"

namespace crownwright::report {
namespace {

SizeLine made_size(const order::SizedOrder& sized, const std::string& stem,
                   const workshop::ProfileFolder& profiles, const WritingRules& rules) {
  WritingRules own = rules;
  own.into += "/" + stem;
  auto made = make_and_write(sized.order, stem + "-" + order::in_file_name(sized.size), profiles, own);
  if (!made) return {sized.size, made.fault(), {}, {}, {}, {}};
  return size_line(sized.size, made->form, std::move(made->files));
}

std::vector<drawings::NestedPanel> nested_panels(const std::vector<SizeLine>& lines) {
  std::vector<drawings::NestedPanel> panels;
  for (const SizeLine& line : lines)
    if (line.fit && line.fit->crown && line.fit->crown->net)
      panels.push_back({line.size, *line.fit->crown->net});
  return panels;
}

struct Table {
  std::string path, bytes;
};

// The tables say where the files are from the folder they stand in.
std::vector<SizeLine> with_paths_from(const std::string& folder, std::vector<SizeLine> lines) {
  for (SizeLine& line : lines)
    for (std::string& file : line.files)
      file = std::filesystem::path(file).lexically_relative(folder).string();
  return lines;
}

std::vector<Table> tables_of(const order::Order& order, const std::string& base,
                             const std::vector<SizeLine>& lines) {
  std::vector<Table> tables = {{base + ".sizes.csv", size_table_csv(lines)},
                               {base + ".sizes.txt", size_table_text(order.name, lines)}};
  if (const auto panels = nested_panels(lines); !panels.empty())
    tables.push_back({base + ".nested.svg", drawings::nested_chart_svg(panels, order.name)});
  return tables;
}

// A table is this order's own when the JSON beside it, which bears our name, is there too.
Result<Done> write_tables(const std::vector<Table>& tables, const std::string& base, bool force) {
  files::WriteRules rules;
  rules.replace = force ? files::Replace::force : files::Replace::same_order;
  const bool is_ours = making::bears_report_mark(base + ".sizes.json");
  rules.is_ours = [is_ours](const std::string&) { return is_ours; };
  for (const Table& table : tables)
    if (const auto done = files::write_whole(table.path, table.bytes, rules); !done) return done.fault();
  return Done{};
}

}  // namespace

Result<WrittenRun> make_and_write_run(const order::Order& order, const std::string& stem,
                                      const workshop::ProfileFolder& profiles, const WritingRules& rules,
                                      const std::function<void(std::size_t, std::size_t)>& ended) {
  const auto sized = order::sized_orders(order);
  if (!sized) return sized.fault();
  std::vector<SizeLine> lines(sized->size());
  std::mutex mutex;
  std::size_t done = 0;
  making::each_in_parallel(sized->size(), [&](std::size_t i) {
    lines[i] = made_size((*sized)[i], stem, profiles, rules);
    const std::lock_guard lock(mutex);
    ended(++done, sized->size());
  });
  const std::string folder = rules.into + "/" + stem, base = folder + "/" + stem;
  if (const auto made = files::ensure_folder(folder); !made) return made.fault();
  const auto local = with_paths_from(folder, lines);
  auto tables = tables_of(order, base, local);
  std::vector<std::string> names, paths;
  for (const Table& table : tables) names.push_back(std::filesystem::path(table.path).filename().string());
  names.push_back(stem + ".sizes.json");
  tables.push_back({base + ".sizes.json", size_table_json(order.name, local, names)});
  if (const auto written = write_tables(tables, base, rules.force); !written) return written.fault();
  for (const Table& table : tables) paths.push_back(table.path);
  return WrittenRun{std::move(lines), std::move(paths), std::move(names)};
}

}  // namespace crownwright::report
