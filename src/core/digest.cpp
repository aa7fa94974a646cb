#include "aftercut/core/digest.hpp"

#include <fmt/format.h>
#include <openssl/sha.h>

#include <array>

namespace aftercut {

std::string sha256_hex(std::string_view text) {
  std::array<unsigned char, SHA256_DIGEST_LENGTH> sum{};
  SHA256(reinterpret_cast<const unsigned char*>(text.data()), text.size(), sum.data());
  std::string hex;
  for (const unsigned char byte : sum) hex += fmt::format("{:02x}", byte);
  return hex;
}

}  // namespace aftercut
