#include "intake/date_sequence.hpp"

#include <algorithm>

namespace wildling::intake {
namespace {

constexpr int kNear_days = 40;
constexpr std::size_t kLongestRun = 3;

struct DatedRow {
  std::size_t row = 0;
  int day = 0;  // days since 1970, negated where time runs backward
};

// Marks the rows of a longest non-decreasing subsequence (patience sorting).
std::vector<bool> in_sequence(const std::vector<DatedRow>& rows) {
  std::vector<std::size_t> last;  // last[k]: place of the smallest end of a sequence of k + 1
  std::vector<std::size_t> previous(rows.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto place =
        std::upper_bound(last.begin(), last.end(), rows[i].day,
                         [&rows](int day, std::size_t j) { return day < rows[j].day; });
    if (place != last.begin()) previous[i] = *(place - 1);
    if (place == last.end()) {
      last.push_back(i);
    } else {
      *place = i;
    }
  }
  std::vector<bool> marked(rows.size(), false);
  for (std::size_t i = last.empty() ? rows.size() : last.back(); i < rows.size(); i = previous[i]) {
    marked[i] = true;
  }
  return marked;
}

int outside(int day, int before, int after) {
  return std::max({before - day, day - after, 0});
}

}  // namespace

std::vector<OutOfPlace> dates_out_of_place(const std::vector<std::optional<Date>>& days) {
  std::vector<DatedRow> rows;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (days[i]) rows.push_back({i, static_cast<int>(days[i]->time_since_epoch().count())});
  }
  std::vector<DatedRow> backward = rows;
  for (DatedRow& row : backward) row.day = -row.day;
  std::vector<bool> placed = in_sequence(rows);
  const std::vector<bool> placed_backward = in_sequence(backward);
  if (std::count(placed_backward.begin(), placed_backward.end(), true) >
      std::count(placed.begin(), placed.end(), true)) {
    placed = placed_backward;
    rows = backward;
  }
  std::vector<OutOfPlace> result;
  for (std::size_t i = 0; i < rows.size();) {
    std::size_t end = i;
    while (end < rows.size() && !placed[end]) ++end;
    if (i > 0 && end < rows.size() && end - i <= kLongestRun) {
      const DatedRow above = rows[i - 1];
      const DatedRow below = rows[end];
      for (std::size_t k = i; k < end && below.day - above.day <= kNear_days; ++k) {
        if (outside(rows[k].day, above.day, below.day) > kNear_days) {
          result.push_back({rows[k].row, *days[above.row], *days[below.row]});
        }
      }
    }
    i = end + 1;
  }
  return result;
}

}  // namespace wildling::intake
