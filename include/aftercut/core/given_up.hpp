#pragma once
// Thrown by a progress function when nobody wants the result any more: not an error of ours, caught by who
// started the work.

namespace aftercut {

struct GivenUp {};

}  // namespace aftercut
