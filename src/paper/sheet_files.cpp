#include "paper/paper.hpp"

namespace wildling::paper {
namespace {

std::string numbered(const std::string& stem, std::size_t i, std::size_t of,
                     const std::string& end) {
  return stem + (of > 1 ? "_" + std::to_string(i + 1) : std::string()) + end;
}

std::vector<PaperFile> files_of(const std::vector<plan::TomorrowSheet>& sheets,
                                const Words& words) {
  std::vector<PaperFile> files = {{"tomorrow.pdf", write_tomorrow_sheets(sheets, words)}};
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    files.push_back(
        {numbered("tomorrow", i, sheets.size(), ".txt"), tomorrow_text(sheets[i], words) + "\n"});
  }
  return files;
}

std::vector<PaperFile> files_of(const std::vector<plan::PayList>& lists, const Words& words) {
  std::vector<PaperFile> files;
  for (const plan::PayList& list : lists)
    files.push_back({"pay_" + iso_date(list.first) + ".pdf", write_pay_list(list, words)});
  return files;
}

std::vector<PaperFile> files_of(const plan::WalkSheet& sheet, const Words& words) {
  return {{"walk.pdf", write_walk_sheet(sheet, words)}};
}

std::vector<PaperFile> files_of(const plan::FireCalendar& calendar, const Words& words) {
  return {{"fire.pdf", write_fire_calendar(calendar, words)}};
}

std::vector<PaperFile> files_of(const plan::WaitingPage& page, const Words& words) {
  return {{"waiting.pdf", write_waiting_page(page, words)}};
}

}  // namespace

std::vector<PaperFile> write_sheet(const plan::SheetContent& content, const Words& words) {
  return std::visit([&](const auto& sheet) { return files_of(sheet, words); }, content);
}

}  // namespace wildling::paper
