#pragma once
/// A reply: what a face shows when somebody asks the programme a question, whatever the question.
/// The answer is its first line; sentences, tables and charts follow; every number may open into
/// workings. The command line prints it, the page draws it, both without knowing the question.
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.hpp"
#include "base/error.hpp"
#include "base/message.hpp"
#include "base/workings.hpp"
#include "plan/letter.hpp"

namespace wildling::plan {

/// One cell of a table: nothing, a sentence, plain text, a number, a count or a day.
struct Cell {
  std::variant<std::monostate, Message, std::string, double, std::int64_t, Date> value = {};
  std::string opens = {};  ///< key of a node in Reply::workings; empty: does not open
};

struct Column {
  std::string name = {};  ///< stable, lower case, with its unit: "rain_mm"
  Message heading = {};   ///< for people
  int decimals = 0;       ///< of real numbers, 0 to 6
};

struct Table {
  std::string name = {};  ///< stable, unique in the reply
  Message caption = {};   ///< a sentence: what it shows, source, n
  std::vector<Column> columns = {};
  std::vector<std::vector<Cell>> rows = {};  ///< each as long as columns
};

enum class Shape { line, bars, points, band };

/// What a curve means, and so its colour: look.md's six.
enum class Ink { ink, leaf, straw, clay, water, smoke };

struct Curve {
  Message label = {};  ///< drawn at the curve, not in a legend
  Shape shape = Shape::line;
  Ink ink = Ink::ink;
  std::vector<double> x = {};    ///< days since 1970-01-01 when Chart::x_is_day
  std::vector<double> y = {};    ///< NaN = a gap
  std::vector<double> low = {};  ///< with Shape::band: y is the upper edge, low the lower
};

struct Chart {
  std::string name = {};
  Message caption = {};                ///< a sentence with the finding, source and n
  Message x_label = {}, y_label = {};  ///< with unit
  bool x_is_day = false;
  bool from_zero = true;
  std::vector<Curve> curves = {};
};

struct Reply {
  std::string name = {};  ///< of the question: "today"
  Message answer = {};
  std::vector<LetterPart> parts = {};
  std::vector<Table> tables = {};
  std::vector<Chart> charts = {};
  Findings findings = {};
  Workings workings = {};
};

/// JSON, keys sorted, shortest numbers, NaN as null: the same reply gives the same bytes.
/// {"name", "answer", "parts": [{"heading", "sentences"}], "tables": [{"name", "caption",
/// "columns": [{"name", "heading", "decimals"}], "rows": [[{"value", "opens"}]]}], "charts":
/// [{..., "curves": [{"label", "shape", "ink", "x", "y", "low"}]}], "findings", "workings":
/// [{"key", "label", "value", "unit", "origin", "formula", "source", "note", "inputs"}]}
std::string reply_text(const Reply& reply);

}  // namespace wildling::plan
