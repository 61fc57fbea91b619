#pragma once
/// What the weather room writes down: a day's readings, a look at a block, the manager's word on
/// fire, wet months as told.
#include "plan/ask.hpp"

namespace wildling::plan::weather {

/// A day's readings at a station; written again it corrects them, and the old values stay in the
/// log of changes. Rain of several days is kept as one total. Where the gauge is read next morning,
/// rain goes to the day before.
/// @throws Error{usage}, Error{input}: nothing is kept
Message keep_day(store::Store& store, const Entries& entries, Date today, const Actor& actor);

Message keep_look(store::Store& store, const Entries& entries, Date today, const Actor& actor);

/// Raises the fire class of a day; a rule that says more stands.
Message keep_fire_word(store::Store& store, const Entries& entries, Date today, const Actor& actor);

Message keep_wet_months(store::Store& store, const Entries& entries, Date today,
                        const Actor& actor);

}  // namespace wildling::plan::weather
