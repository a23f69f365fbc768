#include "report/size_table.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/length.h"
#include "report/json_number.h"

namespace crownwright::report {
namespace {

using Json = nlohmann::ordered_json;

// ---- the columns, once for CSV and JSON ------------------------------------------------------

struct Column {
  const char* name;
  std::optional<double> (*value)(const SizeLine&);
  int decimals;
};

std::optional<double> of_crown(const SizeLine& line, double fit::FitReport::*which) {
  if (!line.fit || !line.fit->crown) return std::nullopt;
  return line.fit->crown->report.*which;
}

const std::vector<Column> form_columns = {
    {"crown_diameter", [](const SizeLine& l) { return std::optional(l.figures.crown_diameter); }, 4},
    {"head_girth", [](const SizeLine& l) { return l.figures.head_girth; }, 4},
    {"rise", [](const SizeLine& l) { return std::optional(l.figures.rise); }, 4},
    {"dome", [](const SizeLine& l) { return std::optional(l.figures.dome); }, 4},
    {"edge_radius", [](const SizeLine& l) { return std::optional(l.figures.edge_radius); }, 4},
    {"top_length", [](const SizeLine& l) { return std::optional(l.figures.top_length); }, 4},
    {"under_length", [](const SizeLine& l) { return l.figures.under_length; }, 4},
};

const std::vector<Column> measured_columns = {
    {"measured_crown_diameter", [](const SizeLine& l) { return std::optional(l.readings.crown_diameter); },
     4},
    {"measured_head_girth", [](const SizeLine& l) { return l.readings.head_girth; }, 4},
    {"measured_rise", [](const SizeLine& l) { return std::optional(l.readings.rise); }, 4},
};

const std::vector<Column> fit_columns = {
    {"hoop_strain_max", [](const SizeLine& l) { return of_crown(l, &fit::FitReport::hoop_max); }, 6},
    {"hoop_strain_min", [](const SizeLine& l) { return of_crown(l, &fit::FitReport::hoop_min); }, 6},
    {"length_strain_seam", [](const SizeLine& l) { return of_crown(l, &fit::FitReport::seam_length); }, 6},
    {"length_strain_centre", [](const SizeLine& l) { return of_crown(l, &fit::FitReport::centre_length); },
     6},
    {"opening_stretch_needed",
     [](const SizeLine& l) {
       return l.fit ? std::optional(l.fit->opening.stretch_needed) : std::optional<double>();
     },
     6},
};

const std::vector<const std::vector<Column>*> all_columns = {&form_columns, &measured_columns, &fit_columns};

std::string verdict(const SizeLine& line) {
  return line.fit && line.fit->crown ? fit::in_words(line.fit->crown->report.verdict) : "";
}

// ---- CSV -------------------------------------------------------------------------------------

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string result = "\"";
  for (const char c : text) result.append(c == '"' ? 2 : 1, c);
  return result.append("\"");
}

std::string csv_line(const SizeLine& line) {
  std::string text = quoted(line.size);
  for (const auto* columns : all_columns) {
    for (const Column& column : *columns) {
      const auto value = line.fault ? std::nullopt : column.value(line);
      text.append(",").append(value ? number_text(*value, column.decimals) : "");
    }
  }
  text.append(",").append(verdict(line)).append(",");
  return text.append(line.fault ? quoted(line.fault->line()) : "").append("\r\n");
}

// ---- JSON ------------------------------------------------------------------------------------

// The prefix tells columns of one table apart and is left out where they have an object to themselves.
Json columns_json(const SizeLine& line, const std::vector<Column>& columns, const std::string& prefix = {}) {
  Json json = Json::object();
  for (const Column& column : columns) {
    const auto value = column.value(line);
    json[column.name + prefix.size()] = value ? Json(rounded(*value, column.decimals)) : Json(nullptr);
  }
  return json;
}

Json fit_json(const SizeLine& line) {
  Json json = {{"verdict", verdict(line).empty() ? Json(nullptr) : Json(verdict(line))}};
  json.update(columns_json(line, fit_columns));
  return json;
}

Json line_json(const SizeLine& line) {
  Json json = {{"size", line.size}, {"made", !line.fault}};
  if (line.fault) {
    json["fault"] = {{"exit", static_cast<int>(line.fault->exit)},
                     {"where", line.fault->where},
                     {"what", line.fault->what},
                     {"allowed", line.fault->allowed}};
    return json;
  }
  json["form"] = columns_json(line, form_columns);
  json["measured"] = columns_json(line, measured_columns, "measured_");
  json["fit"] = fit_json(line);
  json["files"] = line.files;
  return json;
}

// ---- text ------------------------------------------------------------------------------------

constexpr std::size_t columns_of_text = 80;

std::string padded(const std::string& text, std::size_t width) {
  return text.size() < width ? text + std::string(width - text.size(), ' ') : text + " ";
}

std::string cm(const std::optional<double>& mm) { return mm ? number_text(*mm / 10, 1) : "-"; }

std::string percent(const std::optional<double>& fraction) {
  return fraction ? number_text(100 * *fraction, 1) : "-";
}

// "-6.2 of -12.0": the mean strain that uses most of what the cloth takes.
std::string worst(const SizeLine& line) {
  if (!line.fit || !line.fit->crown) return "-";
  const fit::Worst& worst = line.fit->crown->report.worst;
  return percent(worst.value) + " of " + percent(worst.limit);
}

// Words over as many lines as they need, the later ones set in.
std::string wrapped_words(const std::string& words, std::size_t indent) {
  std::string text;
  std::size_t column = 0;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    const std::string word = words.substr(at, end - at);
    if (column > indent && column + 1 + word.size() > columns_of_text) {
      text.append("\n").append(std::string(indent, ' '));
      column = indent;
    } else if (at > 0) {
      text += ' ', ++column;
    }
    text += word, column += word.size();
    at = end + 1;
  }
  return text + "\n";
}

