#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "cli/print_reply.hpp"
#include "cli/print_workings.hpp"
#include "plan/ask.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, today, format = "text", table, open;
  plan::Entries entries;
};

int ask(const plan::Question& question, const Options& options, Context& context) {
  const Words words = context.words();
  plan::check_entries(question.fields, options.entries);
  const auto store = open_to_read(options.file, context, words);
  const plan::Reply reply =
      question.reply(*store, options.entries, today_or(options.today, context), Progress{});
  if (!options.open.empty()) {
    check_key(reply.workings, options.open);
    print_workings(std::cout, reply.workings, options.open, words);
  } else if (options.format == "json") {
    std::cout << plan::reply_text(reply) << '\n';
  } else if (options.format == "csv") {
    print_table_csv(std::cout, reply, options.table, words);
  } else {
    print_reply(std::cout, reply, words);
  }
  std::cout.flush();
  if (!std::cout) throw Error(ErrorKind::io, "", say("cli.output_failed"));
  return 0;
}

void add_question(CLI::App& app, const plan::Question& question, Context& context,
                  Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(question.name, question.help);
  command->add_option("FILE", options->file, "the programme")->required();
  add_fields(*command, question.fields, options->entries);
  command->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  command->add_option("--format", options->format, "text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}));
  command->add_option("--table", options->table,
                      "with --format csv: which table; without it the first");
  command->add_option("--open", options->open,
                      "key of a number (json names them): print its workings instead");
  command->callback([options, &question, &context, &chosen] {
    chosen = [options, &question, &context] { return ask(question, *options, context); };
  });
}

}  // namespace

void add_fields(CLI::App& command, const std::vector<plan::Field>& fields, plan::Entries& entries) {
  for (const plan::Field& field : fields) {
    std::string help = field.help;
    if (field.kind == plan::FieldKind::yes_no) help += " (yes or no)";
    command
        .add_option_function<std::vector<std::string>>(
            "--" + field.name,
            [&entries, name = field.name](const std::vector<std::string>& texts) {
              entries[name] = texts;
            },
            help)
        ->expected(1, field.repeats ? 10'000 : 1)
        ->allow_extra_args(false)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  }
}

void add_questions(CLI::App& app, Context& context, Command& chosen) {
  for (const plan::Question& question : plan::questions())
    add_question(app, question, context, chosen);
}

}  // namespace wildling::cli
