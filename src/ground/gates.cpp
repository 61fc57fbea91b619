#include "ground/gates.hpp"

namespace wildling::ground {
namespace {

void ask(GateVerdict& verdict, const GateAnswer& gate, Answer good, const std::string& name) {
  if (gate.answer == good) return;
  const bool asked = gate.answer != Answer::not_asked;
  verdict.reasons.push_back(say("ground.gate." + name + (asked ? "_adverse" : "_not_asked")));
}

}  // namespace

GateVerdict judge(const Gates& gates) {
  GateVerdict verdict;
  ask(verdict, gates.consent, Answer::yes, "consent");
  ask(verdict, gates.fire_and_cattle, Answer::yes, "fire_and_cattle");
  const bool number = gates.natural_trees_per_ha && *gates.natural_trees_per_ha >= 0;
  if (gates.natural_trees_counted.answer == Answer::yes && !number) {
    verdict.reasons.push_back(say("ground.gate.natural_trees_no_number"));
  } else {
    ask(verdict, gates.natural_trees_counted, Answer::yes, "natural_trees");
  }
  ask(verdict, gates.drained_peat, Answer::no, "drained_peat");
  verdict.open = verdict.reasons.empty();
  return verdict;
}

}  // namespace wildling::ground
