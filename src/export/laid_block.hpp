#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "export/table.hpp"
#include "ground/frame.hpp"
#include "layout/baseline.hpp"
#include "layout/places.hpp"

namespace wildling::exports {

/// A block with its layout, as the writers here want it. Holds no copies of places: what it points
/// to must live until the file is written.
struct LaidBlock {
  std::string code;
  std::string site;
  std::string ground_type;
  ground::Shape shape = {};
  ground::GateVerdict gate = {};
  const ground::Frame* frame = nullptr;        ///< of places and baseline
  const layout::Places* places = nullptr;      ///< null = not laid out
  std::span<const std::uint8_t> species = {};  ///< one byte per place
  const layout::Baseline* baseline = nullptr;  ///< null = none
};

GateBook gates_of(std::span<const LaidBlock> blocks);

/// Seedlings that stand on the block's places.
std::int64_t planted_on(const LaidBlock& block);

/// Office table `blocks`: block, site, ground_type, area_ha, places, planted, empty.
Table blocks_table(std::span<const LaidBlock> blocks);

/// Planting list `planting`: block, row, species, seedlings; one line per row and species that
/// occurs in it.
/// @param species  name per byte value
Table planting_table(std::span<const LaidBlock> blocks, std::span<const std::string> species);

/// Crew list `rows`: block, row, tape_m, first_m, last_m, places, planted; centimetres as a tape
/// shows them.
Table rows_table(std::span<const LaidBlock> blocks);

/// Those whose gates are open.
std::vector<LaidBlock> open_only(std::span<const LaidBlock> blocks);

}  // namespace wildling::exports
