#pragma once
// Plain words for entries: "N3 disk 12.5 ha 4 h", "rain 23 mm", "take back 17" (docs/journal.md).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/farm.hpp"
#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {

/// What the farm calls its things, by id.
struct Names {
  std::vector<std::string> fields, operations, methods, machines, people;
  std::string burning, boards_in, boards_out;  ///< operations; empty: the farm's book has none
};
Names names_of(const farm::Farm& farm);

/// The words, with the machines and people named beside them.
struct Said {
  std::vector<std::string> words;
  std::vector<std::string> with;
};

/// What an entry says, without its day, number and writer.
struct Form {
  std::optional<FieldId> field;
  What what;
  std::string note;
  std::optional<int> corrects;
  friend bool operator==(const Form&, const Form&) = default;
};

/// The words as a form. Names are found whatever their capitals, spaces and hyphens. An issue of the command
/// line: the first word that makes no sense, or every name of `with` that the farm does not have.
Result<Form> read_form(const Said& said, const Names& names);

/// The entry that a form makes, its reason behind the note; day, id and writer are still to be put in.
Entry as_entry(const Form& form, const std::string& note);

/// "a \"b c\" d" as words.
std::vector<std::string> words_of(std::string_view text);

/// An entry in a line, in the farm's units: "field N3: disk 12.5 ha, 4 h, with T2".
std::string said_of(const Entry& entry, farm::UnitSystem units);

/// What the farm has to say against an entry: names it does not have, a day outside its season or after
/// `today`, an area beyond the field's.
Issues faults_on(const farm::Farm& farm, const Entry& entry, Date today);

}  // namespace aftercut::journal
