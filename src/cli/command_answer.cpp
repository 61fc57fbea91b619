#include <iostream>

#include <CLI/CLI.hpp>

#include "base/csv.hpp"
#include "cli/common.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, block, consent, fire, trees, peat, who, on, note;
  bool all = false;
};

std::optional<ground::Answer> yes_or_no(const std::string& text, const std::string& option) {
  if (text.empty()) return {};
  if (text == "yes" || text == "ya") return ground::Answer::yes;
  if (text == "no" || text == "tidak") return ground::Answer::no;
  throw Error(ErrorKind::usage, option, say("cli.answer.yes_or_no", {{"value", text}}));
}

plan::GateUpdate update_from(const Options& options, Context& context) {
  plan::GateUpdate update;
  update.consent = yes_or_no(options.consent, "--consent");
  update.fire_and_cattle = yes_or_no(options.fire, "--fire-and-cattle");
  update.drained_peat = yes_or_no(options.peat, "--drained-peat");
  update.who = options.who;
  update.day = options.on.empty() ? today_or("", context) : day_option(options.on, "--on");
  update.note = options.note;
  if (options.trees.empty()) return update;
  update.natural_trees_said = true;
  if (options.trees == "not-counted") return update;
  update.natural_trees_per_ha = parse_number(options.trees);
  if (!update.natural_trees_per_ha) {
    throw Error(ErrorKind::usage, "--natural-trees",
                say("cli.answer.trees", {{"value", options.trees}}));
  }
  return update;
}

int answer(const Options& options, Context& context) {
  const Words words = context.words();
  if (options.block.empty() != options.all)
    throw Error(ErrorKind::usage, "", say("cli.answer.which"));
  const plan::GateUpdate update = update_from(options, context);
  if (!update.consent && !update.fire_and_cattle && !update.drained_peat &&
      !update.natural_trees_said) {
    throw Error(ErrorKind::usage, "", say("cli.answer.nothing"));
  }
  const auto store = open_to_write(options.file, context, words);
  const int blocks = plan::take_answers(*store, options.block, update, context.actor());
  std::cerr << words.text("cli.answer.done",
                          {{"blocks", std::int64_t{blocks}}, {"who", options.who}})
            << '\n';
  return 0;
}

}  // namespace

void add_answer(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "answer", "Keeps the answers to the four questions that come before any plan.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("BLOCK", options->block, "code of a block or name of a site");
  command->add_option("--consent", options->consent, "yes or no: may we plant and protect here");
  command->add_option("--fire-and-cattle", options->fire,
                      "yes or no: can fire and cattle be kept out");
  command->add_option("--natural-trees", options->trees,
                      "natural trees per hectare, or not-counted");
  command->add_option("--drained-peat", options->peat, "yes or no: is it drained peat");
  command->add_option("--who", options->who, "who answered")->required();
  command->add_option("--on", options->on, "the day of the answer; without it today");
  command->add_option("--note", options->note, "agreement, witness, place of the paper");
  command->add_flag("--all", options->all, "every block of the programme");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return answer(*options, context); };
  });
}

}  // namespace wildling::cli
