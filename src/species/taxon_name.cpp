#include "species/taxon_name.hpp"

#include <algorithm>
#include <vector>

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include "base/error.hpp"

namespace wildling::species {
namespace {

constexpr UChar32 kTimes = 0x00D7;
const std::string kTimesText = "\xC3\x97";

icu::UnicodeString unicode(std::string_view text) {
  return icu::UnicodeString::fromUTF8(
      icu::StringPiece(text.data(), static_cast<std::int32_t>(text.size())));
}

bool dropped(UChar32 c) {
  return u_isUWhiteSpace(c) || c == kTimes || c == '-' || c == '_' || c == '\'' || c == '.' ||
         c == 0x2019 || c == 0x2018 || c == 0x2010 || c == 0x2011 || c == '`';
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  const std::string spaced = single_spaced(text);
  std::size_t begin = 0;
  while (begin < spaced.size()) {
    const std::size_t end = std::min(spaced.find(' ', begin), spaced.size());
    words.push_back(spaced.substr(begin, end - begin));
    begin = end + 1;
  }
  return words;
}

bool lower_word(const std::string& word) {
  return !word.empty() && ((word[0] >= 'a' && word[0] <= 'z') || (word[0] & 0x80) != 0) &&
         word.find('.') == std::string::npos && word.find('(') == std::string::npos;
}

bool rank_word(const std::string& word) {
  return word == "var." || word == "subsp." || word == "ssp." || word == "f." || word == "var" ||
         word == "subsp" || word == "ssp";
}

bool open_word(const std::string& word) {
  return word == "sp." || word == "spp." || word == "sp" || word == "spp";
}

// Takes the hybrid sign off the list at `place`, in any of its spellings.
bool take_hybrid_sign(std::vector<std::string>& words, std::size_t place) {
  if (place >= words.size()) return false;
  std::string& word = words[place];
  const bool alone = word == kTimesText || word == "x" || word == "X";
  if (alone && place + 1 < words.size()) {
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(place));
    return true;
  }
  if (word.size() > 2 && word.substr(0, 2) == kTimesText) {
    word.erase(0, 2);
    return true;
  }
  return false;
}

std::string joined(const std::vector<std::string>& words, std::size_t from) {
  std::string text;
  for (std::size_t i = from; i < words.size(); ++i) text += (i > from ? " " : "") + words[i];
  return text;
}

std::string canonical_of(const TaxonName& name, bool hybrid_genus) {
  std::string text = hybrid_genus ? kTimesText + " " + name.genus : name.genus;
  if (name.epithet.empty()) return text;
  text += name.hybrid && !hybrid_genus ? " " + kTimesText + " " : " ";
  text += name.epithet;
  if (!name.infra.empty()) text += " " + name.infra;
  return text;
}

}  // namespace

std::string single_spaced(std::string_view text) {
  const icu::UnicodeString from = unicode(text);
  icu::UnicodeString to;
  bool space = false;
  for (std::int32_t i = 0; i < from.length(); i = from.moveIndex32(i, 1)) {
    const UChar32 c = from.char32At(i);
    if (u_isUWhiteSpace(c)) {
      space = !to.isEmpty();
      continue;
    }
    if (space) to.append(static_cast<UChar32>(' '));
    space = false;
    to.append(c);
  }
  std::string out;
  to.toUTF8String(out);
  return out;
}

std::string name_key(std::string_view text) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* folding = icu::Normalizer2::getNFKCCasefoldInstance(status);
  const icu::UnicodeString folded =
      U_SUCCESS(status) ? folding->normalize(unicode(text), status) : icu::UnicodeString();
  if (U_FAILURE(status)) throw Error(ErrorKind::internal, "", say("species.no_unicode"));
  icu::UnicodeString kept;
  for (std::int32_t i = 0; i < folded.length(); i = folded.moveIndex32(i, 1)) {
    const UChar32 c = folded.char32At(i);
    if (!dropped(c)) kept.append(c);
  }
  std::string out;
  kept.toUTF8String(out);
  return out;
}

TaxonName parse_taxon(std::string_view text) {
  std::vector<std::string> words = words_of(text);
  TaxonName name;
  const bool hybrid_genus = take_hybrid_sign(words, 0);
  name.hybrid = hybrid_genus;
  if (words.empty()) return name;
  name.genus = words[0];
  if (take_hybrid_sign(words, 1)) name.hybrid = true;
  std::size_t next = 1;
  if (next < words.size() && lower_word(words[next]) && !open_word(words[next])) {
    name.epithet = words[next++];
  }
  if (!name.epithet.empty() && next + 1 < words.size() && rank_word(words[next])) {
    name.infra = words[next] + " " + words[next + 1];
    next += 2;
  }
  name.authority = joined(words, next);
  name.canonical = canonical_of(name, hybrid_genus);
  return name;
}

}  // namespace wildling::species
