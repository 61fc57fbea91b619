#include "desk/routes.hpp"

namespace wildling::desk {

const Routes& routes() {
  static const Routes all = [] {
    Routes list;
    for (const auto& part :
         {state_routes(), plan_routes(), workings_routes(), parameter_routes(), answer_routes(),
          question_routes(), take_routes(), job_routes(), map_routes()}) {
      list.insert(list.end(), part.begin(), part.end());
    }
    return list;
  }();
  return all;
}

}  // namespace wildling::desk
