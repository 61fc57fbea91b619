#pragma once
#include "paper/page.hpp"

namespace wildling::paper {

void write_crew_head(Page& page, const plan::CrewSheet& sheet);
void write_gates(Page& page, const plan::GateTicks& gates);
/// @param run_in  all in one paragraph instead of one line each
void write_cautions(Page& page, const plan::CrewSheet& sheet, bool run_in = false);
void write_steps(Page& page, const plan::CrewSheet& sheet);
void write_baseline(Page& page, const plan::CrewSheet& sheet);
void write_species_key(Page& page, const plan::CrewSheet& sheet);
void write_rows(Page& page, const plan::CrewSheet& sheet);
/// At the foot of the last page; turns the page when there is no room.
void write_return_slip(Page& page, const plan::CrewSheet& sheet, const plan::SheetStamp& stamp);

/// "pioneer", "plant" ...: the ends of catalogue keys.
std::string group_key(plan::SheetGroup group);
std::string job_key(plan::SheetJob job);
std::string hazard_key(plan::Hazard hazard);
bool job_brings_seedlings(plan::SheetJob job);
int seedlings_of(const plan::CrewSheet& sheet);

}  // namespace wildling::paper
