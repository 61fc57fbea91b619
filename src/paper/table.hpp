#pragma once
#include <string>
#include <vector>

#include "paper/page.hpp"

namespace wildling::paper {

struct Column {
  std::string head;
  double width_pt = 50;
  Align align = Align::left;
  bool bold = false;
  bool italic = false;
};

/// Writes a ruled table downward; when a line does not fit the page turns and the head is written
/// again.
class Table {
 public:
  Table(Page& page, std::vector<Column> columns, double x, Type type = {});
  void head();
  /// @param least_height_pt for lines to be filled by hand
  /// @param exactly the height is not more than that, even if the letters' own leading is
  void row(const std::vector<std::string>& cells, double least_height_pt = 0, bool exactly = false);
  [[nodiscard]] double width() const;
  [[nodiscard]] double head_height() const;

 private:
  double cells_height(const std::vector<std::string>& cells, bool bold) const;
  void draw(const std::vector<std::string>& cells, double tall, bool bold);

  Page& page_;
  std::vector<Column> columns_;
  double x_;
  Type type_;
};

}  // namespace wildling::paper
