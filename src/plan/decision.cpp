#include "aftercut/plan/decision.hpp"

#include <algorithm>
#include <tuple>

#include "aftercut/plan/plan.hpp"

namespace aftercut::plan {

CostParts operator+(const CostParts& a, const CostParts& b) {
  CostParts c = a;
  for (const CostPart& part : cost_parts) c.*part.of += b.*part.of;
  return c;
}

CostParts operator-(const CostParts& a, const CostParts& b) {
  CostParts c;
  for (const CostPart& part : cost_parts) c.*part.of = a.*part.of - b.*part.of;
  return c;
}

YearRun in_day_order(YearRun run) {
  std::sort(run.work.begin(), run.work.end(), [](const Work& a, const Work& b) {
    return std::tuple{a.day, a.start_min, a.field} < std::tuple{b.day, b.start_min, b.field};
  });
  std::sort(run.water.begin(), run.water.end(), [](const WaterIn& a, const WaterIn& b) {
    return std::tuple{a.day, a.field} < std::tuple{b.day, b.field};
  });
  return run;
}

}  // namespace aftercut::plan
