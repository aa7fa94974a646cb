#pragma once
// The words of a form, taken one after the other. Internal to the room.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/journal/form.hpp"

namespace aftercut::journal {

/// The id that the word means: by itself, else whatever its capitals, spaces, hyphens and underscores, if
/// only one is so; empty: none.
std::string id_meant(const std::string& word, const std::vector<std::string>& ids);

class FormWords {
 public:
  explicit FormWords(const std::vector<std::string>& words) : words_{words} {}

  [[nodiscard]] bool more() const { return !issue_ && at_ < words_.size(); }
  [[nodiscard]] std::string next() const { return more() ? words_[at_] : ""; }
  std::string take() { return more() ? words_[at_++] : ""; }
  /// The words, if they come next, are taken.
  bool take_if(const std::vector<std::string>& words);
  /// An id in the next one or two words, taken; empty: none there.
  std::string take_id(const std::vector<std::string>& ids);
  /// All that follows up to one of the words, joined; the word itself stays.
  std::string take_until(const std::vector<std::string>& ends);

  /// A number with a unit, taken: in the first of `units` that measures the same thing.
  struct Amount {
    std::size_t unit = 0;  ///< place in `units`
    double value = 0.0;
  };
  std::optional<Amount> take_amount(const std::vector<std::string>& units);
  [[nodiscard]] bool number_next() const;

  /// The next word makes no sense; only the first fault counts.
  void fault(const std::string& expected, const std::string& fix);
  [[nodiscard]] const std::optional<Issue>& issue() const { return issue_; }

 private:
  std::vector<std::string> words_;
  std::size_t at_ = 0;
  std::optional<Issue> issue_;
};

bool is_utf8(const std::string& word);
/// Every word that is not UTF-8.
Issues byte_faults(const Said& said);

}  // namespace aftercut::journal
