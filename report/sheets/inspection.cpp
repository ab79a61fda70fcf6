#include "report/sheets/inspection.hpp"

#include <fmt/format.h>

#include "report/sheets/fill_in.hpp"
#include "report/sheets/furniture.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/inspection.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

class Forms {
 public:
  Forms(const Dossier& dossier, const Records& records, const Style& style, const Office& office)
      : dossier_(dossier), records_(records), style_(style), office_(office) {}

  std::vector<Body> take() {
    daily();
    periodic();
    return std::move(bodies_);
  }

 private:
  void form(Pages& pages, const Table& table) {
    const Box room = pages.above_title_block();
    for (const Block& block : fill_in_blocks(table, style_, office_.font, room.width(), room.height()))
      pages.put(block);
  }

  Block notes(std::vector<std::string> more) const {
    std::vector<Paragraph> all;
    all.push_back({"–", "This layout: " + words::headline(dossier_.judged) + ".", Layer::notes});
    for (std::string& text : more) all.push_back({"–", std::move(text), Layer::notes});
    all.push_back({"–",
                   records_.date ? "Days left are counted from " + words::date_of(*records_.date) + "."
                                 : std::string("No date was stated, and no days left are counted."),
                   Layer::notes});
    all.push_back({"–",
                   "Write what is read with its unit, never what it should be. What was not looked at is not in order. "
                   "What to look for is common practice; the makers' instructions ask for more.",
                   Layer::notes});
    return block_of(Paragraphs("NOTES", std::move(all), {small_cap_mm}));
  }

  static Block signed_by(const char* what) {
    return block_of(
        Paragraphs("SIGNED",
                   {{"", "Day, time, temperature: ______________________________________________", Layer::notes},
                    {"", "Inspected by, qualification: _________________________________________", Layer::notes},
                    {"", fmt::format("{}: ______________________________________", what), Layer::notes}},
                   {note_cap_mm}));
  }

  Block cautions() const {
    std::vector<Paragraph> all;
    for (const std::string_view one : words::cautions())
      all.push_back({std::to_string(all.size() + 1) + '.', std::string(one), Layer::cautions});
    return block_of(Paragraphs("CAUTIONS", std::move(all), {small_cap_mm}));
  }

  void daily() {
    Pages pages(dossier_, office_, bodies_);
    pages.begin({"Daily inspection", "Inspection form", "none", {}},
                {pages.above_title_block(), pages.columns().back()});
    form(pages, tables::daily_inspection(dossier_, records_, style_));
    pages.put(
        notes({"Expected: of this layout, as it was judged. Nobody rides before every row is in order, and what "
               "is not is in the log of findings."}));
    pages.put(signed_by("Riders may be sent, by"));
    pages.put(cautions());
  }

  void periodic() {
    Pages pages(dossier_, office_, bodies_);
    pages.begin({"Periodic inspection", "Inspection form", "none", {}},
                {pages.above_title_block(), pages.columns().back()});
    form(pages, tables::periodic_parts(dossier_, records_, style_));
    form(pages, tables::periodic_main_line(dossier_, style_));
    form(pages, tables::periodic_hand_pulls(dossier_, style_));
    form(pages, tables::periodic_marks(dossier_, style_));
    pages.put(
        notes({"Diameters and what else is measured go into the file of measurements, what is found into the log, "
               "days and serials into the register: fairlead records judges them."}));
    pages.put(signed_by("Kept in service, by"));
  }

  const Dossier& dossier_;
  const Records& records_;
  const Style& style_;
  const Office& office_;
  std::vector<Body> bodies_;
};

}  // namespace

std::vector<Sheet> compose_inspection(const Dossier& dossier, const Records& records, const Style& style,
                                      const Office& office) {
  return finished(Forms(dossier, records, style, office).take(), office, dossier.judged.rig.layout);
}

std::vector<std::string> written_in(const RecordsInput& records) {
  std::vector<std::string> all;
  for (const RegisteredPart& one : records.parts)
    for (const std::string& text : {one.serial, one.batch, one.basis}) all.push_back(with_minus(text));
  for (const LoggedFinding& one : records.log)
    for (const std::string& text : {one.id, one.what, one.by, one.how}) all.push_back(with_minus(text));
  std::erase(all, "");
  return all;
}

}  // namespace fairlead::sheets
