#pragma once
#include "nursery/collection.hpp"

namespace wildling::nursery {

/// Why seed cannot be had or does not come in time; empty when it can.
std::vector<Message> why_no_seed(const Order& order, const Dates& seed);

/// Sets first_line and notes of a collection whose numbers and dates stand.
void put_words(Collection& collection, const Order& order, const Parameters& parameters);

/// Sets first_line and notes of the whole plan.
void put_words(CollectionPlan& plan);

}  // namespace wildling::nursery
