#pragma once
// Ways between fields: by the farm's roads where they are drawn, else straight distance times a detour.

#include <string>
#include <vector>

#include "aftercut/geo/shape.hpp"

namespace aftercut::farm {

enum class RoadState { passable, soft, closed };  ///< soft: after rain it carries no loaded wagons

struct Road {
  std::string name;
  RoadState state = RoadState::passable;
  geo::Path line;
};

/// How loaded wagons get from a field to the yard.
enum class Access {
  hard,  ///< in any weather
  soft,  ///< over soft roads only
  none   ///< no way by road: across the fields, as if soft
};

struct Travel {
  std::vector<std::vector<double>> km;  ///< [field][field] way between two; empty: none is counted
  std::vector<Access> access;           ///< [field]; empty: hard everywhere
  double soft_rain_mm = 10.0;           ///< rain that makes soft roads soft. Source: SoftRoad (assumed)
  int soft_days = 2;  ///< days after such a day, itself counted beside. Source: SoftRoad (assumed)
};

struct RoadMap {
  std::vector<Road> roads;
  geo::Point yard;  ///< where loaded wagons go
};

/// Ways between the fields' outlines. Outlines within 30 m are neighbours: one drives over. Where no road
/// leads, straight distance times `detour` holds. `roads` null: none are drawn.
Travel ways_between(const std::vector<geo::Shape>& fields, const RoadMap* roads, double detour);

/// How a loaded wagon gets from a field to a stack place.
enum class WayKind {
  straight,   ///< no road leads there, or none is drawn: straight distance times a detour
  beside,     ///< the place lies beside the field: straight
  hard_road,  ///< in any weather
  soft_road   ///< over soft roads, as no other leads there: not while those carry no loaded wagon
};

struct StackWay {
  double metres = 0.0;
  WayKind kind = WayKind::straight;
  friend bool operator==(const StackWay&, const StackWay&) = default;
};

/// [field][stack place] from the middle of the field to the place. A loaded wagon goes by roads that carry it
/// in any weather where such a way leads, else over soft roads, never over closed ones. `roads` null: none
/// are drawn.
std::vector<std::vector<StackWay>> stack_ways(const std::vector<geo::Shape>& fields,
                                              const std::vector<geo::Shape>& places, const RoadMap* roads,
                                              double detour);

}  // namespace aftercut::farm
