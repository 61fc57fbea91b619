// Any request: first line "METHOD path?name=value&...", lines "header: value", an empty line, the
// body. Whatever comes, an answer comes back, and its body, when it is JSON, is JSON.
#include <cstdlib>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "base/outside.hpp"
#include "desk/desk.hpp"
#include "desk/gatekeeper.hpp"
#include "plan/take.hpp"

namespace {

using namespace wildling;

// No block and no species: a plan that is asked for ends at once.
struct Page {
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = store::in_memory(outside);
  Machine machine;
  plan::StoreAccess access{*store};
  plan::Jobs jobs{access, machine};
  desk::Desk desk;
  desk::Gatekeeper gatekeeper{80, "key", "secret"};

  Page() : desk(access, jobs, machine, options()) {
    plan::start_programme(*store, "Fuzz (invented)", {}, {"fuzz", "test"});
  }

  static desk::DeskOptions options() {
    desk::DeskOptions wanted;
    wanted.actor = {"fuzz", "page"};
    wanted.today = make_date(2026, 1, 1);
    return wanted;
  }
};

std::string_view line_of(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

void put_query(desk::Request& request, std::string_view query) {
  while (!query.empty()) {
    const std::size_t end = std::min(query.find('&'), query.size());
    const std::string_view pair = query.substr(0, end);
    const std::size_t sign = std::min(pair.find('='), pair.size());
    request.query.emplace(std::string(pair.substr(0, sign)),
                          std::string(pair.substr(std::min(sign + 1, pair.size()))));
    query.remove_prefix(std::min(end + 1, query.size()));
  }
}

desk::Request request_from(std::string_view text) {
  desk::Request request;
  std::string_view first = line_of(text);
  const std::size_t space = std::min(first.find(' '), first.size());
  request.method = std::string(first.substr(0, space));
  first.remove_prefix(std::min(space + 1, first.size()));
  const std::size_t mark = std::min(first.find('?'), first.size());
  request.path = std::string(first.substr(0, mark));
  put_query(request, first.substr(std::min(mark + 1, first.size())));
  for (std::string_view line = line_of(text); !line.empty(); line = line_of(text)) {
    const std::size_t colon = std::min(line.find(": "), line.size());
    request.headers.emplace(std::string(line.substr(0, colon)),
                            std::string(line.substr(std::min(colon + 2, line.size()))));
  }
  request.body = text;
  return request;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Page page;
  const desk::Request request = request_from({reinterpret_cast<const char*>(data), size});
  const auto stopped = page.gatekeeper.stop(request);
  if (stopped && stopped->status == 200) std::abort();
  const desk::Answer answer = page.desk.answer(request);
  if (answer.status < 200 || answer.status > 599) std::abort();
  if (answer.body && answer.type == "application/json" && !nlohmann::json::accept(*answer.body))
    std::abort();
  return 0;
}
