// What a line says, as the JSON text in which the ledger keeps it. Keys are the members' names; a
// key that is missing takes the member's default, so that a later program can add some.
#pragma once

#include "core/ledger/entry.hpp"

#include <string>
#include <string_view>

namespace soot::ledger {

/// Fails (Kind::use) on a payload that says nothing, names nothing, or could not be read back.
Result<std::string> write_payload(const Payload& payload);

/// Fails (Kind::trouble) on text that write_payload could not have written for this kind. The line
/// that a Struck crosses out is not part of the text.
Result<Payload> read_payload(std::string_view kind, std::string_view text);

bool is_utf8(std::string_view text);

}  // namespace soot::ledger
