// Reads the values of single keys. What is wrong with one becomes an error; it then holds what was readable of it.
#pragma once

#include <array>
#include <string>

#include "geometry/layout/field.hpp"
#include "geometry/layout/ids.hpp"
#include "geometry/layout/node.hpp"

namespace fairlead {

class ValueReader {
 public:
  ValueReader(Errors& errors, const Ids& ids) : errors_(errors), ids_(ids) {}

  /// `who`: the item as it begins a message, "anchor \"A2\"".
  void read(const Node&, const Key&, const std::string& who, double&);
  void read(const Node&, const Key&, const std::string& who, std::string&);
  void read(const Node&, const Key&, const std::string& who, bool&);
  void read(const Node&, const Key&, const std::string& who, Range&);
  void read(const Node&, const Key&, const std::string& who, Point3&);
  void read(const Node&, const Key&, const std::string& who, Vec3&);
  void read(const Node&, const Key&, const std::string& who, Size&);
  void read(const Node&, const Key&, const std::string& who, PerAxis&);
  void read(const Node&, const Key&, const std::string& who, Curve&);
  void read(const Node&, const Key&, const std::string& who, Date&);
  void read(const Node&, const Key&, const std::string& who, Limit&);
  void read(const Node&, const Key&, const std::string& who, std::array<std::string, 3>& axes);
  void read(const Node&, const Key&, const std::string& who, std::vector<std::string>& joins);

  /// A reference: the item of this id if it is one of those kinds.
  std::optional<Item> item(const Node&, const Key&, const std::string& who, const std::vector<Item::Kind>&);
  /// The index of a text among the words it may be.
  std::optional<std::size_t> choice(const Node&, const Key&, const std::string& who,
                                    const std::vector<std::string>& words);

 protected:
  /// False, with an error, where the table is none; an error for each key that is not known.
  bool check_table(const Node&, const Key&, const std::string& who, const std::vector<std::string>& known);
  void refuse(const Node&, const std::string& who, const std::string& message, const std::string& instead = "");
  void refuse_kind(const Node&, const Key&, const std::string& who, std::string_view wanted);

  Errors& errors_;
  const Ids& ids_;

 private:
  double quantity(const Node&, const Key&, const std::string& who, Dimension, const Bounds&);
  std::array<double, 3> triple(const Node&, const Key&, const std::string& who, std::string_view what);
};

}  // namespace fairlead
