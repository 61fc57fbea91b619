#pragma once
#include <string>
#include <string_view>

namespace wildling::intake {

/// What a keeper wrote into a rain cell beside the number.
struct CatchText {
  std::string number = {};   ///< the number as written; empty: none, or the cell is not understood
  int days = 1;              ///< the days its words say: "3 days: 41 mm", "41 (3 hari)"
  bool bracket = false;      ///< a bracket that opens or closes joins the day to its neighbours
  bool accumulated = false;  ///< "41 acc", "41 akumulasi": from the last reading to this day
};

/// A plain number and anything that is not understood come back as they are, in `number`.
/// Legal: "3 days: 41", "41 (3 hari)", "41 mm / 3 hr", "3 hari 41,5", "41 acc.", "}", "41 }".
/// "(41)" is not taken for a bracket, since both of its ends are there.
CatchText catch_text(std::string_view cell);

/// Does a cell say in a word that nothing was measured? ("NA", "x", "kosong", "rusak", "?")
bool says_missing(std::string_view cell);

/// A dash of any kind.
bool is_dash(std::string_view cell);

/// Does a remark say that the reading covers several days? ("Acumulado", "akumulasi 3 hari")
bool says_accumulated(std::string_view remark);

/// Does a remark say that nobody looked? ("not observed", "tidak diamati", "nao foi feita observ")
bool says_not_observed(std::string_view remark);

}  // namespace wildling::intake
