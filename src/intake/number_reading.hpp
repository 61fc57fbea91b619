#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace wildling::intake {

/// What a number says about the decimal sign of its file.
enum class DecimalSign { none, dot, comma, unclear };

/// "12,5", "0,125" and "1.234,5" say comma; "12.5" says dot; "12" says nothing; "1.234" and "1,234"
/// are unclear: they may be thousands. Text that is no number says nothing.
DecimalSign decimal_sign(std::string_view text);

/// Number with either decimal sign and groups of three; a unit behind it is dropped ("12,5 mm").
/// @param decimal  settles what is unclear; empty: unclear numbers are refused
/// @return empty when it is no finite number, or unclear
std::optional<double> read_number(std::string_view text, std::optional<char> decimal);

}  // namespace wildling::intake
