#pragma once
/// What stands on every sheet of paper and every map picture, as plain structs: src/plan fills
/// them, src/paper sets them in type. All numbers are final (paper computes nothing but the place
/// of ink); sentences are Messages of the word catalogue. Lengths in metres, areas in hectares,
/// angles in degrees clockwise from true north. An empty optional prints as an empty line to be
/// filled by hand or is left out, never as zero.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/message.hpp"
#include "base/workings.hpp"

namespace wildling::plan {

// ---- shared pieces --------------------------------------------------------------------------

/// Metres east and north of any origin, north up; one origin for all shapes of one picture.
struct SheetXy {
  double x_m = 0;
  double y_m = 0;
};

/// WGS 84.
struct SheetLonLat {
  double lon_deg = 0;
  double lat_deg = 0;
};

using SheetLine = std::vector<SheetXy>;

struct SheetPart {
  SheetLine outer = {};               ///< open ring
  std::vector<SheetLine> holes = {};  ///< open rings
};

using SheetShape = std::vector<SheetPart>;

/// What every page says about itself.
struct SheetStamp {
  std::string programme = {};  ///< the programme's name
  int plan_number = 0;         ///< 0 = no plan yet (rain sheet)
  Date made_on =
      {};  ///< printed; also the file's only date, so that the same input gives the same bytes
  bool invented_figures = false;  ///< demo programmes: every page says so
};

enum class SheetGroup { pioneer, early, late, unknown };

enum class SheetJob {
  mark_places,
  dig_pits,
  plant,
  refill,
  weed_rings,
  weed_lines,
  weed_whole,
  press_grass,
  cut_climbers,
  firebreak,
  count
};

/// Each prints its usual caution, before the numbers and in this order.
enum class Hazard {
  heat,
  lightning,
  tools,
  snakes,
  large_animals,
  water,
  slope,
  smoke_and_fire,
  dead_wood,
  lone_work,
  vehicles,
  wasps,
  herbicide,
  climbing
};

/// "plant", "weed_rings", "heat" ...: the ends of word keys "paper.job." and "paper.hazard.".
std::string job_word(SheetJob job);
std::string hazard_word(Hazard hazard);

enum class SheetAnswer { not_asked, yes, no };

/// One of the four gate questions as it was answered.
struct GateLine {
  SheetAnswer answer = SheetAnswer::not_asked;
  bool adverse = false;  ///< answered, and against the work
  std::string who = {};
  std::optional<Date> day = {};
  std::optional<double> natural_trees_per_ha = {};  ///< only for the third question
};

struct GateTicks {
  GateLine consent = {}, fire_and_cattle = {}, natural_trees_counted = {}, drained_peat = {};
  bool open = false;  ///< false: "draft, not for crews", and no rows, species or slip are printed
  std::vector<Message> reasons = {};  ///< why it is closed
};

/// When to do it: dates, or neither when nothing can be told yet.
struct SheetWindow {
  std::optional<Date> first = {}, last = {};
  std::optional<int> good_years = {}, of_years = {};  ///< "in 9 of 11 years"
  std::optional<Message> note = {};                   ///< e.g. why there is no window
};

// ---- 1 crew sheet ---------------------------------------------------------------------------

struct SheetSpecies {
  std::string code = {};  ///< short, upper case, unique on the sheet: see species_codes()
  std::string scientific_name = {}, local_name = {};
  SheetGroup group = SheetGroup::unknown;
  int to_plant = 0;
  int to_load = 0;  ///< with spares
};

struct SheetPeg {
  std::string name = {};  ///< "A"
  SheetXy at = {};
  SheetLonLat lonlat = {};
};

struct SheetBaseline {
  SheetPeg a = {}, b = {};
  double bearing_deg = 0;                           ///< a to b, from true north
  std::optional<double> magnetic_bearing_deg = {};  ///< what the compass shows
  double length_m = 0;
  double row_bearing_deg = 0;  ///< of every row, from true north
  std::optional<double> row_magnetic_bearing_deg = {};
  double spacing_m = 0, row_spacing_m = 0;
  bool triangular = false;
  double setback_edge_m = 0, setback_water_m = 0;
  std::optional<double> position_error_m = {};  ///< of a peg's coordinates
};

/// Places of a row that follow each other at the spacing. A new part begins behind each gap (a
/// hole, a stream, a bend of the edge): there the tape starts again from the baseline.
struct SheetRowPart {
  int first_number = 1, last_number = 1;  ///< of the row's places, the empty ones counted too
  double along_m = 0;  ///< of the first, from the baseline; negative = other side
};

struct SheetRow {
  int number = 0;
  double tape_m = 0;         ///< along the baseline from peg a
  double first_plant_m = 0;  ///< along the row from the baseline; negative = on the other side
  int count = 0;
  std::vector<SheetRowPart> parts = {};  ///< all of them where the row is interrupted; else empty
  std::vector<int> species_counts = {};  ///< same order as CrewSheet::species; may be empty
  std::vector<std::uint8_t> species_order =
      {};  ///< species of each place, first place first, 255 = leave empty; may be
           ///< empty: then the counts are printed instead of the order
  SheetXy start = {}, end = {};  ///< first and last place, for the sketch map
};

struct CrewSheet {
  SheetJob job = SheetJob::plant;
  std::string block_code = {}, site = {}, ground_type = {};
  double area_ha = 0;
  std::optional<double> area_low_ha = {},
                        area_high_ha = {};  ///< 95 % interval from the error of the walk
  std::optional<double> slope_deg = {};
  SheetWindow window = {};
  GateTicks gates = {};
  std::vector<Hazard> hazards = {};
  std::vector<Message> cautions =
      {};                           ///< more, of this block ("the river rises within an hour ...")
  std::vector<Message> steps = {};  ///< more about the work, after the general steps of the job
  std::optional<double> person_days = {};
  std::optional<int> crew_people = {};
  SheetBaseline baseline = {};
  SheetShape shape = {};
  std::vector<SheetLine> water_lines = {};
  std::vector<SheetRow> rows = {};
  std::vector<SheetSpecies> species = {};
  std::string crew_leader = {};  ///< empty = to be written by hand
  std::string slip_number = {};  ///< of its return slip; empty = to be written by hand
};

struct CrewSheets {
  SheetStamp stamp = {};
  std::vector<CrewSheet> blocks = {};
};

/// `count` short codes that cannot be mistaken for each other on wet paper: single letters without
/// I, O and Q while they suffice (23), else a letter and a digit 1 to 9 ("A1", "B7"; to 207), else
/// a letter and two digits (to 2,277).
std::vector<std::string> species_codes(std::size_t count);

// ---- 2 monthly rain sheet -------------------------------------------------------------------

struct RainSheet {
  SheetStamp stamp = {};
  std::string station = {};
  std::optional<SheetLonLat> lonlat = {};
  std::optional<double> elevation_m = {};
  int year = 2000;
  unsigned month = 1;                  ///< 1 to 12
  bool rain_read_next_morning = true;  ///< the morning's rain belongs to the day before
  std::string reader = {};             ///< empty = by hand
};

// ---- 4 map picture --------------------------------------------------------------------------

enum class MapSign { perch, plot, nursery_bed, mother_tree_area, depot };

struct MapMark {
  MapSign sign = MapSign::plot;
  SheetXy at = {};
  std::string label = {};
};

struct MapBlock {
  std::string code = {};
  std::string ground_type = {};
  SheetShape shape = {};
  double area_ha = 0;
  int seedlings = 0;
  bool draft = false;  ///< gate closed: drawn hatched and called "draft"
  std::vector<float> seedling_x_m = {},
                     seedling_y_m = {};  ///< same length as groups; may be left empty
  std::vector<SheetGroup> groups = {};
  std::vector<std::array<SheetXy, 2>> rows =
      {};  ///< drawn when the seedlings are too many to be points
};

/// More seedlings than this on one picture are drawn as rows, more rows than this as filled blocks:
/// the filler may leave out what is not going to be drawn.
inline constexpr std::size_t kMapPointLimit = 20000;
inline constexpr std::size_t kMapRowLimit = 6000;

struct MapPicture {
  SheetStamp stamp = {};
  std::string title = {};               ///< site or programme
  std::optional<Message> finding = {};  ///< the caption's first sentence
  std::vector<MapBlock> blocks = {};
  std::vector<SheetLine> water_lines = {};
  std::vector<SheetLine> firebreaks = {};
  std::vector<SheetPeg> pegs = {};
  std::vector<MapMark> marks = {};
  SheetLonLat origin = {};  ///< of the metres; printed with the coordinate system
};

// ---- 3 plan summary page --------------------------------------------------------------------

/// Margin note beside a paragraph: where a number comes from.
struct MarginNote {
  Message text = {};
  Origin origin = Origin::computed;
};

struct SummaryParagraph {
  std::vector<Message> sentences = {};
  std::vector<MarginNote> notes = {};
};

struct NextAct {
  std::optional<Date> day = {};
  Message what = {};
};

struct SummaryHold {
  std::string block_code = {};
  std::vector<Message> reasons = {};
};

/// A letter of one page. Sentences beyond what fits are set smaller down to 9.5 pt, then the page
/// throws Error{usage, "paper.summary_too_long"}: nothing is cut in silence.
struct SummaryPage {
  SheetStamp stamp = {};
  std::string addressee = {};  ///< "To the office in ..."; may be empty
  Message answer = {};         ///< the first sentence
  SummaryParagraph why = {}, what = {}, where = {}, when = {}, how_many = {}, who = {},
                   how_much = {};
  std::vector<SummaryHold> on_hold = {};
  std::vector<Message> assumed = {};
  std::vector<NextAct> next_acts = {};  ///< the first three are printed
  std::vector<Message> sources = {};
  MapPicture map = {};
};

// ---- 5 the field year -----------------------------------------------------------------------

/// One block of tomorrow's work.
struct TomorrowTask {
  SheetJob job = SheetJob::plant;
  std::string block_code = {};
  std::string slip_number = {};  ///< printed on its return slip; empty = to be written by hand
  GateTicks gates =
      {};  ///< closed: the block is named under "not tomorrow" with its reasons, never as work
  std::vector<SheetRow> rows = {};  ///< only number and count are read
  std::vector<SheetSpecies> species = {};
  std::optional<double> person_days = {};
  std::vector<Message> notes = {};
};

struct TomorrowSheet {
  SheetStamp stamp = {};
  Date day = {};
  std::string crew_leader = {};
  std::optional<int> people = {};
  std::string meeting_place = {};
  std::string meeting_hour = {};        ///< "06:30"; local, as people say it
  std::optional<Message> verdict = {};  ///< "Plant tomorrow." / "Wait ..." with its why
  std::vector<TomorrowTask> tasks = {};
  std::vector<Hazard> hazards = {};
  std::vector<Message> cautions = {};
  std::vector<Message> rest_plan = {};  ///< beyond the usual rest of every hour
  std::vector<Message> access = {};     ///< rivers, roads shut
  std::vector<Message> bring = {};      ///< tools, water, crates
  std::string help = {};                ///< where help is: name and telephone; empty = by hand
};

struct FireMonth {
  unsigned month = 1;
  std::optional<double> rain_mm = {};  ///< mean; empty = not measured
  std::optional<int> years = {};       ///< of the log
  bool dry = false;                    ///< fire watch in this month
};

struct FirebreakJob {
  std::string block_code = {};
  double length_m = 0;
  std::optional<double> width_m = {}, width_low_m = {},
                        width_high_m = {};  ///< chosen, and what sources say
  std::optional<Date> due = {};
  std::optional<double> person_days = {};
  std::optional<Date> done = {};
};

struct PatrolLine {
  Message when = {};  ///< fire class; the lowest is "not high"
  Message what = {};  ///< who walks where, how often
};

struct NeighbourTold {
  std::string who = {};
  std::optional<Date> day = {};
};

struct FireCalendar {
  SheetStamp stamp = {};
  std::string station = {};
  int year = 2000;                     ///< the calendar runs from this January
  Message answer = {};                 ///< "Clear 2,140 m of firebreak before 20 June."
  std::vector<FireMonth> months = {};  ///< 12, or fewer
  std::vector<FirebreakJob> breaks = {};
  std::vector<Message> steps = {};  ///< what else falls on a day, in order
  std::vector<PatrolLine> patrol = {};
  std::vector<NeighbourTold> neighbours = {};
  std::vector<Message> after_fire = {};
  std::vector<Message> sources = {};
};

/// Names of people stand on this sheet: it stays in the office's hands.
struct PayLine {
  std::string name = {};
  std::vector<std::optional<double>> hours = {};  ///< one per day of the list
  std::optional<double> hours_total = {};
  std::optional<double> pay_per_day = {};
  std::optional<double> pay = {};
};

struct PayList {
  SheetStamp stamp = {};
  std::string crew_leader = {};
  std::vector<std::string> blocks = {};
  Date first = {};
  int days = 7;               ///< 1 to 7 columns
  std::string currency = {};  ///< "Rp"
  std::vector<PayLine> lines = {};
  int blank_lines = 0;  ///< more lines to be filled by hand
  std::optional<double> hours_total = {}, pay_total = {};
  std::optional<double> women_days = {}, men_days = {};
  std::vector<Message> notes = {};  ///< lines that are set aside and not paid yet, and why
};

/// One block of the weekly walk: what the office knows, the rest is written by hand.
struct WalkSheetLine {
  std::string block_code = {}, site = {};
  std::optional<double> tree_m = {};  ///< usual height of the trees, as computed or measured
  std::optional<Date> last_walk = {};
  bool due = false;  ///< the due list asks for this walk
};

/// The weekly smother walk: one line per block, the four pictures above them.
struct WalkSheet {
  SheetStamp stamp = {};
  Date week = {};           ///< first day of the week it is for
  std::string walker = {};  ///< empty = by hand
  std::vector<WalkSheetLine> lines = {};
  int blank_lines = 0;  ///< more lines to be filled by hand
  std::vector<Message> notes = {};
};

/// Why nobody planted on a day when the trucks were booked: kept with the plan, signed by two.
struct WaitingPage {
  SheetStamp stamp = {};
  Date day = {};
  std::vector<std::string> blocks = {};
  Message answer = {};  ///< "We did not plant today."
  std::vector<Message> why = {};
  std::vector<MarginNote> looked_at =
      {};                              ///< spade, rain of 14 days, the log: each with its origin
  std::vector<Message> safe_act = {};  ///< what was done with seedlings and people instead
  std::vector<Message> settles = {};   ///< the cheapest look that would settle it
  std::optional<Date> look_again = {};
  std::string overruled_by = {};  ///< who decided otherwise than the model; empty = nobody
};

}  // namespace wildling::plan
