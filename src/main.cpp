// Brings the faces together: the command line runs, paper writes what it is asked to.
#include <filesystem>
#include <iostream>

#include "base/files.hpp"
#include "cli/cli.hpp"
#include "desk/open.hpp"
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

using Drawing = std::string (*)(const wildling::plan::PlanResult&, const Parameters&, const Words&);

struct SheetKind {
  const char* kind;
  const char* type;
  const char* name;
  Drawing draw;
};

namespace plan = wildling::plan;
namespace paper = wildling::paper;

const SheetKind kSheets[] = {
    {"summary", "application/pdf", "summary.pdf",
     [](const plan::PlanResult& result, const Parameters&, const Words& words) {
       return paper::write_summary(plan::summary_page(result), words);
     }},
    {"crew", "application/pdf", "crew_sheets.pdf",
     [](const plan::PlanResult& result, const Parameters& parameters, const Words& words) {
       return paper::write_crew_sheets(plan::crew_sheets(result, parameters), words);
     }},
    {"rain", "application/pdf", "rain_sheet.pdf",
     [](const plan::PlanResult& result, const Parameters&, const Words& words) {
       return paper::write_rain_sheet(plan::rain_sheet(result), words);
     }},
    {"map", "image/png", "map.png",
     [](const plan::PlanResult& result, const Parameters&, const Words& words) {
       return paper::map_picture_png(plan::map_picture(result), words);
     }},
    {"map-svg", "image/svg+xml", "map.svg",
     [](const plan::PlanResult& result, const Parameters&, const Words& words) {
       return paper::map_picture_svg(plan::map_picture(result), words);
     }},
};

std::optional<wildling::desk::Sheet> draw_sheet(const std::string& kind,
                                                const plan::PlanResult& result,
                                                const Parameters& parameters, const Words& words) {
  for (const SheetKind& sheet : kSheets) {
    if (kind == sheet.kind)
      return wildling::desk::Sheet{sheet.draw(result, parameters, words), sheet.type, sheet.name};
  }
  return {};
}

std::vector<wildling::desk::Sheet> set_book_sheet(const plan::SheetContent& content,
                                                  const Words& words) {
  std::vector<wildling::desk::Sheet> sheets;
  for (auto& file : paper::write_sheet(content, words))
    sheets.push_back({std::move(file.bytes), "application/pdf", std::move(file.name)});
  return sheets;
}

int open_page(const wildling::cli::OpenRequest& request) {
  wildling::desk::OpenOptions options;
  options.path = request.file;
  options.port = request.port;
  options.today = request.today;
  options.language = request.language;
  options.who = request.who;
  options.program_version = request.program_version;
  options.browser = request.browser;
  return wildling::desk::open_programme(options, {draw_sheet, set_book_sheet}, std::cout,
                                        std::cerr);
}

}  // namespace

int main(int argc, char** argv) {
  wildling::cli::Faces faces;
  faces.write_paper = write_paper;
  faces.write_sheet = write_sheet;
  faces.open = open_page;
  return wildling::cli::run(argc, argv, faces);
}
