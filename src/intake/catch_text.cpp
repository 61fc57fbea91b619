#include "intake/catch_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

#include "base/csv.hpp"

namespace wildling::intake {
namespace {

constexpr std::string_view kDayWords = "|day|days|hari|hr|dia|dias|";
constexpr std::string_view kMissingWords =
    "|na|n/a|nan|null|none|x|xx|?|/|//|///|missing|kosong|tidak ada|hilang|rusak|broken|dna|tad|"
    "m|tidak ada data|no data|";
constexpr std::string_view kDashes = "|-|--|\xE2\x80\x93|\xE2\x80\x94|";
constexpr std::string_view kSmallWords =
    "|mm|for|in|over|of|total|sum|jumlah|jml|untuk|selama|dalam|dlm|rain|hujan|";
constexpr std::array<std::string_view, 14> kBrackets = {
    "{",
    "}",
    "[",
    "]",
    "(",
    ")",
    "|",
    "\xE2\x8E\xA7",
    "\xE2\x8E\xA8",
    "\xE2\x8E\xA9",
    "\xE2\x8E\xAB",
    "\xE2\x8E\xAC",
    "\xE2\x8E\xAD",
    "\xE2\x86\x93"};  // parts of a tall brace, arrow

bool digit(char c) {
  return c >= '0' && c <= '9';
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

bool among(const std::string& word, std::string_view words) {
  return words.find("|" + word + "|") != std::string_view::npos;
}

bool accumulation_word(std::string_view word) {
  return word == "acc" || word == "akm" || word == "ak" || word == "akum" ||
         word.substr(0, 5) == "accum" || word.substr(0, 5) == "acumu" ||
         word.substr(0, 5) == "akumu" || word.substr(0, 5) == "kumul" ||
         word.substr(0, 8) == "terkumpul";
}

struct Words {
  std::vector<std::string> numbers = {};
  int days = 0;
  bool accumulated = false;
  bool strange = false;
};

// "41,5" and "3" are numbers, "hari" a word, signs between them say nothing.
Words words_of(const std::string& text) {
  Words result;
  bool number_before = false;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    if (digit(text[i])) {
      while (end < text.size() && (digit(text[end]) || text[end] == '.' || text[end] == ',')) ++end;
      std::string number = text.substr(i, end - i);
      while (!digit(number.back())) number.pop_back();
      result.numbers.push_back(std::move(number));
      number_before = true;
    } else if (std::isalpha(static_cast<unsigned char>(text[i])) != 0) {
      while (end < text.size() && std::isalpha(static_cast<unsigned char>(text[end])) != 0) ++end;
      const std::string word = text.substr(i, end - i);
      if (among(word, kDayWords) && number_before && result.days == 0 &&
          result.numbers.back().size() <= 2) {
        result.days = std::stoi(result.numbers.back());
        result.numbers.pop_back();
      } else if (accumulation_word(word)) {
        result.accumulated = true;
      } else if (!among(word, kSmallWords)) {
        result.strange = true;
      }
      number_before = false;
    } else {
      end = i + 1;
      if (text[i] == '-' || text[i] == '+' || static_cast<unsigned char>(text[i]) > 127)
        result.strange = true;
    }
    i = end;
  }
  return result;
}

// Takes brackets off both ends; true when one stands alone.
bool lone_bracket(std::string& text) {
  bool opens = false, closes = false;
  for (bool again = true; again && !text.empty();) {
    again = false;
    for (const std::string_view sign : kBrackets) {
      if (text.size() >= sign.size() && text.compare(0, sign.size(), sign) == 0) {
        text = std::string(trimmed(text.substr(sign.size())));
        opens = again = true;
      } else if (text.size() >= sign.size() &&
                 text.compare(text.size() - sign.size(), sign.size(), sign) == 0) {
        text = std::string(trimmed(text.substr(0, text.size() - sign.size())));
        closes = again = true;
      }
    }
  }
  return opens != closes;
}

}  // namespace

CatchText catch_text(std::string_view cell) {
  CatchText result;
  const std::string text = lower(trimmed(cell));
  std::string inner = text;
  if (lone_bracket(inner) && std::all_of(inner.begin(), inner.end(),
                                         [](char c) { return digit(c) || c == '.' || c == ','; })) {
    result.number = inner;
    result.bracket = true;
    return result;
  }
  result.number = std::string(trimmed(cell));
  if (std::none_of(text.begin(), text.end(), [](char c) { return digit(c); })) return result;
  const Words words = words_of(text);
  if (words.strange || words.numbers.size() != 1) return result;
  if (words.days == 0 && !words.accumulated) return result;
  result.number = words.numbers.front();
  result.days = std::max(words.days, 1);
  result.accumulated = words.accumulated && words.days == 0;
  return result;
}

bool says_missing(std::string_view cell) {
  return among(lower(trimmed(cell)), kMissingWords);
}

bool is_dash(std::string_view cell) {
  return among(std::string(trimmed(cell)), kDashes);
}

bool says_accumulated(std::string_view remark) {
  const std::string text = lower(remark);
  for (const std::string_view word :
       {"acumulad", "accumulad", "accumulat", "akumulasi", "terkumpul", "kumulatif", "cumulad"}) {
    if (text.find(word) != std::string::npos) return true;
  }
  return false;
}

bool says_not_observed(std::string_view remark) {
  const std::string text = lower(remark);
  for (const std::string_view word :
       {"not observed", "no observation", "not read", "tidak diamati", "tidak dibaca",
        "tidak diukur", "tak dibaca", "foi feita observ"}) {
    if (text.find(word) != std::string::npos) return true;
  }
  return false;
}

}  // namespace wildling::intake
