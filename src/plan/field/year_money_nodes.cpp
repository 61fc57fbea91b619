#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/workings_build.hpp"
#include "plan/field/year_money.hpp"
#include "tending/tending_workings.hpp"

namespace wildling::plan {
namespace {

using Keys = std::vector<std::string>;
using tending::Job;
using tending::Work;

/// What of one month is changed in the same way by a bad year, with its keys.
struct Kind {
  Keys keys;
  double sum = 0;

  void add(const std::string& key, double amount) {
    keys.push_back(key);
    sum += amount;
  }
};

class MoneyNodes {
 public:
  MoneyNodes(Workings& workings, const Year& year, const MoneyQuestion& question,
             const MoneyAnswer& answer)
      : build_(workings), year_(year), question_(question), answer_(answer) {}

  void write() {
    tending::add_workings(build_.workings(), question_.care, year_.rates);
    for (const Work& work : question_.paid.works) add_work(work);
    for (const OtherCost& cost : question_.other) add_other(cost);
    add_blocks();
    add_incomes();
    add_plain();
    const auto bad = tending::bad_years(year_.rates);
    for (std::size_t i = 0; i < bad.size(); ++i) add_bad(bad[i], answer_.runs[i + 1]);
  }

 private:
  std::string price_key(const std::string& item, Date day, const std::string& parameter) {
    const PriceStep* step = step_on(year_.book.prices, item, day);
    if (step == nullptr) return add_parameter(build_.workings(), year_.rates.at(parameter));
    return build_.leaf("year/price/" + item + "/" + iso_date(step->from),
                       say("year.label.price", {{"item", item}, {"day", step->from}}), step->price,
                       "money", Origin::told, step->note);
  }

  Message work_label(const char* what, const Work& work) {
    return say(std::string("year.label.") + what,
               {{"block", work.block},
                {"job", std::string(tending::job_name(work.job))},
                {"round", static_cast<std::int64_t>(work.round)}});
  }

  void add_work(const Work& work) {
    const std::string at =
        "tending/" + work.block + "/" + std::string(tending::job_name(work.job)) + "/";
    const std::string wages = build_.computed(
        work_key(work) + "wages", work_label("wages", work), work.wages, "money", "tending.product",
        {at + std::to_string(work.round) + "/days",
         price_key("wage", work.due, "tending.wage_per_day")});
    std::string materials;
    if (work.materials > 0) {
      const bool refill = work.job == Job::refill;
      materials =
          build_.computed(work_key(work) + "materials", work_label("materials", work),
                          work.materials, "money", "tending.product",
                          {"tending/" + work.block + (refill ? "/refilled" : "/planted"),
                           price_key(refill ? "refill_seedling" : "stake", work.due,
                                     refill ? "tending.price.seedling" : "tending.price.stake")});
    }
    if (work.due < question_.start) return;
    file(work, wages, materials);
  }

  /// Puts the keys of a work where the sums look for them.
  void file(const Work& work, const std::string& wages, const std::string& materials) {
    const int month = tending::month_index(work.due);
    const bool refill = work.job == Job::refill;
    const auto put = [&](const char* what, double amount, const std::string& key) {
      for (const bool hard : {true, false}) {
        const Date from = hard ? question_.hard_from : question_.dear_from;
        const bool touched = work.due >= from && work.due < add_months(from, 12);
        kind_of(hard, month, touched ? std::string(refill ? "refill_" : "") + what : "rest")
            .add(key, amount);
      }
    };
    put("wages", work.wages, wages);
    BlockKeys& block = blocks_[{month, work.block}];
    block.days.push_back("tending/" + work.block + "/" + std::string(tending::job_name(work.job)) +
                         "/" + std::to_string(work.round) + "/days");
    block.wages.push_back(wages);
    if (materials.empty()) return;
    put("materials", work.materials, materials);
    block.materials.push_back(materials);
  }

  std::string species_price(const std::string& name) {
    for (const species::Candidate& candidate : year_.programme.candidates) {
      if (candidate.name() == name && candidate.stock.price_per_seedling) {
        return build_.leaf("species/" + name + "/price",
                           say("plan.node.price", {{"species", name}}),
                           *candidate.stock.price_per_seedling, "money/seedling", Origin::told,
                           candidate.stock.source);
      }
    }
    return {};
  }

  std::string seedlings_key(const OtherCost& cost) {
    Keys inputs;
    for (const BlockPart& part : year_.plan.blocks) {
      if (part.block.code != cost.block) continue;
      for (std::size_t i = 0; i < part.counts.size(); ++i) {
        const std::string& name = year_.plan.species[i].name;
        if (part.counts[i] == 0) continue;
        const std::string price = species_price(name);
        if (price.empty()) continue;
        inputs.push_back(price);
        inputs.push_back(build_.leaf(
            "block/" + cost.block + "/planted/" + name,
            say("plan.node.block_species", {{"block", cost.block}, {"species", name}}),
            part.counts[i], "seedlings", Origin::chosen, "shared out of the chosen mix"));
      }
    }
    return build_.computed("year/seedlings/" + cost.block,
                           say("year.label.seedlings", {{"block", cost.block}}), cost.amount,
                           "money", "plan.sum_of_products", inputs);
  }

