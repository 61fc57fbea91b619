// Brings the faces together: the command line runs, paper writes what it is asked to.
#include <filesystem>

#include "base/files.hpp"
#include "cli/cli.hpp"
#include "paper/paper.hpp"
#include "plan/fill_sheets.hpp"

namespace {

using wildling::Parameters;
using wildling::Words;

std::vector<std::string> write_paper(const wildling::plan::PlanResult& plan,
                                     const Parameters& parameters, const std::string& folder,
                                     const Words& words, bool overwrite) {
  namespace paper = wildling::paper;
  std::vector<std::string> names;
  const auto put = [&](const std::string& name, const std::string& bytes) {
    wildling::write_file((std::filesystem::path(folder) / name).string(), bytes, overwrite);
    names.push_back(name);
  };
  put("summary.pdf", paper::write_summary(wildling::plan::summary_page(plan), words));
  put("crew_sheets.pdf",
      paper::write_crew_sheets(wildling::plan::crew_sheets(plan, parameters), words));
  put("rain_sheet.pdf", paper::write_rain_sheet(wildling::plan::rain_sheet(plan), words));
  const wildling::plan::MapPicture map = wildling::plan::map_picture(plan);
  put("map.png", paper::map_picture_png(map, words));
  put("map.svg", paper::map_picture_svg(map, words));
  return names;
}

std::vector<wildling::cli::NamedBytes> write_sheet(const wildling::plan::SheetContent& content,
                                                   const Words& words) {
  std::vector<wildling::cli::NamedBytes> files;
  for (auto& file : wildling::paper::write_sheet(content, words))
    files.push_back({std::move(file.name), std::move(file.bytes)});
  return files;
}

}  // namespace

int main(int argc, char** argv) {
  return wildling::cli::run(argc, argv, {write_paper, write_sheet});
}
