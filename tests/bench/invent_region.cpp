// Writes an invented region to plan: invent_region FOLDER [FARMS [FIELDS_A_FARM]]

#include <cstdio>
#include <cstdlib>

#include "invented_region.hpp"

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("invent_region FOLDER [FARMS [FIELDS_A_FARM]]\n", stderr);
    return 2;
  }
  aftercut::test::InventedRegion what{.farms = 200};
  if (count > 2) what.farms = std::atoi(words[2]);
  if (count > 3) what.fields_a_farm = std::atoi(words[3]);
  aftercut::test::write_invented_region(words[1], what);
  return 0;
}
