#include "paper/table.hpp"

#include <algorithm>

namespace wildling::paper {
namespace {

constexpr double kInset = 3.5;

}  // namespace

Table::Table(Page& page, std::vector<Column> columns, double x, Type type)
    : page_(page), columns_(std::move(columns)), x_(x), type_(type) {}

double Table::width() const {
  double sum = 0;
  for (const Column& column : columns_) sum += column.width_pt;
  return sum;
}

double Table::cells_height(const std::vector<std::string>& cells, bool bold) const {
  double tall = 0;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    Type type = type_;
    type.bold = bold || columns_[i].bold;
    tall = std::max(tall, page_.canvas.height(columns_[i].width_pt - 2 * kInset, cells[i], type));
  }
  return tall + 2;
}

double Table::head_height() const {
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  return cells_height(heads, true);
}

void Table::draw(const std::vector<std::string>& cells, double tall, bool bold) {
  double x = x_;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const Column& column = columns_[i];
    Type type = type_;
    type.bold = bold || column.bold;
    type.italic = !bold && column.italic;
    page_.canvas.text(x + kInset, page_.y + (tall < 15.5 ? -0.3 : 0.5),
                      column.width_pt - 2 * kInset, cells[i], type, column.align);
    page_.canvas.line({x, page_.y}, {x, page_.y + tall}, {0.6, kInk, {}});
    x += column.width_pt;
  }
  page_.canvas.line({x, page_.y}, {x, page_.y + tall}, {0.6, kInk, {}});
  page_.y += tall;
  page_.canvas.line({x_, page_.y}, {x, page_.y}, {bold ? 1.4 : 0.6, kInk, {}});
}

void Table::head() {
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  page_.canvas.line({x_, page_.y}, {x_ + width(), page_.y}, {1.4, kInk, {}});
  draw(heads, head_height(), true);
}

void Table::row(const std::vector<std::string>& cells, double least_height_pt, bool exactly) {
  const double tall =
      exactly ? least_height_pt : std::max(cells_height(cells, false), least_height_pt);
  if (page_.need(tall)) head();
  draw(cells, tall, false);
}

}  // namespace wildling::paper