  std::string trips_key(const OtherCost& cost) {
    Keys planted;
    double trees = 0;
    for (const tending::BlockCare& care : question_.care.inputs) {
      planted.push_back("tending/" + care.block + "/planted");
      trees += care.planted();
    }
    const auto parameter = [&](const char* key) {
      return add_parameter(build_.workings(), year_.rates.at(key));
    };
    const std::string all =
        build_.computed("year/trees", say("year.label.trees"), trees, "trees", "plan.sum", planted);
    const double crates_used =
        std::ceil(trees / year_.rates.value("tending.crate.seedlings") - 1e-9);
    const std::string crates =
        build_.computed("year/crates", say("year.label.crates"), crates_used, "crates",
                        "tending.crates", {all, parameter("tending.crate.seedlings")});
    const double trips_used =
        std::ceil(crates_used / year_.rates.value("tending.trip.crates") - 1e-9);
    const std::string trips =
        build_.computed("year/trips", say("year.label.trips"), trips_used, "trips",
                        "tending.crates", {crates, parameter("tending.trip.crates")});
    return build_.computed("year/trips_cost", say("year.label.trips_cost"), cost.amount, "money",
                           "tending.product",
                           {trips, price_key("trip", cost.day, "tending.wage_per_day")});
  }

  void add_other(const OtherCost& cost) {
    std::string key;
    if (cost.what == "seedlings") {
      key = seedlings_key(cost);
    } else if (cost.what == "trips") {
      key = trips_key(cost);
    } else {
      key = price_key("month", cost.day, "tending.wage_per_day");
    }
    if (cost.day < question_.start) return;
    const int month = tending::month_index(cost.day);
    for (const bool hard : {true, false}) kind_of(hard, month, "rest").add(key, cost.amount);
    if (cost.what == "seedlings") {
      blocks_[{month, cost.block}].seedlings.push_back(key);
    } else {
      loose_[month].push_back(key);
    }
  }

  void add_blocks() {
    for (const MonthOfBlock& one : answer_.by_block) {
      const BlockKeys& keys = blocks_[{one.month, one.block}];
      const std::string text = tending::month_text(one.month);
      const std::string at = "year/month/" + text + "/" + one.block + "/";
      const auto sum = [&](const char* what, double value, const std::string& unit,
                           const Keys& inputs) {
        return build_.computed(
            at + what,
            say(std::string("year.label.month_") + what, {{"block", one.block}, {"month", text}}),
            value, unit, "plan.sum", inputs);
      };
      sum("days", one.days, "person-days", keys.days);
      const std::string wages = sum("wages", one.wages, "money", keys.wages);
      const std::string materials = sum("materials", one.materials, "money", keys.materials);
      const std::string seedlings = sum("seedlings", one.seedlings, "money", keys.seedlings);
      totals_[one.month].push_back(
          sum("total", one.total(), "money", {wages, materials, seedlings}));
    }
  }

  void add_incomes() {
    std::int64_t number = 0;
    for (const tending::CashLine& line : question_.incomes) {
      incomes_[tending::month_index(line.day)].push_back(build_.leaf(
          "year/income/" + std::to_string(++number), say("year.label.income", {{"day", line.day}}),
          line.amount, "money", Origin::told, "note of " + iso_date(line.day)));
    }
    opening_ = build_.leaf("year/opening", say("year.label.opening", {{"day", question_.start}}),
                           question_.opening.value_or(0), "money",
                           question_.opening ? Origin::told : Origin::chosen, "",
                           question_.opening ? ""
                                             : "nobody has entered it: the need is counted "
                                               "from nothing");
  }

  Message run_label(const char* what, const std::string& run, int month) {
    return say(std::string("year.label.run_") + what,
               {{"run", run}, {"month", tending::month_text(month)}});
  }

  static std::string run_at(const std::string& run, int month) {
    return "year/money/" + run + "/" + tending::month_text(month) + "/";
  }

  void add_plain() {
    const tending::CashTable& table = answer_.runs.front().table;
    for (const tending::CashMonth& month : table.months) {
      Keys out = totals_[month.month];
      out.insert(out.end(), loose_[month.month].begin(), loose_[month.month].end());
      out_[month.month] = build_.computed(run_at("plain", month.month) + "out",
                                          run_label("out", "plain", month.month), month.out,
                                          "money", "plan.sum", out);
      in_[month.month] = build_.computed(run_at("plain", month.month) + "in",
                                         run_label("in", "plain", month.month), month.in, "money",
                                         "plan.sum", incomes_[month.month]);
    }
    add_balances("plain", table, out_);
  }

