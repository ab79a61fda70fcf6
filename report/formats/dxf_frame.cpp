#include "report/formats/dxf_frame.hpp"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <numeric>

namespace fairlead::formats {

using namespace drawing;

namespace {

constexpr const char* plot_style = "Normal";

/// An index of the colours every reader of the release has.
int index_of(Layer layer) {
  constexpr int red = 12, green = 94, blue = 172, purple = 214, grey = 8;
  switch (layer) {
    case Layer::braking_line:
      return blue;
    case Layer::reduction_line:
      return purple;
    case Layer::envelope:
      return green;
    case Layer::loads:
    case Layer::cautions:
      return red;
    case Layer::grid:
      return grey;
    default:
      return dxf_ink;
  }
}

}  // namespace

const std::vector<DxfPattern>& dxf_patterns() {
  // After ISO 128; `dashes` stretches them, and the scale of every line says by how much.
  static const std::vector<DxfPattern> all{
      {LineType::dashed, "DASHED", "__ __ __", {12, -3}},
      {LineType::dash_dot, "LONG_DASH_DOT", "____ . ____ .", {24, -3, 0.5, -3}},
      {LineType::dash_double_dot, "LONG_DASH_DOUBLE_DOT", "____ . . ____", {24, -3, 0.5, -3, 0.5, -3}},
      {LineType::long_dash_short_dash, "LONG_DASH_SHORT_DASH", "____ _ ____ _", {24, -3, 6, -3}}};
  return all;
}

DxfFrame::DxfFrame(DxfPairs& out, const std::vector<Sheet>& sheets, const Font& font)
    : out_(out), sheets_(sheets), font_(font) {
  for (unsigned* handle :
       {&root_, &groups_, &layouts_, &plot_styles_, &plot_style_, &model_, &paper_, &model_layout_, &paper_layout_})
    *handle = out_.new_handle();
}

Paper DxfFrame::extent() const {
  Paper extent{-dxf_between_mm, 0};
  for (const Sheet& sheet : sheets_)
    extent = {extent.x_mm + sheet.width_mm + dxf_between_mm, std::max(extent.y_mm, sheet.height_mm)};
  return extent;
}

void DxfFrame::header() {
  const auto variable = [&](const char* name) { out_.put(9, name); };
  variable("$ACADVER"), out_.put(1, "AC1015");
  variable("$DWGCODEPAGE"), out_.put(3, "ANSI_1252");
  variable("$INSBASE"), out_.point3(10, {0, 0});
  variable("$EXTMIN"), out_.point3(10, {0, 0});
  variable("$EXTMAX"), out_.point3(10, extent());
  variable("$LIMMIN"), out_.point(10, {0, 0});
  variable("$LIMMAX"), out_.point(10, extent());
  variable("$FILLMODE"), out_.put(70, 1);
  variable("$LTSCALE"), out_.real(40, 1);
  variable("$TEXTSTYLE"), out_.put(7, "Standard");
  variable("$CLAYER"), out_.put(8, "0");
  variable("$LUNITS"), out_.put(70, 2);
  variable("$MEASUREMENT"), out_.put(70, 1);
  variable("$PLINEGEN"), out_.put(70, 1);
  variable("$LWDISPLAY"), out_.put(290, 1);
  variable("$INSUNITS"), out_.put(70, 4);  // millimetres
  variable("$PSTYLEMODE"), out_.put(290, 1);
  variable("$HANDSEED"), out_.handle(5, out_.next_handle());
}

/// A table and its records; a record is written by `records` through `record`.
template <class Records>
void DxfFrame::table(const char* name, int count, Records records) {
  table_ = out_.new_handle();
  out_.put(0, "TABLE");
  out_.put(2, name);
  out_.handle(5, table_);
  out_.handle(330, 0);
  out_.put(100, "AcDbSymbolTable");
  out_.put(70, count);
  records();
  out_.put(0, "ENDTAB");
}
void DxfFrame::record(const char* kind, const char* subclass, std::string_view name, unsigned handle) {
  out_.put(0, kind);
  out_.handle(std::string_view(kind) == "DIMSTYLE" ? 105 : 5, handle ? handle : out_.new_handle());
  out_.handle(330, table_);
  out_.put(100, "AcDbSymbolTableRecord");
  out_.put(100, subclass);
  out_.words(2, name);
  if (std::string_view(kind) != "BLOCK_RECORD") out_.put(70, 0);
}

void DxfFrame::tables() {
  table("VPORT", 1, [&] { active_port(); });
  table("LTYPE", 3 + static_cast<int>(dxf_patterns().size()), [&] { line_types(); });
  table("LAYER", 1 + layer_count, [&] {
    layer("0", dxf_ink);
    for (int i = 0; i < layer_count; ++i) layer(layer_name(static_cast<Layer>(i)), index_of(static_cast<Layer>(i)));
  });
  table("STYLE", 2, [&] {
    text_style("Standard", "txt");
    text_style(dxf_text_style, std::filesystem::path(font_.path()).filename().string());
  });
  table("VIEW", static_cast<int>(sheets_.size()), [&] { named_views(); });
  table("UCS", 0, [] {});
  table("APPID", 1, [&] { record("APPID", "AcDbRegAppTableRecord", "ACAD"); });
  table("DIMSTYLE", 1, [&] {
    out_.put(100, "AcDbDimStyleTable");
    record("DIMSTYLE", "AcDbDimStyleTableRecord", "Standard");
  });
  table("BLOCK_RECORD", 2, [&] {
    record("BLOCK_RECORD", "AcDbBlockTableRecord", "*Model_Space", model_);
    out_.handle(340, model_layout_);
    record("BLOCK_RECORD", "AcDbBlockTableRecord", "*Paper_Space", paper_);
    out_.handle(340, paper_layout_);
  });
}

/// Everything is seen when the file is opened.
void DxfFrame::active_port() {
  record("VPORT", "AcDbViewportTableRecord", "*Active");
  const Paper all = extent();
  out_.point(10, {0, 0});
  out_.point(11, {1, 1});
  out_.point(12, 0.5 * all);
  out_.point(13, {0, 0});
  out_.point(14, {10, 10});
  out_.point(15, {10, 10});
  out_.point(16, {0, 0}), out_.real(36, 1);
  out_.point3(17, {0, 0});
  constexpr double aspect = 1.6;  // of a screen
  out_.real(40, std::max(all.y_mm, all.x_mm / aspect));
  out_.real(41, aspect);
  out_.real(42, 50);
  for (const int code : {43, 44, 50, 51}) out_.real(code, 0);
  for (const auto& [code, value] : {std::pair{71, 0}, {72, 1000}, {73, 1}, {74, 3}, {75, 0}, {76, 0}, {77, 0}, {78, 0}})
    out_.put(code, value);
}

void DxfFrame::line_types() {
  const auto type = [&](const char* name, const char* looks, const std::vector<double>& lengths) {
    record("LTYPE", "AcDbLinetypeTableRecord", name);
    out_.put(3, looks);
    out_.put(72, 65);
    out_.put(73, static_cast<int>(lengths.size()));
    out_.real(40, std::accumulate(lengths.begin(), lengths.end(), 0.0,
                                  [](double sum, double length) { return sum + std::abs(length); }));
    for (const double length : lengths) out_.real(49, length), out_.put(74, 0);
  };
  for (const char* name : {"ByBlock", "ByLayer", "Continuous"}) type(name, "", {});
  for (const DxfPattern& pattern : dxf_patterns()) type(pattern.name, pattern.looks, pattern.lengths);
}

void DxfFrame::layer(std::string_view name, int colour) {
  record("LAYER", "AcDbLayerTableRecord", name);
  out_.put(62, colour);
  out_.put(6, "Continuous");
  out_.put(370, -3);  // the weight stands at every line
  out_.handle(390, plot_style_);
}

void DxfFrame::text_style(const char* name, const std::string& file) {
  record("STYLE", "AcDbTextStyleTableRecord", name);
  out_.real(40, 0);  // every text has its own height
  out_.real(41, 1);
  out_.real(50, 0);
  out_.put(71, 0);
  out_.real(42, 2.5);
  out_.words(3, file);
  out_.put(4, "");
}

void DxfFrame::named_views() {
  double left = 0;
  for (std::size_t i = 0; i < sheets_.size(); ++i) {
    const Sheet& sheet = sheets_[i];
    record("VIEW", "AcDbViewTableRecord", fmt::format("SHEET {}", i + 1));
    out_.real(40, sheet.height_mm);
    out_.point(10, {left + sheet.width_mm / 2, sheet.height_mm / 2});
    out_.real(41, sheet.width_mm);
    out_.point(11, {0, 0}), out_.real(31, 1);
    out_.point3(12, {0, 0});
    out_.real(42, 50);
    for (const int code : {43, 44, 50}) out_.real(code, 0);
    out_.put(71, 0);
    left += sheet.width_mm + dxf_between_mm;
  }
}

void DxfFrame::blocks() {
  for (const auto& [record, name] : {std::pair{model_, "*Model_Space"}, {paper_, "*Paper_Space"}}) {
    out_.put(0, "BLOCK");
    out_.handle(5, out_.new_handle());
    out_.handle(330, record);
    out_.put(100, "AcDbEntity");
    out_.put(8, "0");
    out_.put(100, "AcDbBlockBegin");
    out_.put(2, name);
    out_.put(70, 0);
    out_.point3(10, {0, 0});
    out_.put(3, name);
    out_.put(1, "");
    out_.put(0, "ENDBLK");
    out_.handle(5, out_.new_handle());
    out_.handle(330, record);
    out_.put(100, "AcDbEntity");
    out_.put(8, "0");
    out_.put(100, "AcDbBlockEnd");
  }
}

void DxfFrame::dictionary(unsigned handle, unsigned owner,
                          const std::vector<std::pair<const char*, unsigned>>& entries) {
  out_.put(0, "DICTIONARY");
  out_.handle(5, handle);
  out_.handle(330, owner);
  out_.put(100, "AcDbDictionary");
  out_.put(281, 1);
  for (const auto& [name, of] : entries) out_.put(3, name), out_.handle(350, of);
}

void DxfFrame::objects() {
  dictionary(root_, 0, {{"ACAD_GROUP", groups_}, {"ACAD_LAYOUT", layouts_}, {"ACAD_PLOTSTYLENAME", plot_styles_}});
  dictionary(groups_, root_, {});
  dictionary(layouts_, root_, {{"Model", model_layout_}, {"Layout1", paper_layout_}});
  out_.put(0, "ACDBDICTIONARYWDFLT");
  out_.handle(5, plot_styles_);
  out_.handle(330, root_);
  out_.put(100, "AcDbDictionary");
  out_.put(281, 1);
  out_.put(3, plot_style), out_.handle(350, plot_style_);
  out_.put(100, "AcDbDictionaryWithDefault");
  out_.handle(340, plot_style_);
  out_.put(0, "ACDBPLACEHOLDER");
  out_.handle(5, plot_style_);
  out_.handle(330, plot_styles_);
  layout("Model", model_layout_, model_, 0);
  layout("Layout1", paper_layout_, paper_, 1);
}

void DxfFrame::layout(const char* name, unsigned handle, unsigned block, int tab) {
  out_.put(0, "LAYOUT");
  out_.handle(5, handle);
  out_.handle(330, layouts_);
  out_.put(100, "AcDbPlotSettings");
  for (const int code : {1, 2, 4, 6}) out_.put(code, "");
  for (const int code : {40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 140, 141}) out_.real(code, 0);
  for (const int code : {142, 143}) out_.real(code, 1);
  constexpr int of_model_space = 1024, at_first = 688;  // scale and line weights as every program sets them at first
  out_.put(70, at_first + (tab == 0 ? of_model_space : 0));
  for (const auto& [code, value] : {std::pair{72, 1}, {73, 0}, {74, 5}}) out_.put(code, value);
  out_.put(7, "");
  out_.put(75, 16);
  out_.real(147, 1);
  out_.point(148, {0, 0});
  out_.put(100, "AcDbLayout");
  out_.put(1, name);
  out_.put(70, 1);
  out_.put(71, tab);
  const Paper all = extent();
  out_.point(10, {0, 0});
  out_.point(11, all);
  out_.point3(12, {0, 0});
  out_.point3(14, {0, 0});
  out_.point3(15, all);
  out_.real(146, 0);
  out_.point3(13, {0, 0});
  out_.point(16, {1, 0}), out_.real(36, 0);
  out_.point(17, {0, 1}), out_.real(37, 0);
  out_.put(76, 0);
  out_.handle(330, block);
}

}  // namespace fairlead::formats
