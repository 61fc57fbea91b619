#pragma once
/// One function per address. A star in a pattern stands for one part of the path.
#include <string>
#include <vector>

#include "desk/desk.hpp"
#include "desk/http.hpp"
#include "plan/parameter_list.hpp"

namespace wildling::desk {

struct Route {
  std::string method = {};   ///< "GET", also asked by HEAD; "POST", "PUT"
  std::string pattern = {};  ///< "/api/jobs/*/cancel"
  Answer (*handler)(Desk&, const Request&, const std::vector<std::string>& stars) = nullptr;
};

using Routes = std::vector<Route>;

Routes state_routes();      ///< state, words
Routes plan_routes();       ///< plan, findings, sheet
Routes workings_routes();   ///< one number and where it comes from
Routes parameter_routes();  ///< parameters
Routes answer_routes();     ///< the four questions before any plan
Routes question_routes();   ///< questions and notes of plan/ask.hpp
Routes take_routes();       ///< files that people bring
Routes job_routes();        ///< long work
Routes map_routes();        ///< land and what is drawn on it

/// All of them.
const Routes& routes();

/// A parameter as the page gets it.
nlohmann::json parameter_json(const plan::ParameterEntry& entry);

/// The page's own files, from inside the program.
Answer static_file(const Request& request);

}  // namespace wildling::desk
