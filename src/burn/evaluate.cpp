#include "aftercut/burn/rules.hpp"
#include "aftercut/core/require.hpp"

namespace aftercut::burn {
namespace {

std::vector<RowWords> rows_of(const std::vector<Verdict>& verdicts, Verdict::Kind kind) {
  std::vector<RowWords> rows;
  for (const Verdict& verdict : verdicts)
    if (verdict.kind == kind) rows.push_back(verdict.words);
  return rows;
}

}  // namespace

std::string to_text(Standing s, const Jurisdiction& j) {
  switch (s) {
    case Standing::blocked:
      return "blocked";
    case Standing::ask_authority:
      return "ask " + j.authority;
    case Standing::unknown:
      return "unknown";
    case Standing::answered:
      return "answered";
  }
  fail("every standing has its text");
}

Finding evaluate(const Jurisdiction& j, const Facts& facts) {
  using Kind = Verdict::Kind;
  const std::vector<Verdict> verdicts = judge_rows(j, facts);
  if (const auto blocking = rows_of(verdicts, Kind::blocks); !blocking.empty())
    return {Standing::blocked, blocking};
  if (const auto doubts = rows_of(verdicts, Kind::doubtful); !doubts.empty())
    return {Standing::unknown, doubts};
  std::vector<RowWords> rows = rows_of(verdicts, Kind::no_hindrance);
  if (!facts.answer) return {Standing::ask_authority, rows};
  rows.insert(rows.begin(), RowWords{j.authority, in_marks(*facts.answer), {}, {}});
  return {Standing::answered, rows};
}

}  // namespace aftercut::burn
