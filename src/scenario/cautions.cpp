#include "aftercut/scenario/cautions.hpp"

#include <algorithm>

namespace aftercut::scenario {
namespace {

/// A field under its chosen method.
struct Case {
  const farm::Farm& farm;
  const farm::Field& field;
  const method::Recipe& recipe;
};

bool always(const Case&) { return true; }
bool burns(const Case& c) { return c.recipe.burns; }
bool bales(const Case& c) { return c.recipe.bales; }
bool floods(const Case& c) { return c.recipe.water.has_value(); }
bool has_banks(const Case& c) { return floods(c) || !c.field.levees.empty(); }
bool wet_tracks(const Case& c) { return c.field.ground.state != farm::GroundState::firm; }

template <class Wanted>
bool uses(const Case& c, Wanted wanted) {
  return std::any_of(c.recipe.steps.begin(), c.recipe.steps.end(), [&](const method::Step& s) {
    return wanted(c.farm.book.operations[static_cast<std::size_t>(s.operation)]);
  });
}

bool tills_or_chops(const Case& c) {
  return uses(c, [](const method::Operation& op) { return op.tillage || op.implement == "chopper"; });
}

/// A power line so near that a burn or a stack on the field has to mind it. Source: LineNear (assumed)
bool near_a_line(const Case& c) {
  constexpr double near_m = 100.0;
  return (c.recipe.burns || c.recipe.bales) &&
         std::any_of(c.farm.places.begin(), c.farm.places.end(), [&](const farm::Place& p) {
           return p.kind == farm::PlaceKind::power_line &&
                  geo::distance(c.field.shape, p.shape).value() <= near_m;
         });
}

struct Row {
  const char* about;
  const char* text;
  const char* source;
  bool (*applies)(const Case&);
};

constexpr Row rows[] = {
    {"burning",
     "The named authority decides, on the day. Ask for the permit and the day's call, tell the neighbours "
     "and the fire "
     "service, and keep crew, water and a clean firebreak on hand until the field is out.",
     "common practice", burns},
    {"burning",
     "Dry, windy air carries fire over a break; damp straw makes more smoke. Either is a reason to leave it "
     "for another "
     "day.",
     "common practice", burns},
    {"burning",
     "At least two adults who do nothing else until it is out, and someone to warn the traffic where smoke "
     "can drift "
     "over a road.",
     "BurnCrew (read second-hand)", burns},
    {"burning",
     "Cotton or wool, long and whole, leather boots and gloves, eyes covered; no nylon or polyester near "
     "fire.",
     "BurnClothing (read)", burns},
    {"smoke",
     "Keep people with weak lungs and workers downwind out of the smoke; it harms before it is thick.",
     "Torigoe2000 (read)", burns},
    {"lines",
     "A power line is within 100 m: no stack and no fire under it, stay 10 m off with bales and loaders, and "
     "ask the "
     "line's owner before a burn.",
     "UKfire (read)", near_a_line},
    {"stacks",
     "Large square bales above 14 % moisture can heat; probe new stacks for at least six weeks without "
     "walking on them, "
     "and call the fire service from 71 °C (160 °F).",
     "CDQA2020 (read), StackLadder (read second-hand)", bales},
    {"stacks",
     "Leave 10 m between stacks and to buildings and lines; insurers often ask for 30 m. No stack in line "
     "with the wind "
     "towards the next.",
     "UKfire (read), StackInsurer (read)", bales},
    {"bales", "Keep people clear of falling bales and children away from stacks; overlap the layers.",
     "UKfire (read)", bales},
    {"machine fires",
     "Blow chaff off the baler every 50 to 75 bales and at the day's end, feel for hot bearings, cool down "
     "before parking "
     "on straw or indoors, and carry an extinguisher. Call for help before fighting a fire.",
     "MachineFires (read second-hand)", bales},
    {"banks",
     "Keep wheels at least one bank depth from the edge of ditches, canals and levees, more on wet or sandy "
     "ground.",
     "ABE305 (read)", has_banks},
    {"overturns",
     "Most tractors that overturn go over sideways, on banks and at ditches: protective frame up, belt on.",
     "Overturns (read, the belt read second-hand)", has_banks},
    {"flooded ground",
     "No lone work at deep checks, pumps and gates; no machine on a soaked levee; switch off and lock before "
     "clearing a "
     "pump.",
     "from memory", floods},
    {"flooded ground",
     "A tractor that goes over into a canal can drown its driver. Cold water takes the breath.",
     "CanalOverturn (read, cold water from memory)", floods},
    {"mud",
     "A stuck tractor is freed slowly, with a low chain to another machine and nobody near it; no logs on "
     "the wheels.",
     "ABE305 (read)", wet_tracks},
    {"dust", "Chopping and tilling dry ground raise dust: cab shut, filters clean, others upwind.",
     "common practice", tills_or_chops},
    {"shafts", "Guards on, engine off before clearing the chopper, baler or pump shaft.", "common practice",
     always},
    {"storms", "No field work in a thunderstorm; do not shelter under lone trees or masts.", "from memory",
     always},
    {"roads", "Wide machines on a public road: folded, lit and marked as the local rules ask.",
     "common practice", always},
};

}  // namespace

std::vector<plan::Caution> cautions(const farm::Farm& farm, const plan::Decision& decision) {
  std::vector<plan::Caution> all;
  for (const Row& row : rows) {
    plan::Caution caution{row.about, row.text, row.source, {}};
    for (std::size_t f = 0; f < farm.fields.size(); ++f) {
      const int m = decision.method[f];
      if (m != plan::none &&
          row.applies({farm, farm.fields[f], farm.book.recipes[static_cast<std::size_t>(m)]}))
        caution.fields.push_back(static_cast<int>(f));
    }
    if (!caution.fields.empty()) all.push_back(std::move(caution));
  }
  return all;
}

}  // namespace aftercut::scenario
