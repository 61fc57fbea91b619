#include <algorithm>
#include <mutex>

#include "base/error.hpp"
#include "paper/crew_parts.hpp"
#include "paper/fonts.hpp"
#include "paper/paper.hpp"
#include "paper/table.hpp"

namespace wildling::paper {
namespace {

constexpr Type kBold{Face::sans, 10.5, true};

void bullets(Page& page, const std::vector<Message>& messages) {
  for (const Message& message : messages) {
    const Run run{page.talk(message), {}};
    page.item("\u2013", std::span<const Run>(&run, 1));
  }
}

std::string day_or_blank(const Talk& talk, const std::optional<Date>& day) {
  return day ? talk.date(*day) : "";
}

// ---- fire calendar ----------------------------------------------------------------------------

// A column of rain per month; dry months are framed thick and named.
void write_months(Page& page, const plan::FireCalendar& calendar) {
  if (calendar.months.empty()) return;
  const Talk& talk = page.talk;
  constexpr double tall = 64, label = 44;
  page.heading(talk("fire_months", {{"station", calendar.station}}), tall + label);
  double most = 1;
  for (const plan::FireMonth& month : calendar.months)
    most = std::max(most, month.rain_mm.value_or(0));
  const double wide = page.width() / static_cast<double>(calendar.months.size());
  double x = page.left();
  const double foot = page.y + tall + 14;
  for (const plan::FireMonth& month : calendar.months) {
    if (month.rain_mm) {
      const double high = *month.rain_mm / most * tall;
      page.canvas.fill({x + wide * 0.28, foot - high, wide * 0.44, high}, kWater);
      page.canvas.text(x, foot - high - 14, wide, talk.number(*month.rain_mm, 0), {Face::sans, 10},
                       Align::centre);
    } else {
      page.canvas.text(x, foot - 14, wide, talk("fire_no_rain_log"), {Face::sans, 10},
                       Align::centre);
    }
    const double below = page.canvas.text(
        x, foot + 1, wide, talk("month_short", {{"day", make_date(calendar.year, month.month, 1)}}),
        kBold, Align::centre);
    if (month.dry) {
      page.canvas.frame({x + 1.5, foot - tall - 13, wide - 3, tall + 44}, {1.6, kInk, {}});
      page.canvas.text(x + 1, foot + below, wide - 2, talk("fire_watch"), {Face::sans, 9.5},
                       Align::centre);
    }
    x += wide;
  }
  page.canvas.line({page.left(), foot}, {page.left() + page.width(), foot}, {1.0, kInk, {}});
  page.y = foot + 36;
  page.paragraph(talk("fire_months_note"), {Face::sans, 9.5}, 2);
}

void write_breaks(Page& page, const plan::FireCalendar& calendar) {
  if (calendar.breaks.empty()) return;
  const Talk& talk = page.talk;
  page.heading(talk("fire_breaks"), 60);
  page.paragraph(talk("fire_breaks_note"), {}, 3);
  Table table(page,
              {{talk("block"), 52, Align::left, true, false},
               {talk("fire_length"), 62, Align::right, false, false},
               {talk("fire_width"), 96, Align::left, false, false},
               {talk("fire_due"), page.width() - 52 - 62 - 96 - 78 - 100, Align::left, true, false},
               {talk("fire_days"), 78, Align::right, false, false},
               {talk("fire_done"), 100, Align::left, false, false}},
              page.left());
  table.head();
  for (const plan::FirebreakJob& job : calendar.breaks) {
    std::string width = job.width_m ? talk.number(*job.width_m, 0) : "";
    if (job.width_low_m && job.width_high_m)
      width += (width.empty() ? "" : " ") +
               talk("fire_width_between", {{"low", talk.number(*job.width_low_m, 0)},
                                           {"high", talk.number(*job.width_high_m, 0)}});
    table.row(
        {job.block_code, talk.number(job.length_m, 0), width, day_or_blank(talk, job.due),
         job.person_days ? talk.number(*job.person_days, 1) : "", day_or_blank(talk, job.done)},
        18);
  }
}

void write_patrol(Page& page, const plan::FireCalendar& calendar) {
  const Talk& talk = page.talk;
  if (!calendar.patrol.empty()) {
    page.heading(talk("fire_patrol"), 60);
    Table table(page,
                {{talk("fire_class"), 130, Align::left, true, false},
                 {talk("fire_who_walks"), page.width() - 130, Align::left, false, false}},
                page.left());
    table.head();
    for (const plan::PatrolLine& line : calendar.patrol)
      table.row({talk(line.when), talk(line.what)}, 18);
  }
  if (calendar.neighbours.empty()) return;
  page.heading(talk("fire_neighbours"), 40);
  Table table(page,
              {{talk("fire_neighbour"), page.width() - 130 - 140, Align::left, false, false},
               {talk("fire_told_on"), 130, Align::left, false, false},
               {talk("slip_signature"), 140, Align::left, false, false}},
              page.left());
  table.head();
  for (const plan::NeighbourTold& told : calendar.neighbours)
    table.row({told.who, day_or_blank(talk, told.day), ""}, 19);
}

int write_fire(Canvas& canvas, const Talk& talk, const plan::FireCalendar& calendar, int pages) {
  PageFrame frame;
  frame.stamp = calendar.stamp;
  frame.running_title = talk("fire_calendar");
  frame.pages = pages;
  Page page(canvas, talk, frame);
  page.paragraph(talk("fire_calendar"), kBold, 0);
  page.paragraph(talk(calendar.answer), {Face::serif, 19, true}, 3);
  plan::CrewSheet cautions;
  cautions.hazards = {plan::Hazard::smoke_and_fire, plan::Hazard::heat, plan::Hazard::lone_work};
  write_cautions(page, cautions);
  write_months(page, calendar);
  write_breaks(page, calendar);
  if (!calendar.steps.empty()) {
    page.heading(talk("fire_steps"));
    bullets(page, calendar.steps);
  }
  write_patrol(page, calendar);
  if (!calendar.after_fire.empty()) {
    page.heading(talk("fire_after"));
    bullets(page, calendar.after_fire);
  }
  if (!calendar.sources.empty()) {
    page.heading(talk("letter.sources"));
    page.paragraph(talk.sentences(calendar.sources), {Face::sans, 10.5});
  }
  return page.number();
}

// ---- attendance and pay -----------------------------------------------------------------------

std::vector<Column> pay_columns(const Page& page, const plan::PayList& list) {
  const Talk& talk = page.talk;
  std::vector<Column> columns{{talk("pay_name"), 104, Align::left, false, false}};
  constexpr double day_width = 26, hours = 44, rate = 56, pay = 64;
  for (int i = 0; i < list.days; ++i)
    columns.push_back({std::to_string(day_of_month(list.first + std::chrono::days(i))), day_width,
                       Align::right, false, false});
  columns.push_back({talk("pay_hours"), hours, Align::right, true, false});
  columns.push_back(
      {talk("pay_per_day", {{"currency", list.currency}}), rate, Align::right, false, false});
  columns.push_back(
      {talk("pay_pay", {{"currency", list.currency}}), pay, Align::right, true, false});
  double used = 0;
  for (const Column& column : columns) used += column.width_pt;
  columns.push_back({talk("slip_signature"), page.width() - used, Align::left, false, false});
  return columns;
}

std::string number_or_blank(const Talk& talk, const std::optional<double>& value, int decimals) {
  return value ? talk.number(*value, decimals) : "";
}

std::vector<std::string> pay_cells(const Talk& talk, const plan::PayList& list,
                                   const plan::PayLine& line) {
  std::vector<std::string> cells{line.name};
  for (int i = 0; i < list.days; ++i) {
    const auto index = static_cast<std::size_t>(i);
    const std::optional<double> hours =
        index < line.hours.size() ? line.hours[index] : std::nullopt;
    const bool whole = hours && *hours == static_cast<int>(*hours);
    cells.push_back(number_or_blank(talk, hours, whole ? 0 : 1));
  }
  cells.push_back(number_or_blank(talk, line.hours_total, 1));
  cells.push_back(number_or_blank(talk, line.pay_per_day, 0));
  cells.push_back(number_or_blank(talk, line.pay, 0));
  cells.emplace_back();
  return cells;
}

int write_pay(Canvas& canvas, const Talk& talk, const plan::PayList& list, int pages) {
  constexpr double line_height = 22;
  PageFrame frame;
  frame.stamp = list.stamp;
  frame.running_title = talk("pay_list");
  frame.pages = pages;
  Page page(canvas, talk, frame);
  page.paragraph(talk("pay_list"), kBold, 0);
  page.paragraph(talk("pay_week", {{"first", list.first},
                                   {"last", list.first + std::chrono::days(list.days - 1)}}),
                 {Face::serif, 19, true}, 2);
  std::string blocks;
  for (const std::string& block : list.blocks) blocks += (blocks.empty() ? "" : ", ") + block;
  if (!list.crew_leader.empty())
    page.paragraph(talk("fact.leader") + ": " + list.crew_leader, {}, 1);
  if (!blocks.empty()) page.paragraph(talk("pay_blocks", {{"blocks", blocks}}), {}, 1);
  page.paragraph(talk("pay_note"), kBold, 5);
  Table table(page, pay_columns(page, list), page.left());
  table.head();
  for (const plan::PayLine& line : list.lines) table.row(pay_cells(talk, list, line), line_height);
  for (int i = 0; i < list.blank_lines; ++i) table.row(pay_cells(talk, list, {}), line_height);
  plan::PayLine total;
  total.name = talk("total");
  total.hours_total = list.hours_total;
  total.pay = list.pay_total;
  table.row(pay_cells(talk, list, total), line_height);
  page.space(8);
  if (list.women_days && list.men_days)
    page.paragraph(talk("pay_days_of", {{"women", *list.women_days}, {"men", *list.men_days}}));
  bullets(page, list.notes);
  page.need(40);
  page.space(14);
  page.blank(page.left(), page.width() / 2 - 8, talk("slip_leader"), page.y);
  page.blank(page.left() + page.width() / 2 + 8, page.width() / 2 - 8, talk("pay_office"), page.y);
  return page.number();
}

// ---- why we waited ----------------------------------------------------------------------------

int write_waiting(Canvas& canvas, const Talk& talk, const plan::WaitingPage& waiting, int pages) {
  PageFrame frame;
  frame.stamp = waiting.stamp;
  frame.running_title = talk("waited");
  frame.pages = pages;
  Page page(canvas, talk, frame);
  page.paragraph(talk("waited"), kBold, 0);
  page.paragraph(talk(waiting.answer), {Face::serif, 21, true}, 3);
  std::string blocks;
  for (const std::string& block : waiting.blocks) blocks += (blocks.empty() ? "" : ", ") + block;
  page.paragraph(talk("waited_day", {{"day", waiting.day}, {"blocks", blocks}}), {Face::sans, 11},
                 6);
  page.paragraph(talk.sentences(waiting.why), {Face::serif, 11.5}, 4);
  if (!waiting.looked_at.empty()) page.heading(talk("waited_looked"));
  for (const plan::MarginNote& note : waiting.looked_at) {
    const std::string origin =
        talk.words().text("base.origin." + std::string(origin_name(note.origin)));
    const Run runs[] = {{talk(note.text) + " ", {}},
                        {"(" + origin + ")", {Face::sans, 10.5, false, true}}};
    page.item("\u2013", std::span<const Run>(runs));
  }
  if (!waiting.safe_act.empty()) page.heading(talk("waited_did"));
  bullets(page, waiting.safe_act);
  if (!waiting.settles.empty()) page.heading(talk("waited_settles"));
  bullets(page, waiting.settles);
  page.space(4);
  page.paragraph(waiting.look_again ? talk("waited_again", {{"day", *waiting.look_again}})
                                    : talk("waited_again_open"),
                 kBold);
  page.paragraph(waiting.overruled_by.empty()
                     ? talk("waited_followed")
                     : talk("waited_overruled", {{"who", waiting.overruled_by}}));
  page.heading(talk("waited_signed"), 130);
  page.paragraph(talk("waited_signed_note"), {}, 14);
  for (const char* who : {"slip_leader", "pay_office"}) {
    page.blank(page.left(), page.width() * 0.42, talk(who), page.y);
    page.blank(page.left() + page.width() * 0.45, page.width() * 0.33, talk("slip_signature"),
               page.y);
    page.blank(page.left() + page.width() * 0.81, page.width() * 0.19, talk("slip_date"), page.y);
    page.space(38);
  }
  return page.number();
}

// Writes twice: first to count the pages.
template <class Write>
std::string twice(const plan::SheetStamp& stamp, const std::string& title, Write write) {
  Canvas scratch = Canvas::blank();
  const int pages = write(scratch, 0);
  Canvas canvas = Canvas::pdf(kA4Short, kA4Long, stamp.made_on, title);
  write(canvas, pages);
  return canvas.finish();
}

}  // namespace

std::string write_fire_calendar(const plan::FireCalendar& calendar, const Words& words) {
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  return twice(calendar.stamp, talk("fire_calendar"), [&](Canvas& canvas, int pages) {
    return write_fire(canvas, talk, calendar, pages);
  });
}

std::string write_pay_list(const plan::PayList& list, const Words& words) {
  if (list.days < 1 || list.days > 7)
    throw Error(ErrorKind::usage, "", say("paper.pay_days", {{"days", std::int64_t{list.days}}}));
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  return twice(list.stamp, talk("pay_list"),
               [&](Canvas& canvas, int pages) { return write_pay(canvas, talk, list, pages); });
}

std::string write_waiting_page(const plan::WaitingPage& page, const Words& words) {
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  return twice(page.stamp, talk("waited"),
               [&](Canvas& canvas, int pages) { return write_waiting(canvas, talk, page, pages); });
}

}  // namespace wildling::paper
