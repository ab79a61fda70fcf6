// What a DXF file of release R2000 carries whatever is drawn in it.
#pragma once

#include <vector>

#include "report/drawing/font.hpp"
#include "report/formats/dxf_pairs.hpp"

namespace fairlead::formats {

/// A line type in line widths: dashes above zero, gaps below. After ISO 128.
struct DxfPattern {
  drawing::LineType type;
  const char *name, *looks;
  std::vector<double> lengths;
};
const std::vector<DxfPattern>& dxf_patterns();

inline constexpr const char* dxf_text_style = "LETTERING";
inline constexpr double dxf_between_mm = 20;  ///< sheets in model space
inline constexpr int dxf_ink = 7;             ///< black on white paper and white on a black screen

/// Header, tables, blocks and objects about the sheets in model space. The tables come first: they give out the handles
/// the others name.
class DxfFrame {
 public:
  DxfFrame(DxfPairs&, const std::vector<drawing::Sheet>&, const drawing::Font&);
  void header();  ///< last, for it tells the first handle nobody has
  void tables();
  void blocks();
  void objects();
  unsigned model() const { return model_; }  ///< what owns an entity

 private:
  template <class Records>
  void table(const char* name, int count, Records);
  void record(const char* kind, const char* subclass, std::string_view name, unsigned handle = 0);
  void active_port();
  void line_types();
  void layer(std::string_view name, int colour);
  void text_style(const char* name, const std::string& file);
  void named_views();
  void dictionary(unsigned handle, unsigned owner, const std::vector<std::pair<const char*, unsigned>>& entries);
  void layout(const char* name, unsigned handle, unsigned block, int tab);
  drawing::Paper extent() const;

  DxfPairs& out_;
  const std::vector<drawing::Sheet>& sheets_;
  const drawing::Font& font_;
  unsigned root_{}, groups_{}, layouts_{}, plot_styles_{}, plot_style_{}, model_{}, paper_{}, model_layout_{},
      paper_layout_{}, table_{};
};

}  // namespace fairlead::formats
