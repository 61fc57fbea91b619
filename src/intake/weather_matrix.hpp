#pragma once
/// Month matrices as in paper rain books: the months across and the days down (12 x 31), or the
/// days across and the months down (31 x 12); one or many years below or beside each other, on one
/// or many sheets.
#include <optional>
#include <string>
#include <vector>

#include "intake/alike.hpp"
#include "intake/table_file.hpp"
#include "intake/weather_columns.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {

/// A month's sum as the keeper wrote it.
struct BookSum {
  int year = 0, month = 0;
  std::string value = {};  ///< as written
  CellPlace place = {};
};

struct MatrixFile {
  TableFile table = {};            ///< a row per cell that holds something, by date; columns date,
                                   ///< readings, station
  std::vector<BookSum> sums = {};  ///< of rain, only when one station was written
  std::size_t no_day = 0;          ///< cells of days that do not exist, such as 31 June
};

/// The year of a matrix: a column of years, else a year in its headings, else the nearest row above
/// that names one year, else the sheet's name, else options.year. What is measured: the title, else
/// rain. The station: a row "Stasiun: ..." above; else, when two sheets hold the same year, the
/// names of the sheets.
/// @return empty when there is no matrix
/// @throws Error{input} when a year cannot be told
std::optional<MatrixFile> read_matrices(const RawTables& raw, const std::string& name,
                                        const WeatherOptions& options, AlikeFindings& findings);

/// Holds the keeper's sums against the days; every difference is a note.
void compare_sums(const std::vector<BookSum>& sums, const climate::DailyWeather& daily,
                  const WeatherOptions& options, const ReadingColumn& unit, const std::string& name,
                  AlikeFindings& findings);

/// Questions a reading that is the sum of its month's readings before it, of which at least three
/// brought rain: a keeper's sum written among the days. It is kept.
void question_sums_among_days(const WeatherFile& file, const std::string& name,
                              AlikeFindings& findings);

}  // namespace wildling::intake
