#include "aftercut/core/ids.hpp"

#include <cctype>

namespace aftercut {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct Run {
  std::size_t begin, end;  // without leading zeros
  std::size_t next;
};

Run digit_run(const std::string& s, std::size_t at) {
  std::size_t begin = at;
  while (begin + 1 < s.size() && s[begin] == '0' && is_digit(s[begin + 1])) ++begin;
  std::size_t end = begin;
  while (end < s.size() && is_digit(s[end])) ++end;
  return {begin, end, end};
}

}  // namespace

bool natural_less(const std::string& a, const std::string& b) {
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (is_digit(a[i]) && is_digit(b[j])) {
      const Run x = digit_run(a, i), y = digit_run(b, j);
      if (x.end - x.begin != y.end - y.begin) return x.end - x.begin < y.end - y.begin;
      const int order = a.compare(x.begin, x.end - x.begin, b, y.begin, y.end - y.begin);
      if (order != 0) return order < 0;
      i = x.next;
      j = y.next;
    } else {
      if (a[i] != b[j]) return static_cast<unsigned char>(a[i]) < static_cast<unsigned char>(b[j]);
      ++i;
      ++j;
    }
  }
  if ((i < a.size()) != (j < b.size())) return j < b.size();
  return a < b;
}

}  // namespace aftercut