  void add_balances(const std::string& run, const tending::CashTable& table,
                    std::map<int, std::string>& out) {
    std::string before = opening_;
    Keys balances = {build_.leaf("year/first_month", say("year.label.first_month"),
                                 table.months.front().month, "months", Origin::chosen)};
    Keys outs;
    for (const tending::CashMonth& month : table.months) {
      before = build_.computed(run_at(run, month.month) + "balance",
                               run_label("balance", run, month.month), month.balance, "money",
                               "tending.balance", {before, in_[month.month], out[month.month]});
      balances.push_back(before);
      outs.push_back(out[month.month]);
    }
    const std::string at = "year/money/" + run + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.run_") + what, {{"run", run}, {"month", std::string()}});
    };
    build_.computed(at + "runs_out", label("runs_out"), table.runs_out.value_or(0), "months",
                    "tending.runs_out", balances);
    build_.computed(at + "out", label("out_all"), table.out, "money", "plan.sum", outs);
    build_.computed(at + "missing", label("missing"), table.most_missing, "money",
                    "year.most_missing", Keys(balances.begin() + 1, balances.end()));
  }

  std::string factor(const std::string& parameter, double value) {
    if (value == 1)
      return build_.leaf("year/bad/unchanged", say("year.label.unchanged"), 1, "", Origin::chosen);
    return add_parameter(build_.workings(), year_.rates.at(parameter));
  }

  /// @param hard  of the twelve months of a drought or fire, else of a wage rise or rain days
  Kind& kind_of(bool hard, int month, const std::string& kind) {
    return kinds_[{hard, month, kind}];
  }

  std::string kind_sum(bool hard, int month, const std::string& kind) {
    const Kind& of = kind_of(hard, month, kind);
    return build_.computed(std::string("year/bad/") + (hard ? "hard/" : "dear/") +
                               tending::month_text(month) + "/" + kind,
                           say("year.label.bad_" + kind, {{"month", tending::month_text(month)}}),
                           of.sum, "money", "plan.sum", of.keys);
  }

  std::string watch_key(const tending::BadYear& bad, int month) {
    const bool watched =
        bad.watch_person_days > 0 && month == tending::month_index(watch_day(question_));
    if (watched)
      return add_parameter(build_.workings(),
                           year_.rates.at("tending.bad." + bad.name + "_watch_days"));
    return build_.leaf("year/bad/no_watch", say("year.label.no_watch"), 0, "person-days",
                       Origin::chosen);
  }

  void add_bad(const tending::BadYear& bad, const MoneyRun& run) {
    const bool hard = bad.watch_person_days > 0 || bad.refill_factor != 1;
    const std::string refill =
        bad.name == "drought" ? "tending.bad.drought_refill" : "tending.bad.fire_refill";
    std::map<int, std::string> out;
    for (const tending::CashMonth& month : run.table.months) {
      if (!in_.contains(month.month))  // a watch after the last work of the plain plan
        in_[month.month] = build_.computed(run_at("plain", month.month) + "in",
                                           run_label("in", "plain", month.month), month.in, "money",
                                           "plan.sum", {});
      Keys inputs;
      for (const char* kind : {"wages", "refill_wages", "materials", "refill_materials", "rest"})
        inputs.push_back(kind_sum(hard, month.month, kind));
      inputs.push_back(factor("tending.bad.wage", bad.wage_factor));
      inputs.push_back(factor("tending.bad.rain_days", bad.days_factor));
      inputs.push_back(factor(refill, bad.refill_factor));
      inputs.push_back(watch_key(bad, month.month));
      inputs.push_back(price_key("wage", watch_day(question_), "tending.wage_per_day"));
      out[month.month] = build_.computed(run_at(bad.name, month.month) + "out",
                                         run_label("out", bad.name, month.month), month.out,
                                         "money", "year.bad_month", std::move(inputs));
    }
    add_balances(bad.name, run.table, out);
    const std::string at = "year/money/" + bad.name + "/";
    build_.computed(at + "more", say("year.label.run_more", {{"run", bad.name}}),
                    run.table.out - answer_.runs.front().table.out, "money", "year.difference",
                    {at + "out", "year/money/plain/out"});
  }

  struct BlockKeys {
    Keys days, wages, materials, seedlings;
  };

  WorkingsBuilder build_;
  const Year& year_;
  const MoneyQuestion& question_;
  const MoneyAnswer& answer_;
  std::map<std::tuple<bool, int, std::string>, Kind> kinds_;
  std::map<std::pair<int, std::string>, BlockKeys> blocks_;
  std::map<int, Keys> totals_, loose_, incomes_;
  std::map<int, std::string> out_, in_;
  std::string opening_;
};

}  // namespace

void add_money_nodes(Workings& workings, const Year& year, const MoneyQuestion& question,
                     const MoneyAnswer& answer) {
  MoneyNodes(workings, year, question, answer).write();
}

}  // namespace wildling::plan
