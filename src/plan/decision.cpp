#include "aftercut/plan/decision.hpp"

#include "aftercut/plan/plan.hpp"

namespace aftercut::plan {

CostParts operator+(const CostParts& a, const CostParts& b) {
  CostParts c = a;
  c.fuel += b.fuel;
  c.wages += b.wages;
  c.hire += b.hire;
  c.twine += b.twine;
  c.repair += b.repair;
  c.water += b.water;
  c.fees += b.fees;
  c.late += b.late;
  c.unplanted += b.unplanted;
  c.straw_income += b.straw_income;
  c.lease_income += b.lease_income;
  c.ownership += b.ownership;
  c.own_labour += b.own_labour;
  return c;
}

}  // namespace aftercut::plan
