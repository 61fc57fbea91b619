#include <chrono>
#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "cli/version.hpp"
#include "plan/keep.hpp"
#include "plan/letter.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, today;
  std::uint64_t seed = 1;
  bool verbose = false;
};

// Says each step with the seconds the one before took.
Progress talking(const Words& words) {
  using Clock = std::chrono::steady_clock;
  auto last = std::make_shared<Clock::time_point>(Clock::now());
  Progress progress;
  progress.report = [&words, last](double done, const Message& what) {
    const auto now = Clock::now();
    const double seconds = std::chrono::duration<double>(now - *last).count();
    *last = now;
    std::cerr << words.text("cli.plan.step", {{"percent", static_cast<std::int64_t>(100 * done)},
                                              {"what", words.text(what)},
                                              {"seconds", seconds}})
              << '\n';
  };
  return progress;
}

int make(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_write(options.file, context, words);
  plan::PlanOptions wanted;
  wanted.seed = Seed{options.seed};
  wanted.today = today_or(options.today, context);
  wanted.program_version = program_version();
  const plan::Kept kept = plan::keep_plan(*store, wanted, context.actor(),
                                          options.verbose ? talking(words) : Progress{});
  std::cerr << words.text(kept.same_as_before ? "cli.plan.same" : "cli.plan.done",
                          {{"number", std::int64_t{kept.number}},
                           {"seed", std::to_string(options.seed)},
                           {"today", wanted.today}})
            << '\n';
  std::cout << words.text(plan::answer(plan::load_plan(*store))) << '\n';
  return 0;
}

}  // namespace

void add_plan(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("plan", "Runs the whole chain and keeps the plan.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--seed", options->seed, "seed of all random draws; kept with the plan");
  command->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  command->add_flag("-v,--verbose", options->verbose, "say each step and its seconds");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return make(*options, context); };
  });
}

}  // namespace wildling::cli
