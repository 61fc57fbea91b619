#include "plan/take_file.hpp"

#include <cmath>
#include <filesystem>
#include <memory>

#include "intake/boundaries.hpp"
#include "intake/elevation.hpp"
#include "intake/species_table.hpp"
#include "intake/weather_log.hpp"
#include "plan/take_elevation.hpp"
#include "plan/take_weather.hpp"
#include "species/library.hpp"

namespace wildling::plan {
namespace {

// The record of a file of any kind, without its counts.
template <typename File>
TakenFile record_of(const TakeSource& source, const File& file) {
  TakenFile record;
  record.name = source.name;
  record.sha256 = file.sha256;
  record.bytes = static_cast<std::int64_t>(file.bytes);
  record.findings = file.findings;
  for (const Finding& finding : file.findings)
    record.set_aside += finding.severity == Severity::set_aside ? 1 : 0;
  return record;
}

intake::BoundaryOptions boundary_options(const TakeOptions& options) {
  intake::BoundaryOptions wanted;
  if (!options.crs.empty()) wanted.crs = options.crs;
  wanted.swap_axes = options.swap_axes;
  wanted.close_lines = options.close_lines;
  return wanted;
}

NewSite new_site(const intake::SiteShape& shape, double vertex_error_m) {
  NewSite site;
  site.name = shape.name;
  site.shape = shape.shape;
  site.ground_type = shape.ground_type;
  site.cover = ground::parse_cover(shape.cover).value_or(ground::Cover::running_grass);
  site.slope_deg = shape.slope_deg;
  site.floods = shape.floods;
  site.vertex_error_m = vertex_error_m;
  return site;
}

ReadFile read_boundary(const TakeSource& source, const TakeOptions& options) {
  const intake::BoundaryOptions wanted = boundary_options(options);
  const intake::BoundaryFile file =
      source.bytes ? intake::read_boundaries_bytes(*source.bytes, source.name, wanted)
                   : intake::read_boundaries(source.path, wanted);
  ReadFile read;
  read.record = record_of(source, file);
  read.record.read = static_cast<std::int64_t>(file.features_read);
  read.record.kept = static_cast<std::int64_t>(file.sites.size());
  if (file.sites.empty()) return read;
  std::vector<NewSite> sites;
  for (const intake::SiteShape& shape : file.sites)
    sites.push_back(new_site(shape, file.vertex_error_m));
  read.keep = [sites = std::move(sites), record = read.record](store::Store& store,
                                                               const Actor& actor) {
    const auto codes = take_sites(store, sites, record, actor);
    return say("plan.take.boundary", {{"sites", record.kept},
                                      {"blocks", static_cast<std::int64_t>(codes.size())},
                                      {"first", codes.front()},
                                      {"last", codes.back()}});
  };
  return read;
}

ReadFile read_water(const TakeSource& source, const TakeOptions& options) {
  const intake::BoundaryOptions wanted = boundary_options(options);
  const intake::LineFile file = source.bytes
                                    ? intake::read_lines_bytes(*source.bytes, source.name, wanted)
                                    : intake::read_lines(source.path, wanted);
  ReadFile read;
  read.record = record_of(source, file);
  read.record.read = read.record.kept = static_cast<std::int64_t>(file.lines.size());
  if (file.lines.empty()) return read;
  read.keep = [lines = file.lines, record = read.record](store::Store& store, const Actor& actor) {
    take_water(store, lines, record, actor);
    return say("plan.take.water", {{"lines", record.kept}});
  };
  return read;
}

climate::Station station_from(const TakeSource& source, const TakeOptions& options,
                              const std::string& in_file) {
  climate::Station station;
  const bool unsaid = options.station.empty() || options.station == TakeOptions().station;
  station.name = unsaid && !in_file.empty() ? in_file : options.station;
  station.lon_deg = options.lon_deg;
  station.lat_deg = options.lat_deg;
  station.elevation_m = options.elevation_m;
  station.distance_km = options.distance_km;
  station.rain_read_next_morning = options.read_next_morning;
  station.source = source.name;
  return station;
}

intake::WeatherOptions weather_options(const TakeOptions& options) {
  intake::WeatherOptions wanted;
  wanted.read_next_morning = options.read_next_morning;
  if (!options.date_order.empty()) wanted.date_order = options.date_order;
  if (!options.decimal.empty()) wanted.decimal = options.decimal == "comma" ? ',' : '.';
  if (!options.only_station.empty()) wanted.station = options.only_station;
  wanted.missing_codes = options.missing;
  wanted.trace_code = options.trace;
  wanted.today = options.today;
  for (const std::string& column : options.columns) {
    const std::size_t sign = column.find('=');
    if (sign == std::string::npos)
      throw Error(ErrorKind::usage, "column", say("plan.take.column", {{"value", column}}));
    wanted.columns[column.substr(0, sign)] = column.substr(sign + 1);
  }
  for (const std::string& unit : options.units) {
    const std::size_t sign = unit.find('=');
    if (sign == std::string::npos)
      throw Error(ErrorKind::usage, "unit",
                  say("intake.unit_option", {{"field", unit}, {"unit", std::string()}}));
    wanted.units[unit.substr(0, sign)] = unit.substr(sign + 1);
  }
  wanted.year = options.year;
  return wanted;
}

WeatherTaking taking_of(const TakeOptions& options, const intake::WeatherFile& file) {
  if (options.replace && options.correct)
    throw Error(ErrorKind::usage, "replace", say("plan.take.replace_or_correct"));
  WeatherTaking how;
  how.days = options.replace   ? TakeDays::replace
             : options.correct ? TakeDays::correct
                               : TakeDays::fresh;
  how.main = options.main;
  how.places = file.places;
  how.total_places = file.total_places;
  return how;
}

Message weather_kept(const TakenFile& record, const climate::WeatherBook& book,
                     const WeatherTaken& taken, TakeDays days) {
  const auto arguments = [&](std::map<std::string, Argument> more) {
    more.insert({{"station", book.station.name},
                 {"first", book.daily.first},
                 {"last", book.daily.last()},
                 {"aside", record.set_aside},
                 {"main", std::string(taken.main ? "yes" : "no")}});
    return more;
  };
  if (days == TakeDays::fresh) return say("plan.take.weather", arguments({{"days", record.kept}}));
  return say("plan.take.weather_corrected", arguments({{"added", taken.added},
                                                       {"changed", taken.changed},
                                                       {"same", taken.same},
                                                       {"removed", taken.removed}}));
}

ReadFile read_weather_log(const TakeSource& source, const TakeOptions& options) {
  const intake::WeatherOptions wanted = weather_options(options);
  intake::WeatherFile file = source.bytes
                                 ? intake::read_weather_bytes(*source.bytes, source.name, wanted)
                                 : intake::read_weather(source.path, wanted);
  ReadFile read;
  read.record = record_of(source, file);
  read.record.read = static_cast<std::int64_t>(file.rows_read);
  read.record.kept = static_cast<std::int64_t>(file.kept);
  read.record.set_aside = static_cast<std::int64_t>(file.set_aside);
  if (file.daily.days() == 0) return read;
  const auto book = std::make_shared<const climate::WeatherBook>(
      climate::WeatherBook{station_from(source, options, file.station), std::move(file.daily)});
  const WeatherTaking how = taking_of(options, file);
  read.keep = [book, how, record = read.record, changes = read.changes](store::Store& store,
                                                                        const Actor& actor) {
    const WeatherTaken taken = take_weather(store, *book, how, record, actor);
    *changes = taken.findings;
    return weather_kept(record, *book, taken, how.days);
  };
  return read;
}

ReadFile read_species(const TakeSource& source, const TakeOptions&) {
  const species::Library library = species::Library::shipped();
  const intake::SpeciesFile file =
      source.bytes ? intake::read_species_table_bytes(*source.bytes, source.name, library)
                   : intake::read_species_table(source.path, library);
  ReadFile read;
  read.record = record_of(source, file);
  read.record.read = static_cast<std::int64_t>(file.rows_read);
  read.record.kept = static_cast<std::int64_t>(file.candidates.size());
  read.record.set_aside = static_cast<std::int64_t>(file.set_aside);
  if (file.candidates.empty()) return read;
  read.keep = [candidates = file.candidates, record = read.record](store::Store& store,
                                                                   const Actor& actor) {
    take_candidates(store, candidates, record, actor);
    return say("plan.take.species", {{"species", record.kept}, {"aside", record.set_aside}});
  };
  return read;
}

ReadFile read_elevation_model(const TakeSource& source, const TakeOptions& options) {
  intake::ElevationOptions wanted;
  if (!options.crs.empty()) wanted.crs = options.crs;
  intake::ElevationFile file =
      source.bytes ? intake::read_elevation_bytes(*source.bytes, source.name, wanted)
                   : intake::read_elevation(source.path, wanted);
  ReadFile read;
  read.record = record_of(source, file);
  read.keep = [file = std::move(file), record = read.record](store::Store& store,
                                                             const Actor& actor) {
    const ElevationKept kept = take_elevation(store, file, record, actor);
    return say("plan.take.elevation", {{"lowest", kept.lowest_m},
                                       {"highest", kept.highest_m},
                                       {"cell", kept.cell_m},
                                       {"percent", std::floor(100 * kept.covered_share)}});
  };
  return read;
}

}  // namespace

TakeSource TakeSource::file(const std::string& path) {
  return {path, std::filesystem::path(path).filename().string(), {}};
}

TakeSource TakeSource::upload(const std::string& name, std::string bytes) {
  return {{}, std::filesystem::path(name).filename().string(), std::move(bytes)};
}

void ReadFile::refuse_if_empty() const {
  if (!keep) throw Error(ErrorKind::input, record.name, say("plan.take.nothing_kept"));
}

const std::vector<TakeKind>& take_kinds() {
  static const std::vector<TakeKind> kinds = {{"boundary", read_boundary},
                                              {"water", read_water},
                                              {"weather", read_weather_log},
                                              {"species", read_species},
                                              {"elevation", read_elevation_model}};
  return kinds;
}

ReadFile read_to_take(const std::string& kind, const TakeSource& source,
                      const TakeOptions& options) {
  std::string known;
  for (const TakeKind& entry : take_kinds()) {
    if (entry.name == kind) return entry.read(source, options);
    known += (known.empty() ? "" : ", ") + entry.name;
  }
  throw Error(ErrorKind::usage, kind, say("plan.take.no_such_kind", {{"known", known}}));
}

}  // namespace wildling::plan
