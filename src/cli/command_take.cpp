#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "plan/take_file.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, input, today;
  plan::TakeOptions take;
};

int take_file(const std::string& kind, const Options& options, Context& context) {
  const Words words = context.words();
  plan::TakeOptions wanted = options.take;
  wanted.today = today_or(options.today, context);
  const plan::ReadFile read =
      plan::read_to_take(kind, plan::TakeSource::file(options.input), wanted);
  print_findings(std::cerr, read.record.findings, words);
  read.refuse_if_empty();
  const auto store = open_to_write(options.file, context, words);
  const Message kept = read.keep(*store, context.actor());
  print_findings(std::cerr, *read.changes, words);
  std::cerr << words.text(kept) << '\n';
  return 0;
}

CLI::App* add_kind(CLI::App& take, const std::string& kind, const std::string& what,
                   const std::shared_ptr<Options>& options, Context& context, Command& chosen) {
  CLI::App* command = take.add_subcommand(kind, what);
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("INPUT", options->input, "the file to take in")->required();
  command->callback([options, kind, &context, &chosen] {
    chosen = [options, kind, &context] { return take_file(kind, *options, context); };
  });
  return command;
}

void add_place_options(CLI::App* command, Options& options) {
  command->add_option("--crs", options.take.crs,
                      "coordinate system of the file, such as EPSG:32650");
  command->add_flag("--swap-axes", options.take.swap_axes, "the file has latitude first");
}

void add_log_options(CLI::App* command, Options& options) {
  command
      ->add_option("--decimal", options.take.decimal, "comma or dot, where the numbers do not tell")
      ->check(CLI::IsMember({"comma", "dot"}));
  command->add_option("--missing", options.take.missing,
                      "a number that stands for not measured; may be given several times");
  command->add_option("--trace", options.take.trace, "a number that stands for a trace of rain");
  const auto names_a_field = [](const std::string& text) {
    constexpr std::string_view kFields =
        "|date|year|month|day|rain|tmax|tmin|rh_max|rh_min|rh_mean|wind|sun|station|days|remark|";
    const std::size_t sign = text.find('=');
    const bool known = sign != std::string::npos && sign > 0 && sign + 1 < text.size() &&
                       kFields.find("|" + text.substr(0, sign) + "|") != std::string_view::npos;
    return known ? std::string()
                 : "write FIELD=HEADER, with FIELD date, rain, tmax, tmin ...: " + text;
  };
  command
      ->add_option("--column", options.take.columns,
                   "which column holds a reading, such as rain=CH; may be given several times")
      ->check(names_a_field);
  command->add_option(
      "--unit", options.take.units,
      "unit of a reading, such as rain=inch or tmax=f, over what the file says; may "
      "be given several times");
  command->add_option("--year", options.take.year,
                      "year of a table of months that does not name it");
  command->add_option("--only-station", options.take.only_station,
                      "the one station to read, where the file holds several");
}

}  // namespace

void add_take(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* take = app.add_subcommand("take", "Takes a file into the programme.");
  take->require_subcommand(1);
  CLI::App* boundary =
      add_kind(*take, "boundary", "Boundaries of sites.", options, context, chosen);
  add_place_options(boundary, *options);
  boundary->add_flag("--close-lines", options->take.close_lines,
                     "a walk goes round a site: join its pieces in order and close it");
  add_place_options(
      add_kind(*take, "water", "Streams, ditches and shores.", options, context, chosen), *options);
  CLI::App* weather = add_kind(*take, "weather", "A daily weather log.", options, context, chosen);
  weather->add_option("--station", options->take.station, "name of the weather station");
  weather->add_option("--lon", options->take.lon_deg, "longitude of the station, degrees");
  weather->add_option("--lat", options->take.lat_deg, "latitude of the station, degrees");
  weather->add_option("--elevation", options->take.elevation_m,
                      "height of the station above the sea, metres");
  weather->add_option("--distance", options->take.distance_km,
                      "distance of the station from the site, km");
  weather->add_option("--date-order", options->take.date_order,
                      "dmy, mdy or ymd, where the file does not tell");
  weather->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  add_log_options(weather, *options);
  weather->add_flag("--read-next-morning", options->take.read_next_morning,
                    "readings belong to the day before");
  weather->add_flag("--replace", options->take.replace,
                    "the new log takes the place of the station's old one");
  weather->add_flag("--correct", options->take.correct,
                    "days of the log are added or corrected; all others stay");
  weather->add_flag("--main", options->take.main,
                    "this station speaks for the programme, instead of the first taken in");
  add_kind(*take, "species", "Species and what the nursery has.", options, context, chosen);
  add_kind(*take, "elevation", "An elevation model, for light and shade on the map.", options,
           context, chosen)
      ->add_option("--crs", options->take.crs, "coordinate system of the file, such as EPSG:32650");
}

}  // namespace wildling::cli
