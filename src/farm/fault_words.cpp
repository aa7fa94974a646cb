#include "aftercut/farm/fault_words.hpp"

#include "aftercut/core/result.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace aftercut::farm {
namespace {

/// Inserted, deleted, replaced and swapped neighbouring bytes between two words.
std::size_t edit_distance(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        d[i][j] = i + j;
        continue;
      }
      d[i][j] =
          std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.size()][b.size()];
}

}  // namespace

std::string nearest(const std::string& word, const std::vector<std::string>& known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, std::min<std::size_t>(3, word.size() / 3)) + 1;
  if (word.size() > 100) return best;
  for (const std::string& k : known) {
    const std::size_t d = edit_distance(word, k);
    if (d < best_distance) {
      best = k;
      best_distance = d;
    }
  }
  return best;
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known,
                         const std::string& otherwise) {
  const std::string best = nearest(word, known);
  return best.empty() ? otherwise : fmt::format("did you mean `{}`?", best);
}

std::string listed(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string in_quotes(const std::string& text) { return fmt::format("\"{}\"", shortened(text)); }

}  // namespace aftercut::farm
