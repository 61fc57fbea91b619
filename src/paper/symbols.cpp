#include "paper/symbols.hpp"

#include <charconv>
#include <map>

#include "base/embedded.hpp"
#include "base/error.hpp"

namespace wildling::paper {
namespace {

[[noreturn]] void fail(const std::string& name) {
  throw Error(ErrorKind::internal, "symbols/" + name + ".svg", say("paper.symbol_faulty"));
}

std::string_view attribute(std::string_view element, std::string_view key) {
  const std::string start = " " + std::string(key) + "=\"";
  const std::size_t from = element.find(start);
  if (from == std::string_view::npos) return {};
  const std::size_t begin = from + start.size();
  const std::size_t end = element.find('"', begin);
  return end == std::string_view::npos ? std::string_view() : element.substr(begin, end - begin);
}

class Reader {
 public:
  Reader(std::string_view text, std::string name) : text_(text), name_(std::move(name)) {}

  double number() {
    skip();
    double value = 0;
    const auto result = std::from_chars(text_.data(), text_.data() + text_.size(), value);
    if (result.ec != std::errc()) fail(name_);
    text_.remove_prefix(static_cast<std::size_t>(result.ptr - text_.data()));
    return value;
  }

  // The next command letter, or `same` when a number follows: "M 1 2 L 3 4 5 6" has two lines.
  char command(char same) {
    skip();
    const char c = text_.front();
    if ((c >= '0' && c <= '9') || c == '-' || c == '.') return same;
    text_.remove_prefix(1);
    return c;
  }

  bool more() {
    skip();
    return !text_.empty();
  }

 private:
  void skip() {
    while (!text_.empty() &&
           (text_.front() == ' ' || text_.front() == ',' || text_.front() == '\n'))
      text_.remove_prefix(1);
  }

  std::string_view text_;
  std::string name_;
};

std::vector<SymbolStep> path_steps(std::string_view d, const std::string& name) {
  std::vector<SymbolStep> steps;
  Reader reader(d, name);
  char command = 0;
  while (reader.more()) {
    command = reader.command(command == 'M' ? 'L' : command);
    const std::size_t count = command == 'C' ? 6 : (command == 'Z' ? 0 : 2);
    if (command != 'M' && command != 'L' && command != 'C' && command != 'Z') fail(name);
    SymbolStep step{command, {}};
    for (std::size_t i = 0; i < count; ++i) step.points[i] = reader.number();
    steps.push_back(step);
    if (command == 'Z') command = 0;
  }
  return steps;
}

SymbolPaint paint(std::string_view value, SymbolPaint otherwise, const std::string& name) {
  if (value.empty()) return otherwise;
  if (value == "none") return SymbolPaint::none;
  if (value == "currentColor") return SymbolPaint::ink;
  if (value == "white") return SymbolPaint::paper;
  fail(name);
}

double plain_number(std::string_view text, const std::string& name) {
  return Reader(text, name).number();
}

}  // namespace

Symbol parse_symbol(std::string_view svg, const std::string& name) {
  Symbol symbol;
  for (std::size_t at = svg.find('<'); at != std::string_view::npos; at = svg.find('<', at + 1)) {
    const std::size_t end = svg.find('>', at);
    if (end == std::string_view::npos) fail(name);
    const std::string_view element = svg.substr(at, end - at);
    const bool path = element.starts_with("<path "), circle = element.starts_with("<circle ");
    if (!path && !circle) {
      if (element.starts_with("<svg ") || element.starts_with("</svg") ||
          element.starts_with("<title") || element.starts_with("</title") ||
          element.starts_with("<!--"))
        continue;
      fail(name);
    }
    SymbolStroke stroke;
    stroke.fill = paint(attribute(element, "fill"), SymbolPaint::ink, name);
    stroke.stroke = paint(attribute(element, "stroke"), SymbolPaint::none, name);
    if (const auto width = attribute(element, "stroke-width"); !width.empty())
      stroke.stroke_width = plain_number(width, name);
    if (path) stroke.steps = path_steps(attribute(element, "d"), name);
    if (circle)
      stroke.steps = {{'O',
                       {plain_number(attribute(element, "cx"), name),
                        plain_number(attribute(element, "cy"), name),
                        plain_number(attribute(element, "r"), name)}}};
    symbol.strokes.push_back(std::move(stroke));
  }
  return symbol;
}

const Symbol& shipped_symbol(const std::string& name) {
  static std::map<std::string, Symbol> symbols;
  if (const auto found = symbols.find(name); found != symbols.end()) return found->second;
  const auto file = embedded_file("symbols/" + name + ".svg");
  if (!file) fail(name);
  return symbols.emplace(name, parse_symbol(*file, name)).first->second;
}

}  // namespace wildling::paper
