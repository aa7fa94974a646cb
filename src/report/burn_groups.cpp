#include "burn_groups.hpp"

#include <algorithm>
#include <map>

namespace aftercut::report {
namespace {

/// The element that `same` holds for; a new one made by `make` at the end where there is none.
template <class T, class Same, class Make>
T& found_or_added(std::vector<T>& all, Same same, Make make) {
  const auto at = std::find_if(all.begin(), all.end(), same);
  if (at != all.end()) return *at;
  all.push_back(make());
  return all.back();
}

/// Rows of one name and one quotation.
std::vector<SharedRow> by_row(const std::vector<RowsOf>& fields) {
  std::vector<SharedRow> out;
  for (const RowsOf& of : fields)
    for (const burn::RowWords& row : of.rows) {
      SharedRow& shared = found_or_added(
          out,
          [&](const SharedRow& r) {
            return r.names.front() == row.name && r.quote == row.quote && r.source == row.source;
          },
          [&] {
            return SharedRow{{row.name}, row.quote, row.source, {}};
          });
      found_or_added(
          shared.reasons, [&](const SharedReason& r) { return r.why == row.why; },
          [&] {
            return SharedReason{row.why, {}};
          })
          .fields.push_back(of.field);
    }
  return out;
}

}  // namespace

std::vector<SharedRow> shared_rows(const std::vector<RowsOf>& fields) {
  std::vector<SharedRow> out;
  for (SharedRow& row : by_row(fields)) {
    SharedRow& same = found_or_added(
        out,
        [&](const SharedRow& r) {
          return r.quote == row.quote && r.source == row.source && r.reasons == row.reasons;
        },
        [&] {
          return SharedRow{{}, row.quote, row.source, row.reasons};
        });
    same.names.push_back(row.names.front());
  }
  return out;
}

std::string common_source(const std::vector<SharedRow>& rows) {
  std::map<std::string, std::size_t> times;
  std::size_t all = 0;
  for (const SharedRow& r : rows) {
    times[r.source] += r.names.size();
    all += r.names.size();
  }
  for (const auto& [source, n] : times)
    if (!source.empty() && n >= 2 && 2 * n > all) return source;
  return {};
}

}  // namespace aftercut::report