// A long name has a line to itself.
std::string size_name(const SizeLine& line, std::size_t first) {
  if (line.size.size() < first) return padded(line.size, first);
  return line.size + "\n" + std::string(first, ' ');
}

std::string text_line(const SizeLine& line, std::size_t first) {
  if (line.fault) {
    const std::string place = std::string(first, ' ');
    return size_name(line, first) +
           wrapped_words(place + "not made: " + line.fault->what, first).substr(first);
  }
  return size_name(line, first) + padded(cm(line.readings.head_girth), 6) +
         padded(cm(line.readings.crown_diameter), 7) + padded(cm(line.readings.rise), 6) +
         padded(percent(of_crown(line, &fit::FitReport::seam_length)), 7) +
         padded(percent(of_crown(line, &fit::FitReport::centre_length)), 8) + padded(worst(line), 15) +
         padded(line.fit ? percent(line.fit->opening.stretch_needed) : "-", 9) +
         (verdict(line).empty() ? "-" : verdict(line)) + "\n";
}

}  // namespace

SizeLine size_line(const std::string& size, const making::Form& form, std::vector<std::string> files) {
  return {size, std::nullopt, form.figures, form.proven.readings(), form.fit, std::move(files)};
}

std::string size_table_csv(const std::vector<SizeLine>& lines) {
  std::string text = "size";
  for (const auto* columns : all_columns)
    for (const Column& column : *columns) text.append(",").append(column.name);
  text += ",verdict,fault\r\n";
  for (const SizeLine& line : lines) text += csv_line(line);
  return text;
}

std::string size_table_json(const std::string& name, const std::vector<SizeLine>& lines,
                            const std::vector<std::string>& files) {
  Json sizes = Json::array();
  for (const SizeLine& line : lines) sizes.push_back(line_json(line));
  const Json json = {
      {"name", name}, {"made_by", "crownwright"}, {"units", "mm"}, {"sizes", sizes}, {"files", files}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string size_table_text(const std::string& name, const std::vector<SizeLine>& lines) {
  constexpr std::size_t usual = 6, widest = 11;
  std::size_t first = usual;
  for (const SizeLine& line : lines) first = std::max(first, std::min(line.size.size() + 2, widest));
  std::string text =
      wrapped_words(name + ", " + std::to_string(lines.size()) + " sizes (lengths in cm, strains in %)", 0);
  text += padded("Size", first) + "Head  Crown  Rise  Seam   Centre  Worst          To open  Fits\n";
  for (const SizeLine& line : lines) text += text_line(line, first);
  return text;
}

}  // namespace crownwright::report
