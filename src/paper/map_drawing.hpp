#pragma once
#include "paper/fit.hpp"

namespace wildling::paper {

enum class MapDetail { seedlings, rows, fills };

/// What can be told apart: single seedlings, rows, or only blocks.
MapDetail map_detail(const plan::MapPicture& map);

struct MapDrawing {
  double pt_per_m = 1;
  MapDetail detail = MapDetail::fills;
  bool codes_left_out = false;  ///< some blocks are too small on paper for their code
};

/// Blocks, seedlings, water, firebreaks, pegs and marks within the box, with a frame.
MapDrawing draw_map(Canvas& canvas, const Talk& talk, const plan::MapPicture& map, const Box& box);

/// What the signs on this map mean, in words: only those that occur. Draws downward in columns.
/// @return height
double draw_legend(Canvas& canvas, const Talk& talk, const plan::MapPicture& map,
                   const MapDrawing& drawn, const Box& box, int columns);

/// "WGS 84; metres from ..." as a sentence.
std::string coordinate_system(const Talk& talk, const plan::MapPicture& map);

bool map_is_empty(const plan::MapPicture& map);

}  // namespace wildling::paper
