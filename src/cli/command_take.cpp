#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "intake/boundaries.hpp"
#include "intake/species_table.hpp"
#include "intake/weather_log.hpp"
#include "species/library.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, input, station = "Station", crs;
  std::optional<double> lon_deg, lat_deg, elevation_m, distance_km;
  bool replace = false, swap_axes = false, read_next_morning = false, close_lines = false;
  std::string date_order, today, decimal, which_station;
  std::vector<double> missing;
  std::optional<double> trace;
  std::vector<std::string> columns;  // "rain=CURAH HUJAN"
};

plan::TakenFile taken(const Options& options, const std::string& sha256, std::size_t bytes,
                      const Findings& findings) {
  plan::TakenFile file;
  file.name = file_name_of(options.input);
  file.sha256 = sha256;
  file.bytes = static_cast<std::int64_t>(bytes);
  file.findings = findings;
  for (const Finding& finding : findings)
    file.set_aside += finding.severity == Severity::set_aside ? 1 : 0;
  return file;
}

intake::BoundaryOptions boundary_options(const Options& options) {
  intake::BoundaryOptions wanted;
  if (!options.crs.empty()) wanted.crs = options.crs;
  wanted.swap_axes = options.swap_axes;
  wanted.close_lines = options.close_lines;
  return wanted;
}

plan::NewSite new_site(const intake::SiteShape& shape, double vertex_error_m) {
  plan::NewSite site;
  site.name = shape.name;
  site.shape = shape.shape;
  site.ground_type = shape.ground_type;
  site.cover = ground::parse_cover(shape.cover).value_or(ground::Cover::running_grass);
  site.slope_deg = shape.slope_deg;
  site.floods = shape.floods;
  site.vertex_error_m = vertex_error_m;
  return site;
}

int take_boundary(const Options& options, Context& context) {
  const Words words = context.words();
  const intake::BoundaryFile file =
      intake::read_boundaries(options.input, boundary_options(options));
  print_findings(std::cerr, file.findings, words);
  if (file.sites.empty())
    throw Error(ErrorKind::input, file_name_of(options.input), say("cli.take.nothing_kept"));
  std::vector<plan::NewSite> sites;
  for (const intake::SiteShape& shape : file.sites)
    sites.push_back(new_site(shape, file.vertex_error_m));
  plan::TakenFile record = taken(options, file.sha256, file.bytes, file.findings);
  record.read = static_cast<std::int64_t>(file.features_read);
  record.kept = static_cast<std::int64_t>(file.sites.size());
  const auto store = open_to_write(options.file, context, words);
  const auto codes = plan::take_sites(*store, sites, record, context.actor());
  std::cerr << words.text("cli.take.boundary", {{"sites", record.kept},
                                                {"blocks", static_cast<std::int64_t>(codes.size())},
                                                {"first", codes.front()},
                                                {"last", codes.back()}})
            << '\n';
  return 0;
}

int take_water(const Options& options, Context& context) {
  const Words words = context.words();
  const intake::LineFile file = intake::read_lines(options.input, boundary_options(options));
  print_findings(std::cerr, file.findings, words);
  if (file.lines.empty())
    throw Error(ErrorKind::input, file_name_of(options.input), say("cli.take.nothing_kept"));
  plan::TakenFile record = taken(options, file.sha256, file.bytes, file.findings);
  record.read = record.kept = static_cast<std::int64_t>(file.lines.size());
  const auto store = open_to_write(options.file, context, words);
  plan::take_water(*store, file.lines, record, context.actor());
  std::cerr << words.text("cli.take.water", {{"lines", record.kept}}) << '\n';
  return 0;
}

climate::Station station_from(const Options& options) {
  climate::Station station;
  station.name = options.station;
  station.lon_deg = options.lon_deg;
  station.lat_deg = options.lat_deg;
  station.elevation_m = options.elevation_m;
  station.distance_km = options.distance_km;
  station.rain_read_next_morning = options.read_next_morning;
  station.source = file_name_of(options.input);
  return station;
}

intake::WeatherOptions weather_options(const Options& options) {
  intake::WeatherOptions wanted;
  wanted.read_next_morning = options.read_next_morning;
  if (!options.date_order.empty()) wanted.date_order = options.date_order;
  if (!options.decimal.empty()) wanted.decimal = options.decimal == "comma" ? ',' : '.';
  if (!options.which_station.empty()) wanted.station = options.which_station;
  wanted.missing_codes = options.missing;
  wanted.trace_code = options.trace;
  for (const std::string& column : options.columns) {
    const std::size_t sign = column.find('=');
    wanted.columns[column.substr(0, sign)] = column.substr(sign + 1);
  }
  return wanted;
}

