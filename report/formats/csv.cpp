#include "report/formats/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <set>

#include "report/tables/every.hpp"
#include "report/words/names.hpp"
#include "report/words/numbers.hpp"
#include "report/words/trial.hpp"
#include "report/words/version.hpp"

namespace fairlead::formats {
namespace {

std::string quoted(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char c : text) out.append(c == '"' ? 2 : 1, c);
  return out + '"';
}

std::string line_of(const std::vector<std::string>& fields) {
  std::string line;
  for (const std::string& field : fields) line.append(&field == &fields.front() ? "" : ",").append(quoted(field));
  return line.append("\r\n");
}

/// To the digits JSON has.
std::string number_of(double si) {
  if (std::isnan(si)) return "unknown";
  if (std::isinf(si)) return si > 0 ? "infinite" : "-infinite";
  constexpr int digits = 10;
  char text[32];
  // + 0.0 turns -0 into 0.
  return {text, std::to_chars(text, text + sizeof text, si + 0.0, std::chars_format::general, digits).ptr};
}

/// The units of a column's numbers: none where it has only words.
std::set<std::string_view> units_of(const Table& table, std::size_t column) {
  std::set<std::string_view> units;
  for (const auto& row : table.rows)
    if (const auto* quantity = std::get_if<Quantity>(&row[column])) units.insert(words::si_unit(quantity->dimension));
  return units;
}

std::string text_of(const Cell& cell) {
  if (const auto* quantity = std::get_if<Quantity>(&cell)) return number_of(quantity->si);
  const auto* words = std::get_if<std::string>(&cell);
  return words ? *words : "";
}

/// "sag", "sag 2": what a spreadsheet calls a column must be one.
std::string only(std::string heading, std::set<std::string>& taken) {
  if (heading.empty()) heading = "column";
  std::string name = heading;
  for (int i = 2; !taken.insert(name).second; ++i) name = fmt::format("{} {}", heading, i);
  return name;
}

/// Rows whose empty beginning stands for that of the row before.
std::vector<std::vector<Cell>> whole_rows(const Table& table) {
  auto rows = table.rows;
  for (std::size_t i = 1; i < rows.size(); ++i)
    for (std::size_t c = 0; c < rows[i].size() && std::holds_alternative<std::monostate>(rows[i][c]); ++c)
      rows[i][c] = rows[i - 1][c];
  return rows;
}

/// "anchor_loads" of "Anchor loads".
std::string file_name(const std::string& title) {
  std::string name;
  for (const char c : title) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'), capital = c >= 'A' && c <= 'Z';
    if (letter || capital)
      name += capital ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!name.empty() && name.back() != '_')
      name += '_';
  }
  while (name.ends_with('_')) name.pop_back();
  return name;
}

}  // namespace

std::string csv(const Table& table) {
  std::set<std::string> taken;
  std::vector<std::string> header;
  std::vector<bool> with_unit;
  for (std::size_t column = 0; column < table.headings.size(); ++column) {
    const auto units = units_of(table, column);
    const bool one = units.size() == 1 && *units.begin() != "1";
    header.push_back(
        only(one ? fmt::format("{}, {}", table.headings[column], *units.begin()) : table.headings[column], taken));
    with_unit.push_back(units.size() > 1);
    if (units.size() > 1) header.push_back(only(fmt::format("unit of {}", header.back()), taken));
  }
  std::string text = line_of(header);
  for (const auto& row : whole_rows(table)) {
    std::vector<std::string> fields;
    for (std::size_t column = 0; column < row.size(); ++column) {
      fields.push_back(text_of(row[column]));
      if (!with_unit[column]) continue;
      const auto* quantity = std::get_if<Quantity>(&row[column]);
      fields.emplace_back(quantity ? words::si_unit(quantity->dimension) : "");
    }
    text += line_of(fields);
  }
  return text;
}

std::vector<File> csv_files(const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  std::string index = line_of({"file", "title", "note"});
  const auto says = [&](const std::string& file, const std::string& title, const std::string& note) {
    index += line_of({file, title, note});
  };
  says("", "Verdict", words::headline(dossier));
  says("", "Program", fmt::format("fairlead {}: a calculation aid, not an approval", words::program_version()));
  says("", "Layout",
       fmt::format("{} rev. {}, sha256 {}", layout.project.number.value, layout.project.revision.value, layout.sha256));
  if (!layout.project.approver || layout.project.approver->value.empty()) says("", "Status", "NOT FOR CONSTRUCTION");
  says("", "Numbers",
       "SI: m, rad, kg, N, s, K and what is made of them; words in cells keep the units they were written in");

  std::vector<File> files{{"tables.csv", ""}};
  std::set<std::string> taken{"tables"};
  for (const Table& table : tables::every(dossier, style)) {
    std::string name;
    if (!table.rows.empty()) {
      name = only(file_name(table.title), taken) + ".csv";
      std::replace(name.begin(), name.end(), ' ', '_');
      files.push_back({name, csv(table)});
    }
    for (const std::string& note : table.notes) says(name, table.title, note);
    if (table.notes.empty() && !name.empty()) says(name, table.title, "");
  }
  files.front().bytes = std::move(index);
  return files;
}

}  // namespace fairlead::formats
