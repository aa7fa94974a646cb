#pragma once
// Words for faults in what a person wrote.

#include <string>
#include <vector>

namespace aftercut::farm {

/// The nearest of `known` to a mistyped word, or an empty text when none is near.
std::string nearest(const std::string& word, const std::vector<std::string>& known);
/// "did you mean `disk`?" or, when none is near, `otherwise`.
std::string did_you_mean(const std::string& word, const std::vector<std::string>& known,
                         const std::string& otherwise);
/// "a, b, c"
std::string listed(const std::vector<std::string>& words);
/// In quotation marks, cut short after 60 bytes.
std::string in_quotes(const std::string& text);

}  // namespace aftercut::farm
