#pragma once
// A small invented programme with its page open, in memory or in a file.
#include <filesystem>
#include <memory>
#include <string>

#include <nlohmann/json.hpp>
#include <unistd.h>

#include "../plan/invented_programme.hpp"
#include "desk/desk.hpp"
#include "plan/jobs/access.hpp"
#include "plan/jobs/jobs.hpp"
#include "plan/keep.hpp"

namespace wildling::desk {

using nlohmann::json;

/// A folder that goes with the test.
class TempFolder {
 public:
  TempFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "wildling-desk-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }

  ~TempFolder() { std::filesystem::remove_all(path_); }

  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

inline DeskOptions test_options() {
  DeskOptions options;
  options.file_name = "test.gpkg";
  options.program_version = "0.0.test";
  options.today = make_date(2025, 2, 1);
  options.actor = {"tester", "page"};
  options.upload_most_bytes = 1U << 20U;
  return options;
}

/// Everything but the server, over one store in memory.
struct MemoryDesk {
  explicit MemoryDesk(bool with_plan = false) {
    plan::take_answers(*store, "", plan::all_open(), plan::kTester);
    if (with_plan) make_plan();
  }

  void make_plan() {
    plan::PlanOptions options;
    options.seed = Seed{7};
    options.today = make_date(2025, 2, 1);
    options.program_version = "0.0.test";
    plan::keep_plan(*store, options, plan::kTester);
  }

  Answer ask(const std::string& method, const std::string& path, const std::string& body = "",
             std::multimap<std::string, std::string> query = {},
             std::map<std::string, std::string> headers = {}) {
    Request request;
    request.method = method;
    request.path = path;
    request.body = body;
    request.query = std::move(query);
    request.headers = std::move(headers);
    return desk.answer(request);
  }

  json get(const std::string& path, std::multimap<std::string, std::string> query = {}) {
    return json::parse(*ask("GET", path, "", std::move(query)).body);
  }

  Rehearsal outside{Seed{3}};
  std::unique_ptr<store::Store> store = plan::invented_programme(outside);
  Machine machine;
  plan::StoreAccess access{*store};
  plan::Jobs jobs{access, machine};
  Desk desk{access, jobs, machine, test_options()};
};

inline std::string key_of(const Answer& answer) {
  return json::parse(*answer.body).at("message").at("key").get<std::string>();
}

}  // namespace wildling::desk
