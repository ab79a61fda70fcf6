#include "report/formats/records_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/formats/text.hpp"
#include "report/formats/text_parts.hpp"
#include "report/tables/records.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/wrap.hpp"

namespace fairlead::text {

std::string headline(const Records& records) {
  std::string counts;
  for (const Verdict verdict : {Verdict::fail, Verdict::undetermined, Verdict::not_judged, Verdict::pass})
    if (const auto n = std::ranges::count(records.findings, verdict, &RecordFinding::verdict);
        n > 0 && (verdict != Verdict::pass || records.verdict == Verdict::pass))
      counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", n, words::word_for(verdict));
  return (records.verdict == Verdict::pass ? "RECORDS IN ORDER: " : "RECORDS NOT IN ORDER: ") +
         (counts.empty() ? "nothing was judged" : counts);
}

std::string write(const Records& records, const Layout& layout, const Style& style) {
  std::string text = headline(records) + "\n\nRECORDS\n" + whose(layout);
  text += records.date ? fmt::format("judged on {}\n", words::date_of(*records.date))
                       : std::string("judged on no date: give --date\n");
  if (const Table open = tables::records_open(records, style); !open.rows.empty()) text += '\n' + write(open, style);
  if (const Table passed = tables::records_passed(records, style); !passed.rows.empty())
    text += '\n' + write(passed, style);
  text += '\n' + write(tables::register_of_parts(records), style);
  return text + list_text("Cautions", words::cautions());
}

}  // namespace fairlead::text
