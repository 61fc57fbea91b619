#include <algorithm>
#include <cctype>

#include "base/parameters.hpp"
#include "intake/catch_text.hpp"
#include "intake/number_reading.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

struct Bounds {
  double low = 0, high = 0;
  double questioned = std::numeric_limits<double>::infinity();
};

Bounds bounds_of(Reading reading, const Parameters& parameters) {
  const auto at = [&](const char* key) {
    return parameters.value(std::string("intake.weather.") + key);
  };
  switch (reading) {
    case Reading::rain:
      return {0, at("rain_most"), at("rain_questioned")};
    case Reading::tmax:
    case Reading::tmin:
      return {at("temperature_least"), at("temperature_most")};
    case Reading::wind:
      return {0, at("wind_most")};
    case Reading::sun:
      return {0, 24};
    default:
      return {0, 100};
  }
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

constexpr std::string_view kTraceWords = "|t|tr|trace|trc|ttu|ttd|tak terukur|tidak terukur|";

bool one_of(const std::string& text, std::string_view words) {
  return words.find("|" + text + "|") != std::string_view::npos;
}

// Reads the cells of one table; the sign of decimals is settled once.
class Cells {
 public:
  explicit Cells(const WeatherPass& pass) : pass_(pass), parameters_(shipped_parameters()) {
    missing_ = {-9999, -999, 8888, 9999};
    missing_.insert(missing_.end(), pass.options.missing_codes.begin(),
                    pass.options.missing_codes.end());
    settle_decimal();
    for (const auto& [reading, column] : pass.columns.readings) {
      bounds_[reading] = bounds_of(reading, parameters_);
    }
  }

  // A row none of whose readings could be used although some were written is not used.
  WeatherRow read(const CsvRow& row) {
    WeatherRow result;
    result.line = row.line;
    result.value.fill(kNaN);
    bool refused = false;
    for (const auto& [reading, column] : pass_.columns.readings) {
      refused = !read_cell(row, reading, column, result) || refused;
    }
    refused = !temperatures_agree(row, result) || refused;
    read_days(row, result);
    read_remarks(row, result);
    const bool any = std::any_of(result.value.begin(), result.value.end(),
                                 [](double v) { return !std::isnan(v); });
    result.used = any || !refused;
    return result;
  }

 private:
  const WeatherPass& pass_;
  const Parameters& parameters_;
  std::vector<double> missing_;
  std::optional<char> decimal_;
  std::map<Reading, Bounds> bounds_;

  void settle_decimal() {
    decimal_ = pass_.options.decimal;
    if (decimal_) return;
    std::size_t dots = 0;
    std::size_t commas = 0;
    std::string unclear;
    std::string where;
    for (const CsvRow& row : pass_.table.rows) {
      for (const auto& [reading, column] : pass_.columns.readings) {
        const std::string& cell = row.cells[column.at];
        const DecimalSign sign =
            decimal_sign(reading == Reading::rain ? catch_text(cell).number : std::string(cell));
        dots += sign == DecimalSign::dot ? 1U : 0U;
        commas += sign == DecimalSign::comma ? 1U : 0U;
        if (sign == DecimalSign::unclear && unclear.empty()) {
          unclear = cell;
          where = pass_.where(row.line, column.at);
        }
      }
    }
    if (commas > 0 && dots == 0) decimal_ = ',';
    if (dots > 0 && commas == 0) decimal_ = '.';
    if (dots > 0 && commas > 0) {
      pass_.findings.add(Severity::note, pass_.name, say("intake.decimals_mixed"));
    }
    if (unclear.empty() || decimal_ || (dots > 0 && commas > 0)) return;
    throw Error(ErrorKind::input, where, say("intake.decimal_unclear", {{"value", unclear}}));
  }

  void aside(const std::string& where, Reading reading, const char* key,
             std::map<std::string, Argument> arguments) {
    pass_.findings.add(Severity::set_aside, where, say(key, std::move(arguments)),
                       std::string(reading_name(reading)));
  }

  // False when the cell holds something that cannot be used.
  bool read_cell(const CsvRow& row, Reading reading, const ReadingColumn& column,
                 WeatherRow& result) {
    const std::string& text = row.cells[column.at];
    const std::string word = lower(text);
    if (word.empty()) return true;
    const std::string where = pass_.where(row.line, column.at);
    double& value = result.value[static_cast<std::size_t>(reading)];
    const bool rain = reading == Reading::rain;
    if (says_missing(text)) return no_reading(where, reading, text);
    if (is_dash(text)) {
      pass_.findings.add(Severity::note, where, say("intake.dash_is_missing", {{"value", text}}));
      return true;
    }
    if (rain && (one_of(word, kTraceWords) || word.front() == '<')) {
      return trace(where, word, value, result);
    }
    const CatchText said = rain ? catch_text(text) : CatchText{text};
    result.bracket = result.bracket || said.bracket;
    result.accumulated = result.accumulated || said.accumulated;
    result.days = std::max(result.days, said.days);
    if (said.number.empty()) return true;
    const auto number = read_number(said.number, decimal_);
    if (!number) {
      aside(where, reading, "intake.not_a_number", {{"value", text}});
      return false;
    }
    if (rain && pass_.options.trace_code == number) {
      value = 0;
      result.trace = true;
      return true;
    }
    if (std::find(missing_.begin(), missing_.end(), *number) != missing_.end())
      return no_reading(where, reading, text);
    return converted(where, reading, column, *number, text, value);
  }

  bool no_reading(const std::string& where, Reading reading, const std::string& text) {
    pass_.findings.add(Severity::note, where, say("intake.code_is_missing", {{"value", text}}),
                       std::string(reading_name(reading)) + text);
    return true;
  }

  // "T", or less than something that can be read off ("<0,1").
  bool trace(const std::string& where, const std::string& word, double& value, WeatherRow& result) {
    if (word.front() == '<') {
      const auto limit = read_number(word.substr(1), decimal_.value_or('.'));
      if (!limit || *limit < 0 || *limit > parameters_.value("intake.weather.trace_most")) {
        aside(where, Reading::rain, "intake.not_a_number", {{"value", word}});
        return false;
      }
    }
    value = 0;
    result.trace = true;
    return true;
  }

  bool converted(const std::string& where, Reading reading, const ReadingColumn& column,
                 double number, const std::string& text, double& value) {
    if (column.factor == 1 && column.zero == 0) return believed(where, reading, number, value);
    if (!believed(where, reading, (number - column.zero) * column.factor, value)) return false;
    pass_.findings.add(
        Severity::changed, where,
        say("intake.converted",
            {{"value", text}, {"became", value}, {"reading", std::string(reading_name(reading))}}),
        std::string(reading_name(reading)));
    return true;
  }

  // Cells beside the readings that say how they came about.
  void read_remarks(const CsvRow& row, WeatherRow& result) {
    double& rain = result.value[static_cast<std::size_t>(Reading::rain)];
    if (std::isnan(rain)) return;
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      if (row.cells[c].size() < 5 || holds_reading(c)) continue;
      if (says_accumulated(row.cells[c]) && result.days == 1) result.accumulated = true;
      if (rain != 0 || !says_not_observed(row.cells[c])) continue;
      pass_.findings.add(Severity::changed, pass_.where(row.line, c),
                         say("intake.zero_not_observed", {{"value", row.cells[c]}}));
      rain = kNaN;
      result.trace = false;
      return;
    }
  }

  [[nodiscard]] bool holds_reading(std::size_t at) const {
    return std::any_of(pass_.columns.readings.begin(), pass_.columns.readings.end(),
                       [at](const auto& reading) { return reading.second.at == at; });
  }

  bool believed(const std::string& where, Reading reading, double number, double& value) {
    const Bounds& bounds = bounds_.at(reading);
    if (reading == Reading::rain && number < 0) {
      aside(where, reading, "intake.rain_negative", {{"value", number}});
      return false;
    }
    if (number < bounds.low || number > bounds.high) {
      aside(where, reading, "intake.reading_impossible",
            {{"value", number}, {"low", bounds.low}, {"high", bounds.high}});
      return false;
    }
    if (number > bounds.questioned) {
      pass_.findings.add(
          Severity::note, where,
          say("intake.rain_questioned", {{"value", number}, {"limit", bounds.questioned}}));
    }
    value = number;
    return true;
  }

  bool temperatures_agree(const CsvRow& row, WeatherRow& result) {
    double& high = result.value[static_cast<std::size_t>(Reading::tmax)];
    double& low = result.value[static_cast<std::size_t>(Reading::tmin)];
    if (!(low > high)) return true;
    aside(pass_.where(row.line), Reading::tmin, "intake.tmin_above_tmax",
          {{"tmin", low}, {"tmax", high}});
    high = low = kNaN;
    return false;
  }

  void read_days(const CsvRow& row, WeatherRow& result) {
    if (!pass_.columns.days || row.cells[*pass_.columns.days].empty()) return;
    const auto number = read_number(row.cells[*pass_.columns.days], '.');
    const double most = parameters_.value("intake.weather.total_days_most");
    if (number && *number >= 1 && *number <= most && *number == std::floor(*number)) {
      result.days = static_cast<int>(*number);
      return;
    }
    double& rain = result.value[static_cast<std::size_t>(Reading::rain)];
    aside(pass_.where(row.line, pass_.columns.days), Reading::rain, "intake.total_days",
          {{"value", row.cells[*pass_.columns.days]}, {"most", most}});
    rain = kNaN;
  }
};

}  // namespace

const Parameters& shipped_parameters() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

RowsByDay readings_of_rows(const WeatherPass& pass, const std::vector<std::optional<Date>>& days) {
  Cells cells(pass);
  RowsByDay rows;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (days[i]) rows[*days[i]].push_back(cells.read(pass.table.rows[i]));
  }
  return rows;
}

}  // namespace wildling::intake
