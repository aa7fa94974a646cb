#include "strips.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "plane.hpp"

namespace aftercut::geo {
namespace {

bool meet(const StripPiece& a, const StripPiece& b) { return a.from < b.to && b.from < a.to; }

std::size_t neighbours(const std::vector<StripPiece>& pieces, const StripPiece& p, int strip) {
  return static_cast<std::size_t>(std::count_if(pieces.begin(), pieces.end(), [&](const StripPiece& other) {
    return other.strip == strip && meet(p, other);
  }));
}

/// The piece of the strip before that this one alone goes on from; the end when there is none.
std::vector<StripPiece>::const_iterator goes_on_from(const std::vector<StripPiece>& pieces,
                                                     const StripPiece& p) {
  const auto before = std::find_if(pieces.begin(), pieces.end(), [&](const StripPiece& other) {
    return other.strip == p.strip - 1 && meet(p, other);
  });
  if (before == pieces.end() || neighbours(pieces, p, p.strip - 1) != 1 ||
      neighbours(pieces, *before, p.strip) != 1)
    return pieces.end();
  return before;
}

using Block = std::vector<StripPiece>;

/// One way to drive a block: from its first or last strip, from the near or far end of that.
struct Way {
  bool last_first = false, from_right = false;
};
constexpr Way ways[] = {{false, false}, {false, true}, {true, false}, {true, true}};

Point start_of(const Block& block, Way way) {
  const StripPiece& p = way.last_first ? block.back() : block.front();
  return {way.from_right ? p.to : p.from, p.y};
}

/// Adds the passes of a block to the drive.
Drive with_block(Drive drive, const Block& block, Way way) {
  bool right = way.from_right;
  for (std::size_t k = 0; k < block.size(); ++k) {
    const StripPiece& p = block[way.last_first ? block.size() - 1 - k : k];
    const Driven pass{{right ? p.to : p.from, p.y}, {right ? p.from : p.to, p.y}, p.block};
    if (k > 0) {
      ++drive.turns;
      drive.staggered_m += std::abs(pass.from.x - drive.passes.back().to.x);
    }
    drive.passes.push_back(pass);
    right = !right;
  }
  return drive;
}

}  // namespace

std::vector<StripPiece> group_into_blocks(std::vector<StripPiece> pieces) {
  int next = 0;
  for (StripPiece& p : pieces) {
    const auto before = goes_on_from(pieces, p);
    p.block = before == pieces.end() ? next++ : before->block;
  }
  return pieces;
}

Drive drive_order(const std::vector<StripPiece>& pieces) {
  std::map<int, Block> left;
  for (const StripPiece& p : pieces) left[p.block].push_back(p);
  Drive drive;
  while (!left.empty()) {
    if (drive.passes.empty()) {
      drive = with_block(drive, left.begin()->second, Way{});
      left.erase(left.begin());
      continue;
    }
    const Point here = drive.passes.back().to;
    double nearest = std::numeric_limits<double>::infinity();
    int block = 0;
    Way best;
    for (const auto& [number, candidate] : left)
      for (const Way way : ways)
        if (const double d = apart(here, start_of(candidate, way)); d < nearest - 1e-9) {
          nearest = d;
          block = number;
          best = way;
        }
    drive.between_blocks_m += nearest;
    drive = with_block(drive, left.at(block), best);
    left.erase(block);
  }
  return drive;
}

}  // namespace aftercut::geo
