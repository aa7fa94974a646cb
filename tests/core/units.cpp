// Compiles as it stands; with FAULT set to 1 to 8 one line mixes units or names up and it must not compile.
#include "aftercut/core/ids.hpp"
#include "aftercut/core/quantity.hpp"

#ifndef FAULT
#define FAULT 0
#endif

namespace {

using namespace aftercut;

constexpr double tonnes(KgPerHa load, Hectare area) { return load.value() * area.value() / 1000.0; }
constexpr KgPerHa load{8000.0};
constexpr Hectare area{10.0};

static_assert(tonnes(load, area) == 80.0);
static_assert(load + KgPerHa{500.0} > load);
static_assert(load / KgPerHa{4000.0} == 2.0);
static_assert((2.0 * area).value() == 20.0 && (area / 2.0).value() == 5.0);

#if FAULT == 1
constexpr double swapped = tonnes(area, load);
#elif FAULT == 2
constexpr double bare = tonnes(8000.0, area);
#elif FAULT == 3
constexpr auto sum = load + Millimetre{5.0};
#elif FAULT == 4
constexpr bool less = Hours{1.0} < HaPerHour{2.0};
#elif FAULT == 5
constexpr Celsius warm = 20.0;
#elif FAULT == 6
constexpr double plain = area;
#elif FAULT == 7
const FieldId field = MachineId{"tractor"};
#elif FAULT == 8
constexpr auto product = load * area;
#endif

}  // namespace
