#include "mix/blanks.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::mix {
namespace {

struct Guess {
  Blank blank;
  double spread = 0;  // living trees between low and high at the counts chosen
};

class Blanks {
 public:
  Blanks(std::span<const GroundNeed> grounds, std::span<const species::Candidate> candidates,
         std::span<const SurvivalRow> survival, const Demands& demands, const Choice& choice,
         const Progress& progress)
      : grounds_(grounds),
        candidates_(candidates),
        survival_(survival),
        demands_(demands),
        choice_(choice),
        progress_(progress) {}

  std::vector<Blank> find(std::size_t most) {
    std::vector<Blank> list;
    for (Guess& guess : widest(most)) list.push_back(try_survival(guess.blank));
    for (const std::size_t i : flood_unknown(most)) list.push_back(try_flood(i));
    std::stable_sort(list.begin(), list.end(),
                     [](const Blank& a, const Blank& b) { return a.weight > b.weight; });
    return list;
  }

 private:
  // Survival that is nobody's count, by how many living trees hang on it.
  std::vector<Guess> widest(std::size_t most) const {
    std::vector<Guess> guesses;
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
      for (const bool cover : {false, true}) add_guess(i, cover, guesses);
    }
    std::stable_sort(guesses.begin(), guesses.end(),
                     [](const Guess& a, const Guess& b) { return a.spread > b.spread; });
    if (guesses.size() > most) guesses.resize(most);
    return guesses;
  }

  void add_guess(std::size_t i, bool cover, std::vector<Guess>& guesses) const {
    Guess guess;
    for (std::size_t g = 0; g < grounds_.size(); ++g) {
      const species::Survival& s = survival_[g].of_candidate[i];
      if (grounds_[g].under_cover != cover || s.from == species::SurvivalFrom::own) continue;
      guess.spread += choice_.planted[g][i] * (s.high - s.low);
      guess.blank.low = s.low;
      guess.blank.high = s.high;
    }
    guess.blank.candidate = i;
    guess.blank.kind = cover ? BlankKind::survival_cover : BlankKind::survival_open;
    if (guess.spread > 0) guesses.push_back(guess);
  }

  std::vector<std::size_t> flood_unknown(std::size_t most) const {
    std::vector<std::size_t> list;
    for (std::size_t i = 0; i < candidates_.size() && list.size() < most; ++i) {
      const bool any = std::any_of(choice_.suitability.begin(), choice_.suitability.end(),
                                   [&](const auto& row) { return row[i] == Suits::flood_unknown; });
      if (any) list.push_back(i);
    }
    return list;
  }

  Choice with_survival(const Blank& blank, double share) const {
    std::vector<SurvivalRow> rows(survival_.begin(), survival_.end());
    for (std::size_t g = 0; g < rows.size(); ++g) {
      const bool same = grounds_[g].under_cover == (blank.kind == BlankKind::survival_cover);
      if (same) rows[g].of_candidate[blank.candidate].share = share;
    }
    return choose(grounds_, candidates_, rows, demands_, progress_);
  }

  Blank try_survival(Blank blank) const {
    const Choice low = with_survival(blank, blank.low);
    const Choice high = with_survival(blank, blank.high);
    take(low, blank.mix_at_low, blank.seedlings_low, blank);
    take(high, blank.mix_at_high, blank.seedlings_high, blank);
    const bool cover = blank.kind == BlankKind::survival_cover;
    blank.message = message(blank, cover ? "mix.blank_cover" : "mix.blank_open", 100);
    return blank;
  }

  Blank try_flood(std::size_t i) const {
    Blank blank;
    blank.candidate = i;
    blank.kind = BlankKind::flood;
    blank.high = 1;
    std::vector<species::Candidate> told(candidates_.begin(), candidates_.end());
    told[i].species.flood_tolerance = species::Level::high;
    take(choice_, blank.mix_at_low, blank.seedlings_low, blank);
    take(choose(grounds_, told, survival_, demands_, progress_), blank.mix_at_high,
         blank.seedlings_high, blank);
    blank.message = message(blank, "mix.blank_flood", 1);
    return blank;
  }

  void take(const Choice& other, bool& found, long long& seedlings, Blank& blank) const {
    found = other.verdict == Verdict::found;
    seedlings = other.total;
    const double change =
        found ? std::abs(other.objective - choice_.objective) / std::max(1e-9, choice_.objective)
              : 1;
    blank.weight = std::max(blank.weight, change);
    blank.other_species = blank.other_species || !found || used(other) != used(choice_);
  }

  std::vector<bool> used(const Choice& choice) const {
    std::vector<bool> list(candidates_.size(), false);
    for (const auto& row : choice.planted) {
      for (std::size_t i = 0; i < row.size(); ++i) list[i] = list[i] || row[i] > 0;
    }
    return list;
  }

  Message message(const Blank& b, const char* key, double unit) const {
    return say(key, {{"species", candidates_[b.candidate].name()},
                     {"low", unit * b.low},
                     {"high", unit * b.high},
                     {"mix_low", std::string(b.mix_at_low ? "yes" : "no")},
                     {"mix_high", std::string(b.mix_at_high ? "yes" : "no")},
                     {"seedlings_low", static_cast<std::int64_t>(b.seedlings_low)},
                     {"seedlings_high", static_cast<std::int64_t>(b.seedlings_high)}});
  }

  std::span<const GroundNeed> grounds_;
  std::span<const species::Candidate> candidates_;
  std::span<const SurvivalRow> survival_;
  const Demands& demands_;
  const Choice& choice_;
  const Progress& progress_;
};

}  // namespace

std::vector<Blank> blanks_that_matter(std::span<const GroundNeed> grounds,
                                      std::span<const species::Candidate> candidates,
                                      std::span<const SurvivalRow> survival, const Demands& demands,
                                      const Choice& choice, std::size_t most,
                                      const Progress& progress) {
  if (choice.verdict != Verdict::found || choice.total == 0) return {};
  return Blanks(grounds, candidates, survival, demands, choice, progress).find(most);
}

}  // namespace wildling::mix
