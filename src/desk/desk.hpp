#pragma once
/// desk: the page's ground. A server on this machine alone gives the browser the page and answers
/// its questions in JSON. It computes nothing: it asks plan/, keeps what people say in acts of
/// plan/, and hands on files that are inside the program.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/outside.hpp"
#include "base/parameters.hpp"
#include "base/words.hpp"
#include "desk/cache.hpp"
#include "desk/http.hpp"
#include "plan/jobs/access.hpp"
#include "plan/jobs/jobs.hpp"
#include "plan/reply.hpp"
#include "plan/result.hpp"
#include "plan/sheet_kinds.hpp"

namespace wildling::desk {

/// A sheet as bytes.
struct Sheet {
  std::string bytes = {};
  std::string type = {};  ///< "application/pdf"
  std::string name = {};  ///< "summary.pdf"
};

/// What the program's main hands in from the other faces.
struct Faces {
  /// Draws one kind of sheet of a plan. Empty = no such kind.
  std::function<std::optional<Sheet>(const std::string& kind, const plan::PlanResult&,
                                     const Parameters&, const Words&)>
      sheet = {};
  /// Sets a sheet of the field book in type: its files.
  std::function<std::vector<Sheet>(const plan::SheetContent&, const Words&)> book_sheet = {};
};

struct DeskOptions {
  std::string file_name = {};  ///< as people know it, without folder
  std::string program_version = {};
  std::string language = "en";       ///< of the page at first
  std::optional<Date> today = {};    ///< empty = the machine's
  plan::Actor actor = {"", "page"};  ///< who sits at this machine
  std::size_t upload_most_bytes = 0;
  Faces faces = {};
};

/// A reply that was asked for, for its workings.
using KeptReply = std::shared_ptr<const plan::Reply>;

/// Answers requests that may pass. Thread-safe.
class Desk {
 public:
  Desk(plan::Access& access, plan::Jobs& jobs, Outside& outside, DeskOptions options);

  /// Never throws: whatever goes wrong becomes an answer with a sentence.
  Answer answer(const Request& request);

  // What the routes work with.
  /// Memory that a large thing took while it was made goes back to the machine.
  static void give_back_memory();

  [[nodiscard]] plan::Access& access() { return access_; }

  [[nodiscard]] plan::Jobs& jobs() { return jobs_; }

  [[nodiscard]] const DeskOptions& options() const { return options_; }

  [[nodiscard]] Date today();
  [[nodiscard]] std::int64_t data_version();

  /// Something that follows from the programme alone.
  template <typename T>
  std::shared_ptr<const T> cached(const std::string& name,
                                  const std::function<T(const store::Store&)>& make) {
    const std::int64_t version = data_version();
    return cache_.get<T>(name, version, [&] {
      std::shared_ptr<const T> thing;
      access_.read(
          [&](const store::Store& store) { thing = std::make_shared<const T>(make(store)); });
      return thing;
    });
  }

  /// Something that follows from the newest plan alone: plans never change.
  template <typename T>
  std::shared_ptr<const T> of_plan(const std::string& name,
                                   const std::function<T(const store::Store&)>& make) {
    return cache_.get<T>("plan: " + name, plan_number(), [&] {
      std::shared_ptr<const T> thing;
      access_.read(
          [&](const store::Store& store) { thing = std::make_shared<const T>(make(store)); });
      give_back_memory();
      return thing;
    });
  }

  /// The number of the newest plan, or 0.
  int plan_number();
  /// @throws Error{input} when there is none
  std::shared_ptr<const plan::PlanResult> newest_plan();

 private:
  plan::Access& access_;
  plan::Jobs& jobs_;
  Outside& outside_;
  DeskOptions options_;
  Cache cache_;
};

}  // namespace wildling::desk