int take_weather(const Options& options, Context& context) {
  const Words words = context.words();
  intake::WeatherOptions wanted = weather_options(options);
  wanted.today = today_or(options.today, context);
  intake::WeatherFile file = intake::read_weather(options.input, wanted);
  print_findings(std::cerr, file.findings, words);
  plan::TakenFile record = taken(options, file.sha256, file.bytes, file.findings);
  record.read = static_cast<std::int64_t>(file.rows_read);
  record.kept = static_cast<std::int64_t>(file.kept);
  record.set_aside = static_cast<std::int64_t>(file.set_aside);
  const climate::WeatherBook book{station_from(options), std::move(file.daily)};
  if (book.daily.days() == 0)
    throw Error(ErrorKind::input, record.name, say("cli.take.nothing_kept"));
  const auto store = open_to_write(options.file, context, words);
  plan::take_weather(*store, book, options.replace, record, context.actor());
  std::cerr << words.text("cli.take.weather", {{"days", record.kept},
                                               {"first", book.daily.first},
                                               {"last", book.daily.last()},
                                               {"aside", record.set_aside}})
            << '\n';
  return 0;
}

int take_species(const Options& options, Context& context) {
  const Words words = context.words();
  const species::Library library = species::Library::shipped();
  const intake::SpeciesFile file = intake::read_species_table(options.input, library);
  print_findings(std::cerr, file.findings, words);
  if (file.candidates.empty())
    throw Error(ErrorKind::input, file_name_of(options.input), say("cli.take.nothing_kept"));
  plan::TakenFile record = taken(options, file.sha256, file.bytes, file.findings);
  record.read = static_cast<std::int64_t>(file.rows_read);
  record.kept = static_cast<std::int64_t>(file.candidates.size());
  record.set_aside = static_cast<std::int64_t>(file.set_aside);
  const auto store = open_to_write(options.file, context, words);
  plan::take_candidates(*store, file.candidates, record, context.actor());
  std::cerr << words.text("cli.take.species",
                          {{"species", record.kept}, {"aside", record.set_aside}})
            << '\n';
  return 0;
}

using Work = int (*)(const Options&, Context&);

CLI::App* add_kind(CLI::App& take, const std::string& kind, const std::string& what, Work work,
                   const std::shared_ptr<Options>& options, Context& context, Command& chosen) {
  CLI::App* command = take.add_subcommand(kind, what);
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("INPUT", options->input, "the file to take in")->required();
  command->callback([options, work, &context, &chosen] {
    chosen = [options, work, &context] { return work(*options, context); };
  });
  return command;
}

void add_place_options(CLI::App* command, Options& options) {
  command->add_option("--crs", options.crs, "coordinate system of the file, such as EPSG:32650");
  command->add_flag("--swap-axes", options.swap_axes, "the file has latitude first");
}

void add_log_options(CLI::App* command, Options& options) {
  command->add_option("--decimal", options.decimal, "comma or dot, where the numbers do not tell")
      ->check(CLI::IsMember({"comma", "dot"}));
  command->add_option("--missing", options.missing,
                      "a number that stands for not measured; may be given several times");
  command->add_option("--trace", options.trace, "a number that stands for a trace of rain");
  const auto names_a_field = [](const std::string& text) {
    constexpr std::string_view kFields =
        "|date|year|month|day|rain|tmax|tmin|rh_max|rh_min|rh_mean|wind|sun|station|days|";
    const std::size_t sign = text.find('=');
    const bool known = sign != std::string::npos && sign > 0 && sign + 1 < text.size() &&
                       kFields.find("|" + text.substr(0, sign) + "|") != std::string_view::npos;
    return known ? std::string()
                 : "write FIELD=HEADER, with FIELD date, rain, tmax, tmin ...: " + text;
  };
  command
      ->add_option("--column", options.columns,
                   "which column holds a reading, such as rain=CH; may be given several times")
      ->check(names_a_field);
  command->add_option("--only-station", options.which_station,
                      "the one station to read, where the file holds several");
}

}  // namespace

void add_take(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* take = app.add_subcommand("take", "Takes a file into the programme.");
  take->require_subcommand(1);
  CLI::App* boundary =
      add_kind(*take, "boundary", "Boundaries of sites.", take_boundary, options, context, chosen);
  add_place_options(boundary, *options);
  boundary->add_flag("--close-lines", options->close_lines,
                     "a walk goes round a site: join its pieces in order and close it");
  add_place_options(add_kind(*take, "water", "Streams, ditches and shores.", take_water, options,
                             context, chosen),
                    *options);
  CLI::App* weather =
      add_kind(*take, "weather", "A daily weather log.", take_weather, options, context, chosen);
  weather->add_option("--station", options->station, "name of the weather station");
  weather->add_option("--lon", options->lon_deg, "longitude of the station, degrees");
  weather->add_option("--lat", options->lat_deg, "latitude of the station, degrees");
  weather->add_option("--elevation", options->elevation_m,
                      "height of the station above the sea, metres");
  weather->add_option("--distance", options->distance_km,
                      "distance of the station from the site, km");
  weather->add_option("--date-order", options->date_order,
                      "dmy, mdy or ymd, where the file does not tell");
  weather->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  add_log_options(weather, *options);
  weather->add_flag("--read-next-morning", options->read_next_morning,
                    "readings belong to the day before");
  weather->add_flag("--replace", options->replace,
                    "the new log takes the place of the station's old one");
  add_kind(*take, "species", "Species and what the nursery has.", take_species, options, context,
           chosen);
}

}  // namespace wildling::cli
