#include "plan/sheets.hpp"

#include <string_view>

namespace wildling::plan {

std::vector<std::string> species_codes(std::size_t count) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPRSTUVWXYZ";
  const std::size_t digits = count <= letters.size() ? 0 : (count <= 9 * letters.size() ? 9 : 99);
  std::vector<std::string> codes;
  codes.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    std::string code(1, letters[digits == 0 ? i : (i / digits) % letters.size()]);
    if (digits == 9) code += std::to_string(i % digits + 1);
    if (digits == 99) code += (i % digits < 9 ? "0" : "") + std::to_string(i % digits + 1);
    codes.push_back(code);
  }
  return codes;
}

}  // namespace wildling::plan
