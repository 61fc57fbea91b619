// Fifty invented years at twenty stations: everything the weather room computes, part by part, the
// hindcast, and the yearly figures, SPI and trends against the same in base R (bench/r/climate.R).
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "base/csv.hpp"
#include "base/files.hpp"
#include "base/random.hpp"
#include "climate/chain_workings.hpp"
#include "climate/drought.hpp"
#include "climate/fire.hpp"
#include "climate/generator.hpp"
#include "climate/heat.hpp"
#include "climate/indices.hpp"
#include "climate/normals.hpp"
#include "climate/outlook.hpp"
#include "climate/paired.hpp"
#include "climate/planting_window.hpp"
#include "climate/quality.hpp"
#include "climate/season.hpp"
#include "climate/water_workings.hpp"

namespace {

using namespace wildling;
using namespace wildling::climate;

constexpr std::array<int, 5> kScales = {1, 3, 6, 12, 24};

WeatherBook invented(int years, std::uint64_t station) {
  WeatherBook book;
  book.station.lat_deg = 0.5;
  book.station.elevation_m = 40;
  book.daily.first = make_date(1970, 1, 1);
  Stream luck(Seed{1}, Purpose{"climate bench"}, station);
  for (Date d = book.daily.first; d < make_date(1970 + years, 1, 1); d += std::chrono::days(1)) {
    const double season = std::cos(6.283 * day_of_year(d) / 365.25);
    const bool wet = luck.uniform() < 0.5 + 0.3 * season;
    book.daily.rain_mm.push_back(wet ? std::round(10 * (1 + 14 * luck.gamma(0.8))) / 10 : 0);
    book.daily.tmax_c.push_back(32 + luck.normal() - (wet ? 1 : 0));
    book.daily.tmin_c.push_back(23 + 0.7 * luck.normal());
    book.daily.rh_mean_pct.push_back(std::fmin(99, 80 + 4 * luck.normal() + (wet ? 5 : 0)));
  }
  return book;
}

const std::vector<WeatherBook>& stations() {
  static const std::vector<WeatherBook> all = [] {
    std::vector<WeatherBook> books;
    for (std::uint64_t s = 0; s < 20; ++s) books.push_back(invented(50, s));
    return books;
  }();
  return all;
}

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

using Part = void (*)(const WeatherBook&);

void windows(const WeatherBook& b) {
  benchmark::DoNotOptimize(planting_windows(b, shipped()));
}

void months(const WeatherBook& b) {
  benchmark::DoNotOptimize(month_normals(b, shipped()));
}

void quality(const WeatherBook& b) {
  benchmark::DoNotOptimize(quality_flags(b.daily, shipped()));
  benchmark::DoNotOptimize(weekday_bias(b.daily, shipped()));
}

void indices(const WeatherBook& b) {
  benchmark::DoNotOptimize(trends(year_indices(b.daily, shipped()), shipped()));
}

void dryness(const WeatherBook& b) {
  benchmark::DoNotOptimize(droughts(b, kScales, shipped()));
}

void season(const WeatherBook& b) {
  benchmark::DoNotOptimize(seasons(b, shipped()));
}

void model(const WeatherBook& b) {
  benchmark::DoNotOptimize(fit_weather(b.daily, shipped()));
}

void outlook(const WeatherBook& b) {
  OutlookSettings settings;
  settings.simulations = 100;
  benchmark::DoNotOptimize(
      planting_outlook(b, b.daily.last(), SoilSeen::moist_to_bottom, settings, shipped()));
}

void fire(const WeatherBook& b) {
  benchmark::DoNotOptimize(keetch_byram_series(b.daily));
}

void heat(const WeatherBook& b) {
  benchmark::DoNotOptimize(usual_worst_wbgt_c(b, shipped()));
}

void water(const WeatherBook& b) {
  benchmark::DoNotOptimize(
      water_days(b, b.daily.last() - std::chrono::days(30), b.daily.last(), shipped()));
}

void paired(const WeatherBook& b) {
  benchmark::DoNotOptimize(paired_stations(b, stations()[0], shipped()));
}

const std::array<std::pair<const char*, Part>, 12> kParts = {
    {{"planting_windows", windows},
     {"months", months},
     {"quality", quality},
     {"indices_and_trends", indices},
     {"spi_and_spei", dryness},
     {"season", season},
     {"generator_fit", model},
     {"outlook_100_continuations", outlook},
     {"fire", fire},
     {"heat_usual", heat},
     {"water", water},
     {"paired", paired}}};

void everything(benchmark::State& state) {
  for (auto _ : state) {
    for (const WeatherBook& book : stations()) {
      for (const auto& [name, part] : kParts) part(book);
    }
  }
}

void one_part(benchmark::State& state, Part part) {
  for (auto _ : state) part(stations()[1]);
}

void back(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(hindcast(stations()[1], shipped()));
}

// What R computes too, as the sums and values that bench/r/climate.R writes.
using Check = std::map<std::string, double>;

Check check_of(const WeatherBook& book) {
  const auto years = year_indices(book.daily, shipped());
  const auto all = trends(years, shipped());
  const std::vector<double> monthly = monthly_rain_mm(book.daily, shipped());
  Check c;
  for (const int scale : kScales) {
    c["spi" + std::to_string(scale)] =
        spi(monthly, month_of(book.daily.first), scale, ZeroRule::centre_of_mass).back();
  }
  for (const YearIndices& y : years) {
    c["total"] += y.total_mm, c["prcptot"] += y.prcptot_mm, c["sdii"] += y.sdii_mm;
    c["rx1day"] += y.rx1day_mm, c["rx5day"] += y.rx5day_mm, c["r10"] += y.r10, c["r20"] += y.r20;
    c["cdd"] += y.cdd, c["cwd"] += y.cwd, c["r95ptot"] += y.r95ptot_mm;
  }
  c["s"] = all[0].test.s, c["p"] = all[0].test.p, c["slope"] = all[0].slope.slope;
  c["k"] = all[0].break_test.k;
  return c;
}

// R has the rain alone.
const std::vector<WeatherBook>& rain_stations() {
  static const std::vector<WeatherBook> all = [] {
    std::vector<WeatherBook> books = stations();
    for (WeatherBook& book : books) {
      book.daily.tmax_c.clear();
      book.daily.tmin_c.clear();
      book.daily.rh_mean_pct.clear();
    }
    return books;
  }();
  return all;
}

void like_r(benchmark::State& state) {
  for (auto _ : state) {
    for (const WeatherBook& book : rain_stations()) benchmark::DoNotOptimize(check_of(book));
  }
}

std::filesystem::path write_days() {
  const auto path =
      std::filesystem::temp_directory_path() / fmt::format("climate_bench_{}.csv", std::rand());
  std::ofstream out(path);
  out << "station,date,rain\n";
  for (std::size_t s = 0; s < stations().size(); ++s) {
    const DailyWeather& daily = stations()[s].daily;
    for (std::size_t i = 0; i < daily.days(); ++i)
      out << fmt::format("{},{},{}\n", 100 + s, iso_date(daily.day(i)), daily.rain_mm[i]);
  }
  return path;
}

// Seconds that R says it computed; negative when it did not run.
double run_r(const std::string& days, const std::string& results) {
  const std::string command = "Rscript --vanilla bench/r/climate.R " + days + " " + results;
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return -1;
  std::array<char, 256> line{};
  double seconds = -1;
  while (std::fgets(line.data(), static_cast<int>(line.size()), pipe) != nullptr) {
    std::istringstream words(line.data());
    std::string word;
    if (words >> word && word == "seconds") words >> seconds;
  }
  return pclose(pipe) == 0 ? seconds : -1;
}

// Empty when R's values are ours within 1e-6.
std::string disagreement(const std::string& results) {
  const CsvTable table = parse_csv_table(read_file(results));
  for (std::size_t s = 0; s < table.rows.size(); ++s) {
    const Check ours = check_of(stations()[s]);
    for (std::size_t c = 1; c < table.header.size(); ++c) {
      const double r = std::stod(table.rows[s].cells[c]), own = ours.at(table.header[c]);
      if (std::abs(r - own) > 1e-6 * std::max(1.0, std::abs(own)))
        return fmt::format("station {} {}: R {} ours {}", s, table.header[c], r, own);
    }
  }
  return table.rows.size() == stations().size() ? "" : "R gave too few stations";
}

void base_r(benchmark::State& state) {
  const std::string days = write_days().string(), results = days + ".out";
  for (auto _ : state) {
    const double seconds = run_r(days, results);
    if (seconds < 0) {
      state.SkipWithError("Rscript is missing or failed (run from the project's folder)");
      break;
    }
    state.SetIterationTime(seconds);
    const std::string wrong = disagreement(results);
    if (!wrong.empty()) state.SkipWithError(wrong.c_str());
  }
  std::filesystem::remove(days);
  std::filesystem::remove(results);
}

const int kRegistered = [] {
  for (const auto& [name, part] : kParts) {
    benchmark::RegisterBenchmark((std::string("one_station_50_years/") + name).c_str(), one_part,
                                 part)
        ->Unit(benchmark::kMillisecond);
  }
  benchmark::RegisterBenchmark("all_but_hindcast/20_stations_50_years", everything)
      ->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("hindcast/50_seasons", back)->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("indices_spi_trends/ours", like_r)->Unit(benchmark::kMillisecond);
  benchmark::RegisterBenchmark("indices_spi_trends/baseline_base_r", base_r)
      ->Unit(benchmark::kMillisecond)
      ->UseManualTime()
      ->Iterations(1);
  return 0;
}();

}  // namespace
