#pragma once
#include <vector>

#include "store/table.hpp"

/// The tables of version 1, one file per room that owns them. A later change is a migration of its
/// own in table.cpp, never an edit here.
namespace wildling::store::schema {

std::vector<TableDef> log_tables();
std::vector<TableDef> programme_tables();
std::vector<TableDef> import_tables();
std::vector<TableDef> ground_tables();
std::vector<TableDef> climate_tables();
std::vector<TableDef> species_tables();
std::vector<TableDef> plan_tables();

/// Version 2: the daily weather book, the field book, and what the page keeps.
std::vector<TableDef> weather_book_tables();
std::vector<TableDef> field_book_tables();
std::vector<TableDef> year_book_tables();
std::vector<TableDef> page_tables();

}  // namespace wildling::store::schema
