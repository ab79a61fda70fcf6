#include "tests/accuracy/accuracy.hpp"

#include <fmt/format.h>

#include <cmath>

namespace fairlead::accuracy {
namespace {

int decimals(const Row& row) {
  const auto point = row.expected.find('.');
  return point == std::string::npos ? 0 : static_cast<int>(row.expected.size() - point - 1);
}

/// Less than a thousandth of what is allowed is rounding, which differs from one compiler to the next.
std::string shown_error(const Row& row) {
  const double error = row.ours - expected_value(row);
  return std::abs(error) < tolerance(row) / 1000 ? "0" : fmt::format("{:.1e}", error);
}

}  // namespace

double expected_value(const Row& row) { return std::stod(row.expected); }

double tolerance(const Row& row) { return 0.5 * std::pow(10.0, -decimals(row)); }

bool met(const Row& row) {
  // A figure that ends in 5 just beyond the last digit may be rounded either way; the sum of two doubles is not exact.
  return std::abs(row.ours - expected_value(row)) <= tolerance(row) * (1 + 1e-9);
}

std::vector<Row> all_rows() {
  std::vector<Row> rows;
  for (const auto part : {mainline_rows, reeving_rows, friction_rows, approach_rows, motion_rows, rig_rows}) {
    const std::vector<Row> more = part();
    rows.insert(rows.end(), more.begin(), more.end());
  }
  return rows;
}

std::string document(const std::vector<Row>& rows) {
  std::string text =
      "# Accuracy\n\n"
      "Every known answer the tests hold us to, and ours. A row must be met within half of the last digit its source\n"
      "prints. The keys are explained in [SOURCES.md](SOURCES.md). Written by the target `accuracy_table`: do not "
      "edit.\n";
  std::string part;
  for (const Row& row : rows) {
    if (row.part != part) {
      part = row.part;
      text +=
          "\n## " + part + "\n\n| quantity | source | expected | ours | error | allowed |\n|---|---|---|---|---|---|\n";
    }
    const int digits = decimals(row) + 2;
    text += fmt::format("| {} | {} | {} {} | {:.{}f} | {} | {:.1e} |\n", row.quantity, row.source, row.expected,
                        row.unit, row.ours, digits, shown_error(row), tolerance(row));
  }
  return text;
}

}  // namespace fairlead::accuracy
