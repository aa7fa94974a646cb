#include "form_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "aftercut/core/json_text.hpp"
#include "aftercut/farm/fault_words.hpp"
#include "aftercut/farm/measure.hpp"
#include "entry_json.hpp"

namespace aftercut::journal {
namespace {

std::string bare(const std::string& id) {
  std::string text;
  for (const char c : id)
    if (c != ' ' && c != '-' && c != '_')
      text += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

}  // namespace

std::string id_meant(const std::string& word, const std::vector<std::string>& ids) {
  if (std::ranges::find(ids, word) != ids.end()) return word;
  std::string meant;
  for (const std::string& id : ids) {
    if (bare(id) != bare(word)) continue;
    if (!meant.empty()) return {};
    meant = id;
  }
  return meant;
}

bool FormWords::take_if(const std::vector<std::string>& words) {
  if (issue_ || words_.size() - at_ < words.size()) return false;
  for (std::size_t k = 0; k < words.size(); ++k)
    if (words_[at_ + k] != words[k]) return false;
  at_ += words.size();
  return true;
}

std::string FormWords::take_id(const std::vector<std::string>& ids) {
  if (!more()) return {};
  const bool two = at_ + 1 < words_.size();
  const std::string both = two ? words_[at_] + " " + words_[at_ + 1] : "";
  // The longer name first where it is written out: "disk 1" is not "disk".
  if (two && std::ranges::find(ids, both) != ids.end()) {
    at_ += 2;
    return both;
  }
  std::string id = id_meant(words_[at_], ids);
  if (!id.empty()) {
    ++at_;
    return id;
  }
  if (two) id = id_meant(both, ids);
  if (!id.empty()) at_ += 2;
  return id;
}

std::string FormWords::take_until(const std::vector<std::string>& ends) {
  std::string text;
  while (more() && std::ranges::find(ends, next()) == ends.end()) text += (text.empty() ? "" : " ") + take();
  return text;
}

bool FormWords::number_next() const {
  const std::string word = next();
  if (word.empty()) return false;
  const char first = word.size() > 1 && (word[0] == '-' || word[0] == '+') ? word[1] : word[0];
  return std::isdigit(static_cast<unsigned char>(first)) != 0 || first == '.';
}

std::optional<FormWords::Amount> FormWords::take_amount(const std::vector<std::string>& units) {
  const std::string expected = fmt::format("an amount in {} or a unit like it", fmt::join(units, ", "));
  if (!number_next()) {
    fault(expected, "write a number and its unit, like 12.5 ha");
    return std::nullopt;
  }
  const bool bare_number = farm::plain_number(words_[at_]).has_value();
  const std::size_t used = bare_number && at_ + 1 < words_.size() ? 2 : 1;
  const std::string text = used == 2 ? words_[at_] + " " + words_[at_ + 1] : words_[at_];
  for (std::size_t k = 0; k < units.size(); ++k)
    if (const auto value = farm::measured(text, units[k])) {
      at_ += used;
      return Amount{k, std::round(*value * 1.0e6) / 1.0e6};  // a converted 25.4 is 25.4
    }
  issue_ =
      Issue{"command line", "words", shortened(text), expected, "write a number and its unit, like 12.5 ha"};
  return std::nullopt;
}

void FormWords::fault(const std::string& expected, const std::string& fix) {
  if (issue_) return;
  const bool there = at_ < words_.size();
  const std::string found = !there ? "nothing more" : next().empty() ? "\"\"" : shortened(next());
  issue_ = Issue{"command line", there ? fmt::format("word {}", at_ + 1) : "words", found, expected, fix};
}

bool is_utf8(const std::string& word) {
  const Json json = word;
  return Json::parse(json.dump(-1, ' ', false, Json::error_handler_t::ignore)) == json;
}

Issues byte_faults(const Said& said) {
  Issues issues;
  const auto look = [&issues](const std::vector<std::string>& words, const std::string& place) {
    for (std::size_t k = 0; k < words.size(); ++k)
      if (!is_utf8(words[k]))
        issues.push_back({"command line", fmt::format("{} {}", place, k + 1),
                          farm::in_quotes(in_ascii(words[k])), "text in UTF-8", "write the word again"});
  };
  look(said.words, "word");
  look(said.with, "--with, name");
  return issues;
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  bool quoted = false, begun = false;
  for (const char c : text) {
    if (c == '"') {
      quoted = !quoted;
      begun = true;
    } else if (!quoted && (c == ' ' || c == '\t')) {
      if (begun) words.push_back(word);
      word.clear();
      begun = false;
    } else {
      word += c;
      begun = true;
    }
  }
  if (begun) words.push_back(word);
  return words;
}

}  // namespace aftercut::journal
