#include "year_columns.hpp"

#include <algorithm>

namespace aftercut::audit {
namespace {

double mean_of_sum(double sum, std::size_t n) { return n == 0 ? 0.0 : sum / static_cast<double>(n); }

}  // namespace

double between(std::vector<double> values, double p) {
  std::sort(values.begin(), values.end());
  const double at = p * static_cast<double>(values.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  if (low + 1 >= values.size()) return values.back();
  return values[low] + (at - static_cast<double>(low)) * (values[low + 1] - values[low]);
}

void Column::add(double x, bool is_shown) {
  sum += x;
  all.push_back(x);
  if (is_shown) shown.push_back(x);
}
double Column::mean() const { return mean_of_sum(sum, all.size()); }
double Column::at(double p) const { return all.empty() ? 0.0 : between(shown.empty() ? all : shown, p); }

void RangeColumn::add(const Uncertain& u, bool is_shown) {
  mid.add(u.mid, is_shown);
  low_sum += u.low;
  high_sum += u.high;
}
double RangeColumn::low() const { return mean_of_sum(low_sum, mid.all.size()); }
double RangeColumn::high() const { return mean_of_sum(high_sum, mid.all.size()); }

}  // namespace aftercut::audit
