#pragma once
// A fault on purpose: it uses a type without including its header. The test of the headers must catch it.

inline Hectare twice(Hectare area) { return 2.0 * area; }
