#pragma once
// Every Spanish word of ours: names of methods, operations and machine kinds, cautions, and the texts of the
// sheets. The team's own translation. Internal to the room.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/report/exports.hpp"

namespace aftercut::report::sheets {

std::optional<std::string> spanish_method(const std::string& id);
std::optional<std::string> spanish_operation(const std::string& id);
std::optional<std::string> spanish_machine_kind(const std::string& kind);
/// The `nth` caution (from 0) of its subject as plans list them; nothing where it has no Spanish.
std::optional<std::string> spanish_caution(const std::string& about, std::size_t nth);
/// How many of a subject there are; of all subjects in their order.
std::vector<std::pair<std::string, std::size_t>> spanish_cautions();
/// "common practice" and the like; a key of docs/sources.md stays as it is.
std::string spanish_source(const std::string& source);

/// A text of the sheets in the language asked for. Throws when the English one has no Spanish.
std::string told(const char* english, Language language);

}  // namespace aftercut::report::sheets
