#pragma once
// The sanitizers make code about ten times slower: what searches for long searches less under them. They look
// for wrong memory and overflow, which a shorter search of the same code shows as well.

namespace aftercut::test {

#if defined(AFTERCUT_SANITIZED)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif

}  // namespace aftercut::test
