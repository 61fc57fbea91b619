#pragma once
#include "paper/page.hpp"

namespace wildling::paper {

/// Small map of one block: edge, water, rows (every n-th when they are too close to be told apart),
/// the baseline with its pegs, north and scale; what the lines mean stands below. @return height
/// used
double draw_sketch(Canvas& canvas, const Talk& talk, const plan::CrewSheet& sheet, const Box& box);

}  // namespace wildling::paper
