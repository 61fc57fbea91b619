#include "mix/notes.hpp"

#include <algorithm>

namespace wildling::mix {
namespace {

using Names = std::vector<std::string>;

class Notes {
 public:
  Notes(const Problem& p, std::span<const GroundNeed> grounds,
        std::span<const species::Candidate> candidates, std::span<const SurvivalRow> survival,
        const Choice& choice)
      : p_(p), grounds_(grounds), candidates_(candidates), survival_(survival), choice_(choice) {}

  std::vector<Message> all() {
    about_search();
    about_nature();
    about_survival();
    about_stock();
    about_prices();
    about_groups();
    about_ground();
    return std::move(list_);
  }

 private:
  void add(const char* key, std::map<std::string, Argument> arguments = {}) {
    list_.push_back(say(key, std::move(arguments)));
  }

  void add_names(const char* key, const Names& names,
                 std::map<std::string, Argument> arguments = {}) {
    if (names.empty()) return;
    arguments["names"] = names_list(names);
    arguments["count"] = static_cast<std::int64_t>(names.size());
    add(key, std::move(arguments));
  }

  template <class Test>
  Names names_where(Test test) const {
    Names names;
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
      if (test(i)) names.push_back(candidates_[i].name());
    }
    return names;
  }

  bool used(std::size_t i) const {
    return std::any_of(choice_.planted.begin(), choice_.planted.end(),
                       [&](const auto& row) { return row[i] > 0; });
  }

  void about_search() {
    if (choice_.verdict == Verdict::not_found) add("mix.not_found");
    if (choice_.verdict == Verdict::found && !choice_.proven)
      add("mix.not_proven", {{"gap", 100 * choice_.gap}});
    if (!choice_.repeatable) add("mix.not_repeatable");
  }

  void about_nature() {
    for (std::size_t g = 0; g < grounds_.size(); ++g) {
      if (!p_.planted(g)) add("mix.nature_enough", {{"ground", grounds_[g].ground_type}});
    }
  }

  // Seedlings whose survival nobody has counted here or for the species: the largest doubt in most
  // plans.
  void about_survival() {
    std::int64_t assumed = 0;
    bool beyond = false;
    for (std::size_t g = 0; g < grounds_.size(); ++g) {
      for (std::size_t i = 0; i < candidates_.size(); ++i) {
        const species::Survival& s = survival_[g].of_candidate[i];
        if (choice_.planted[g][i] == 0) continue;
        beyond = beyond || s.beyond_published_age;
        if (s.from == species::SurvivalFrom::group) assumed += choice_.planted[g][i];
      }
    }
    if (assumed > 0) {
      const double share =
          100.0 * static_cast<double>(assumed) / static_cast<double>(choice_.total);
      add("mix.survival_of_group", {{"seedlings", assumed}, {"share", share}});
    }
    if (beyond) add("mix.beyond_age", {{"months", p_.demands.age_months}});
  }

  void about_stock() {
    add_names("mix.stock_unknown",
              names_where([&](std::size_t i) { return used(i) && !p_.stock[i]; }));
    add_names("mix.ready_unknown", names_where([&](std::size_t i) {
                return used(i) && p_.stock[i] && !candidates_[i].stock.seedlings_ready;
              }));
  }

  void about_prices() {
    if (choice_.total == 0) return;
    if (!p_.any_price) {
      add("mix.no_price");
      if (p_.demands.budget) add("mix.budget_not_judged");
      return;
    }
    add_names("mix.price_unknown",
              names_where([&](std::size_t i) { return used(i) && !p_.price_known[i]; }));
  }

  void about_groups() {
    add_names("mix.group_unknown",
              names_where([&](std::size_t i) { return used(i) && !candidates_[i].species.group; }));
  }

  void about_ground() {
    for (std::size_t g = 0; g < grounds_.size(); ++g) {
      if (!p_.planted(g)) continue;
      const auto of = [&](Suits s) {
        return names_where([&](std::size_t i) { return p_.suitability[g][i] == s; });
      };
      const std::map<std::string, Argument> where = {{"ground", grounds_[g].ground_type}};
      add_names("mix.waits_for_cover", of(Suits::needs_cover), where);
      add_names("mix.flood_unknown", of(Suits::flood_unknown), where);
      add_names("mix.drowns", of(Suits::drowns), where);
      add_names("mix.needs_light", of(Suits::needs_light), where);
      add_names("mix.none_live", of(Suits::none_live), where);
      add_names("mix.not_counted", of(Suits::not_counted), where);
    }
  }

  const Problem& p_;
  std::span<const GroundNeed> grounds_;
  std::span<const species::Candidate> candidates_;
  std::span<const SurvivalRow> survival_;
  const Choice& choice_;
  std::vector<Message> list_;
};

}  // namespace

std::string names_list(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 6;
  std::string text;
  for (std::size_t i = 0; i < std::min(kShown, names.size()); ++i)
    text += (i > 0 ? ", " : "") + names[i];
  return names.size() > kShown ? text + " …" : text;
}

std::vector<Message> notes_of(const Problem& problem, std::span<const GroundNeed> grounds,
                              std::span<const species::Candidate> candidates,
                              std::span<const SurvivalRow> survival, const Choice& choice) {
  return Notes(problem, grounds, candidates, survival, choice).all();
}

}  // namespace wildling::mix
