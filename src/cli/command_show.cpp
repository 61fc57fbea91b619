#include <iostream>

#include <CLI/CLI.hpp>

#include "base/csv.hpp"
#include "cli/common.hpp"
#include "plan/keep.hpp"
#include "plan/letter.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, format = "text";
};

// Folds at `width` columns (characters, not bytes) with an indent for what follows.
void print_folded(std::ostream& out, const std::string& text, std::size_t width) {
  std::size_t column = 2;
  out << "  ";
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t space = text.find(' ', begin);
    const std::string word = text.substr(begin, space == std::string::npos ? space : space - begin);
    std::size_t letters = 0;
    for (const char c : word) letters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    if (column > 2 && column + letters > width) {
      out << "\n  ";
      column = 2;
    }
    out << word << ' ';
    column += letters + 1;
    if (space == std::string::npos) break;
    begin = space + 1;
  }
  out << '\n';
}

void print_letter(const plan::PlanResult& result, const Words& words) {
  for (const plan::LetterPart& part : plan::letter(result)) {
    std::cout << words.text(part.heading) << '\n';
    for (const Message& sentence : part.sentences)
      print_folded(std::cout, words.text(sentence), 100);
  }
}

// key, value, unit and origin of every number.
void print_csv(const store::Store& store) {
  std::cout << csv_line({"key", "value", "unit", "origin"});
  const Workings workings = plan::load_workings(store);
  for (const WorkingsNode& node : workings.nodes()) {
    std::cout << csv_line(
        {node.key, number_text(node.value), node.unit, std::string(origin_name(node.origin))});
  }
}

int show(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_read(options.file, context, words);
  if (options.format == "json") {
    std::cout << plan::plan_text(*store) << '\n';
  } else if (options.format == "csv") {
    print_csv(*store);
  } else {
    const plan::PlanResult result = plan::load_plan(*store);
    if (plan::is_stale(*store, result)) std::cerr << words.text("cli.show.stale") << '\n';
    print_letter(result, words);
  }
  std::cout.flush();
  if (!std::cout) throw Error(ErrorKind::io, "", say("cli.output_failed"));
  return 0;
}

}  // namespace

void add_show(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("show", "Prints the newest plan.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--format", options->format, "text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}));
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return show(*options, context); };
  });
}

}  // namespace wildling::cli
