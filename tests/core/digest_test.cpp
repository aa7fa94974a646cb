// SHA-256 of the texts of the standard. Source: FIPS180 (recalled)
#include "aftercut/core/digest.hpp"

#include "catch2/catch.hpp"

using aftercut::sha256_hex;

TEST_CASE("SHA-256 of the standard's texts", "[recalled]") {
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256_hex(std::string(1000000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("one bit changes the sum; zero bytes count", "[identity]") {
  CHECK(sha256_hex("abc") != sha256_hex("abb"));
  CHECK(sha256_hex(std::string("a\0", 2)) != sha256_hex("a"));
}
