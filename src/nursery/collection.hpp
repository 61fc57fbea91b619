#pragma once
/// nursery: how much seed (or how many wildling seedlings) to collect for an order, when, and what
/// the nursery needs for it, so that with the confidence asked for the whole order arrives alive at
/// the planting pits. Inputs: per species the number needed, what is ready, what is known about the
/// species (species/), stage yields of data/parameters/nursery.csv or the programme's own record,
/// the first planting day and today. Sources: loss chain by stage, Siyag (2014) Table 2.3; luck
/// shared within a batch as beta-binomial; collecting rules of FORRU (Chiang Mai) and CIFOR (1998).
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "nursery/calendar.hpp"
#include "nursery/order.hpp"
#include "nursery/stages.hpp"

namespace wildling::nursery {

enum class Way {
  none,  ///< what is ready suffices
  seed,
  wildlings,   ///< wildling seedlings lifted from under mother trees
  cannot_tell  ///< neither can be had for this season as far as known; the notes name the safe act
};

std::string_view way_word(Way way);  ///< "none", "seed", "wildlings", "cannot_tell"

/// What to collect of one species.
struct Collection {
  std::string species;
  Way way = Way::none;
  long long to_field = 0;
  long long ready = 0;
  double ready_arriving_mean = 0;  ///< of the ready seedlings, alive at the pit on average
  double confidence = 0;           ///< this species' share of the order's confidence
  long long count = 0;  ///< seeds or wildling seedlings, smallest number with chance >= confidence
  long long by_means =
      0;              ///< what the mean losses alone would say (enough about every second time)
  double chance = 0;  ///< that to_field arrive with `count`
  double chance_of_one_less = 0;  ///< below confidence (0 when count is 0)
  double chance_with_ready_only = 0;
  double mean_yield = 1;                 ///< product of the stage means
  double yield_low = 1, yield_high = 1;  ///< 5 % and 95 % of batches pass less than this share
  int lots = 1;
  long long per_lot = 0;
  std::vector<StageUsed> stages;        ///< of the seed or wildling seedlings; empty for none
  std::vector<StageUsed> ready_stages;  ///< empty when nothing is ready
  std::optional<double> seed_kg;        ///< where seeds per kg are known
  std::optional<double> seeds_per_kg;
  std::optional<double>
      fruit_kg;  ///< where seeds per kg of fruit are told, or the fruit is a one-seeded nut
  int trees_to_visit = 0;         ///< mother trees to collect from; 0 for none
  long long carpet_at_least = 0;  ///< wildling seedlings that must stand there, so that enough stay
  std::optional<Dates> dates;     ///< empty for none
  bool short_likely = false;      ///< the count may well not be had this season
  std::string stand_in;           ///< species to plant more of instead; empty: none in stock
  Message first_line;
  std::vector<Message> notes;
};

/// What the seedlings raised need in the nursery.
struct Space {
  long long pots = 0;  ///< germinated seedlings and wildling seedlings to be potted, on average
  double bed_m2 = 0;   ///< with paths and room for spacing out
  double water_low_l_day = 0,
         water_high_l_day = 0;  ///< published norms disagree twentyfold: both are shown
};

struct CollectionPlan {
  double order_confidence = 0;
  int species_counted = 0;              ///< species with to_field > 0
  double species_confidence = 0;        ///< order_confidence^(1/species_counted)
  std::vector<Collection> collections;  ///< order of the input, to_field > 0 only
  Space space;
  Message first_line;
  std::vector<Message> notes;
};

/// @param confidence  that all species arrive in full, in [0.5, 0.999]
/// @throws Error{input} for a negative number, lots outside 1 to 12, an impossible confidence or
/// share
///
/// The confidence is split evenly: each of k species gets confidence^(1/k). With species whose luck
/// is independent the product is the confidence; when they share good and bad weeks the whole
/// order's chance is higher, never lower (positive dependence; Esary, Proschan & Walkup 1967, Ann.
/// Math. Stat. 38:1466).
/// Species are computed on all cores; the result does not depend on how many there are.
CollectionPlan collections(std::span<const Order> orders, const Season& season, double confidence,
                           const Parameters& parameters);

}  // namespace wildling::nursery
