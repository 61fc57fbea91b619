#pragma once
/// Pieces that the notes of the field book share.
#include "plan/act.hpp"
#include "plan/ask.hpp"
#include "plan/field/book.hpp"

namespace wildling::plan {

Field note_field(std::string name, FieldKind kind, std::string help, bool required = false);
Field choice_field(std::string name, std::string help, std::vector<std::string> choices,
                   bool required = false);
/// Jobs of tending/norms.hpp by name.
std::vector<std::string> job_choices();

store::Value text_or_null(const std::optional<std::string>& text);

/// @throws Error{input} that lists the blocks
const ground::Block& known_block(const Programme& programme, const std::string& code);
/// The entry "block". @throws as known_block
const ground::Block& known_block(const Programme& programme, const Entries& entries);

/// A finding's sentence, said about the paper it belongs to: "tending.slip.hours" becomes
/// "PREFIXhours" with `more` among its arguments.
Message said_of(const Message& finding, const std::string& prefix,
                const std::map<std::string, Argument>& more);

}  // namespace wildling::plan
