#pragma once
// Who gets how much of what many farms share: each farm offers a few plans of its own with what each needs,
// and one offer of each is taken so that the needs fit. Prices on what is shared lead the way; they also
// bound what any such choice costs.

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "aftercut/plan/region.hpp"

namespace aftercut::planner {

struct Offer {
  double cents = 0.0;
  plan::Shares needs{};
};

struct SharedOut {
  std::vector<std::size_t> taken;  ///< [farm] index of its offer
  double cents = 0.0;
  double bound_cents = 0.0;  ///< no choice of these offers that fits costs less
  plan::Shares prices{};     ///< cents for one more unit, at the best bound
  bool fits = true;          ///< false: some farm offers nothing small enough; the nearest choice found
};

/// Every farm has an offer at least. A limit that is none binds nobody.
SharedOut share_out(const std::vector<std::vector<Offer>>& offers,
                    const std::array<std::optional<double>, plan::shared_kinds>& limits);

}  // namespace aftercut::planner
