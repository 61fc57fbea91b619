#pragma once
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "tending/norms.hpp"

namespace wildling::tending {

/// One line of the work diary: a person, a day, a job.
struct DiaryLine {
  std::string who;
  enum class Sex { not_said, woman, man } sex = Sex::not_said;
  Date day = {};
  std::string block;
  Job job = Job::ring;
  double hours = 0;                ///< in (0, 24]
  std::optional<double> quantity;  ///< done, in the job's unit (m2, trees, m); empty: not written
  std::string where;               ///< "diary.csv:12", for findings
};

/// What the office knows about a block when it checks a line.
struct BlockFacts {
  bool consent = false;
  std::optional<Date> planted_on;  ///< first planting day; empty: not planted yet
};

/// The book's rate and the programme's own, side by side.
struct OwnRate {
  std::string rate;  ///< "slash", "pits" ...
  double book = 0;   ///< per day
  double own = 0;    ///< quantity over days of the diary; 0 when nothing was written
  double own_quantity = 0;
  double own_days = 0;  ///< person-days behind it
  int lines = 0;
  double used =
      0;  ///< (own x days + book x tending.diary.book_days) / (days + tending.diary.book_days)
  std::optional<double> own_low, own_high;  ///< 95 % of the own rate, from 5 lines on
  bool replaces_book =
      false;  ///< a season is over (tending.diary.season_days between first and last line) and the
              ///< diary holds tending.diary.enough_days person-days: then used = own
};

/// Which rate of tending.rate a job is counted by ("slash" for ring, line, whole and firebreak).
std::string_view rate_of(Job job);

/// Own rate of every rate with lines in the diary, in order of name. A day is
/// tending.diary.hours_per_day hours. Firebreak metres count with the planned width. Interval:
/// ratio of quantity to days, standard error by leaving out one line at a time (jackknife),
/// Student's t.
std::vector<OwnRate> own_rates(std::span<const DiaryLine> lines, const Parameters& parameters);

/// Lays own rates over the parameters: value used, slow and fast moved in the same proportion;
/// origin measured once the diary replaces the book.
Parameters with_own_rates(Parameters parameters, std::span<const OwnRate> rates);

/// One person's pay.
struct PayLine {
  std::string who;
  double hours = 0;
  double days = 0;  ///< hours over tending.diary.hours_per_day
  double amount = 0;
  int lines = 0;
};

struct PayList {
  std::vector<PayLine> people;  ///< by name
  double women_days = 0, men_days = 0, not_said_days = 0;
  std::map<std::string, double> by_block;  ///< amount
  std::map<std::string, double> by_job;
  double days = 0, amount = 0;
  std::vector<std::size_t> set_aside;  ///< indices of lines kept aside until settled
  Findings findings;
};

/// Attendance and pay from diary lines between two days, both inside. A line that breaks a rule is
/// set aside with a finding and not paid yet, nothing is lost: hours not in (0, 24], more than 24
/// hours of one person on one day (all of that person's lines of the day), a day after `to` of
/// nobody's wage known, a block unknown or without consent, tending logged before planting, the
/// same person, day, block and job twice.
/// @param wages  money per day by person; empty key "" = everybody else
PayList pay_list(std::span<const DiaryLine> lines, Date from, Date to,
                 const std::map<std::string, double>& wages,
                 const std::map<std::string, BlockFacts>& blocks, const Parameters& parameters);

}  // namespace wildling::tending
