#include <cmath>

#include <nlohmann/json.hpp>

#include "plan/message_json.hpp"
#include "plan/node_json.hpp"
#include "plan/reply.hpp"

namespace wildling::plan {
namespace {

using Json = nlohmann::json;

struct CellValue {
  Json operator()(std::monostate) const { return nullptr; }

  Json operator()(const Message& message) const { return message; }

  Json operator()(const std::string& text) const { return text; }

  Json operator()(double number) const {
    return std::isfinite(number) ? Json(number) : Json(nullptr);
  }

  Json operator()(std::int64_t number) const { return number; }

  Json operator()(Date day) const { return Json{{"day", iso_date(day)}}; }
};

Json cell_json(const Cell& cell) {
  Json json = {{"value", std::visit(CellValue{}, cell.value)}};
  if (!cell.opens.empty()) json["opens"] = cell.opens;
  return json;
}

Json table_json(const Table& table) {
  Json columns = Json::array();
  for (const Column& column : table.columns) {
    columns.push_back(
        {{"name", column.name}, {"heading", column.heading}, {"decimals", column.decimals}});
  }
  Json rows = Json::array();
  for (const auto& row : table.rows) {
    Json cells = Json::array();
    for (const Cell& cell : row) cells.push_back(cell_json(cell));
    rows.push_back(std::move(cells));
  }
  return {{"name", table.name},
          {"caption", table.caption},
          {"columns", std::move(columns)},
          {"rows", std::move(rows)}};
}

NLOHMANN_JSON_SERIALIZE_ENUM(Shape, {{Shape::line, "line"},
                                     {Shape::bars, "bars"},
                                     {Shape::points, "points"},
                                     {Shape::band, "band"}})
NLOHMANN_JSON_SERIALIZE_ENUM(Ink, {{Ink::ink, "ink"},
                                   {Ink::leaf, "leaf"},
                                   {Ink::straw, "straw"},
                                   {Ink::clay, "clay"},
                                   {Ink::water, "water"},
                                   {Ink::smoke, "smoke"}})

// A number that is none becomes null, which the page draws as a gap.
Json numbers_json(const std::vector<double>& numbers) {
  Json list = Json::array();
  for (const double number : numbers) list.push_back(CellValue{}(number));
  return list;
}

Json chart_json(const Chart& chart) {
  Json curves = Json::array();
  for (const Curve& curve : chart.curves) {
    Json shape;
    Json ink;
    to_json(shape, curve.shape);
    to_json(ink, curve.ink);
    curves.push_back({{"label", curve.label},
                      {"shape", shape},
                      {"ink", ink},
                      {"x", numbers_json(curve.x)},
                      {"y", numbers_json(curve.y)},
                      {"low", numbers_json(curve.low)}});
  }
  return {{"name", chart.name},         {"caption", chart.caption},
          {"x_label", chart.x_label},   {"y_label", chart.y_label},
          {"x_is_day", chart.x_is_day}, {"from_zero", chart.from_zero},
          {"curves", std::move(curves)}};
}

}  // namespace

std::string reply_text(const Reply& reply) {
  Json parts = Json::array();
  for (const LetterPart& part : reply.parts)
    parts.push_back({{"heading", part.heading}, {"sentences", part.sentences}});
  Json tables = Json::array();
  for (const Table& table : reply.tables) tables.push_back(table_json(table));
  Json charts = Json::array();
  for (const Chart& chart : reply.charts) charts.push_back(chart_json(chart));
  const Json json = {{"name", reply.name},
                     {"answer", reply.answer},
                     {"parts", std::move(parts)},
                     {"tables", std::move(tables)},
                     {"charts", std::move(charts)},
                     {"findings", findings_json(reply.findings)},
                     {"workings", reply.workings.nodes()}};
  return json.dump();
}

}  // namespace wildling::plan
