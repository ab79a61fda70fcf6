// The points of the file that a layout names in [points], for the keys that name one of them.
#pragma once

#include <set>

#include "geometry/layout/errors.hpp"
#include "geometry/layout/points.hpp"

namespace fairlead {

class PointsTable {
 public:
  /// The file is looked for beside the layout, `layout_name`.
  PointsTable(std::string layout_name, const FileSource& source, Errors& errors)
      : layout_name_(std::move(layout_name)), source_(source), errors_(errors) {}

  /// Absent: no layout section names a file; unsound: there are errors that say why its points are not known.
  enum class State { absent, unsound, known };
  State state() const { return state_; }

  /// What is wrong with the file becomes errors: of its name where it is written, of its lines where they stand.
  void read(const PointsFile&);
  void read_nothing() { state_ = State::unsound; }

  /// The point of this id; null with an error at `place` where there is none.
  const SurveyPoint* find(const std::string& id, Place place, const std::string& who);

  /// The points that were not asked for.
  std::vector<SurveyPoint> unnamed() const;

  const std::string& path() const { return path_; }
  const std::string& bytes() const { return bytes_; }

 private:
  std::string layout_name_;
  const FileSource& source_;
  Errors& errors_;
  State state_ = State::absent;
  std::string path_, bytes_;
  std::vector<SurveyPoint> points_;
  std::set<std::string, std::less<>> named_;
};

}  // namespace fairlead
