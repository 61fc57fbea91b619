#pragma once
/// export: every file that leaves the office, and the only room that decides what is sensitive. In:
/// tables, laid-out blocks, pegs. Out: CSV, JSON, GPX and GeoPackage files, written whole or not at
/// all, each with a note of what it contains. Lists that a crew would act on leave only for blocks
/// whose gates are open. (The namespace is `exports`, as `export` is a word of the language.)
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/words.hpp"
#include "ground/gates.hpp"
#include "ground/shape.hpp"

namespace wildling::exports {

/// Kinds of things that stay in the office unless switched on.
enum class Sensitive { names, rights, mother_trees, nests, incident_places };

std::string_view sensitive_name(
    Sensitive kind);  ///< "names", "mother_trees" ... also the select word of the catalogue

/// What one export may hold. All is off at first; whatever is on needs a reason, which is written
/// into the file's note.
struct ExportRules {
  bool names = false;         ///< people's names
  bool rights = false;        ///< who holds which right or use
  bool mother_trees = false;  ///< of traded species
  bool nests = false;
  bool incident_places = false;  ///< snares, fires set, thefts, conflicts
  std::string reason = {};
  double coarsen_deg =
      0.1;  ///< sensitive positions are moved to the middle of a cell of this size, 0.001 to 1

  [[nodiscard]] bool allows(Sensitive kind) const;
};

/// @throws Error{usage} when something is on without a reason, or the coarsening is out of range
void check_rules(const ExportRules& rules);

/// The middle of the cell of `cell_deg` degrees that holds the position. The same cell gives the
/// same point, so repeated exports tell nothing more. Generalising by a grid of degrees: Chapman
/// (2020), Current best practices for generalizing sensitive species occurrence data, GBIF.
ground::LonLat coarsened(ground::LonLat position, double cell_deg);

/// How far the true position may be from the coarsened one: half the diagonal of a cell at the
/// equator, m.
double coarsening_error_m(double cell_deg);

/// Verdict of each block by code. A block that is not in it counts as closed.
using GateBook = std::map<std::string, ground::GateVerdict, std::less<>>;

bool is_open(const GateBook& gates, std::string_view block);

/// Codes of those whose gates are open, in the given order.
std::vector<std::string> open_blocks(std::span<const std::string> blocks, const GateBook& gates);

/// What a file is for.
enum class Use {
  office,         ///< may show closed blocks, marked "draft, not for crews"
  seed_list,      ///< somebody would collect by it
  planting_list,  ///< somebody would plant by it
  crew_list       ///< somebody would work by it
};

/// @throws Error{infeasible} naming the blocks and the reasons when `use` is a list and one of the
/// blocks is not open;
///         Error{usage} when a list names no block
void require_open(Use use, std::span<const std::string> blocks, const GateBook& gates,
                  const Words& words);

/// The words that every draft carries: "draft, not for crews".
std::string draft_mark(const Words& words);

}  // namespace wildling::exports
